import type { ComponentChildren, VNode } from 'preact';
import { placeName } from '../../core/job/crowd-place.ts';
import { PERMISSION_WORDS } from '../../core/checks/booking-checks.ts';
import { bearingDistance } from '../../core/earth/bearing-distance.ts';
import type { AirPoint } from '../../core/paths/air-path.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import type { ShipPlan } from '../../core/plan/plan.ts';
import { radioScript } from '../../core/plan/radio-script.ts';
import { CORRECTED_KNOTS, windCorrections } from '../../core/place/wind-corrections.ts';
import { formatBearing, formatDuration, formatLatitude, formatLongitude } from '../../core/text/number-formats.ts';
import { DemoMark } from '../drawing/DemoMark.tsx';
import { clockText } from '../words/clock.ts';
import { type Briefing, briefClock, briefDay, compassDegrees, compassFromDirection } from './briefing.ts';
import { MissingLine } from './MissingSheet.tsx';
import { useUnitText } from '../fields/units-context.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

const NOT_ENTERED = 'not entered';

/** One page for everyone who works that day: hours, permissions, people, calls, and where to begin in another wind. */
export function DaySheet({ briefing }: { readonly briefing: Briefing }): VNode {
  const { job } = briefing;
  const { booking, crew, viewingPlaces, site } = job;
  const units = useUnitText();
  const clock = (time: string | null): string => (time === null ? NOT_ENTERED : briefClock(briefing, Date.parse(time)));
  return (
    <article class="sheet day-sheet" aria-label="Day sheet">
      <header>
        <h2>{job.name}, the day</h2>
        <p>
          {briefDay(briefing)}, {site.name === '' ? 'site\u2019s name not entered' : site.name}
        </p>
        <DemoMark job={job} />
      </header>
      <dl>
        <dt>Report</dt>
        <dd>{clock(booking.reportTime)}</dd>
        <dt>Go or no-go called</dt>
        <dd>{clock(booking.callTime)}</dd>
        <dt>First smoke</dt>
        <dd>{briefClock(briefing, briefing.datumMilliseconds)}</dd>
        <dt>Read</dt>
        <dd>{briefClock(briefing, briefing.readMilliseconds)}</dd>
        <dt>Kept free</dt>
        <dd>
          {booking.spareTimes.length === 0
            ? 'no spare date entered'
            : booking.spareTimes.map((time) => clockText(Date.parse(time), site.timeZone, { day: 'weekday' })).join('; ')}
        </dd>
        {viewingPlaces.length > 0 && (
          <>
            <dt>Looked at from</dt>
            <dd>{[site, ...viewingPlaces].map(({ name }, index) => placeName(name, index)).join(', ')}</dd>
          </>
        )}
      </dl>
      <Rows
        title="Permissions"
        none="No permission was entered: ask what is needed."
        heads={['For', 'State', 'Number', 'Said by']}
        rows={booking.permissions.map(({ name, state, number, saidBy }) => [said(name), PERMISSION_WORDS[state], said(number), said(saidBy)])}
      />
      <Rows
        title="People"
        none="Nobody was entered."
        heads={['Name', 'Role', 'Telephone']}
        rows={crew.map(({ name, role, telephone }) => [said(name), said(role), said(telephone)])}
      />
      <Rows
        title="Calls"
        none=""
        heads={['When', 'Who', 'Says']}
        rows={radioScript(job, briefing.planned, (milliseconds) => briefClock(briefing, milliseconds), units).map(({ atSeconds, from, words }) => [
          atSeconds === null ? 'at once' : signed(atSeconds),
          from,
          words,
        ])}
      />
      <p class="small">
        Times count from the first smoke. The words are an example (common practice, no source): what was agreed with the controller and between the pilots
        stands.
      </p>
      <Rows
        title="Each ship, without a tablet"
        none=""
        heads={['Ship', 'Joins and leaves at', 'Circle', 'Own first smoke', 'Heading']}
        rows={briefing.planned.plan.ships.map((ship) => shipRow(briefing, ship, units))}
      />
      <Corrections briefing={briefing} />
      <MissingLine job={job} />
    </article>
  );
}

/** What one ship needs to be at its first stroke in time, from the hack alone. */
function shipRow(briefing: Briefing, ship: ShipPlan, units: UnitText): string[] {
  const { job, planned, geodetic } = briefing;
  const first = ship.legs.find(({ kind }) => kind === 'smoke');
  const { wind, layerHeightMetres } = planned.air;
  const place = (point: AirPoint, atSeconds: number): string => {
    const { latitudeDegrees, longitudeDegrees } = geodetic(siteFromAir(point, wind, atSeconds));
    return `${formatLatitude(latitudeDegrees)} ${formatLongitude(longitudeDegrees)}`;
  };
  return [
    job.ships[ship.shipIndex]?.name ?? '',
    units.height.text(layerHeightMetres + (ship.ownHeightStepMetres ?? ship.heightStepMetres)),
    ship.joinUp === undefined ? 'alone' : `${ship.joinUp.holdTurn} round ${place(ship.joinUp.holdCentre, ship.joinUp.leg.startSeconds)}`,
    first === undefined ? '' : `${signed(first.startSeconds)} at ${place(first.path.start, first.startSeconds)}`,
    first === undefined
      ? ''
      : `${formatBearing(compassFromDirection(briefing, first.path.start.directionRadians))}\u00b0 ${briefing.variationDegrees === null ? 'true' : 'magnetic'}`,
  ];
}

/** Where the first smoke comes on when the wind found differs from the planned one; for whoever flies without a tablet. */
export function Corrections({ briefing }: { readonly briefing: Briefing }): VNode {
  const { job, corridor, planned, geodetic } = briefing;
  const units = useUnitText();
  const rows = windCorrections(corridor.firstSmoke, planned.readSeconds);
  const [point = { ...job.site }] = job.namedPoints;
  const name = job.namedPoints[0]?.name ?? placeName(job.site.name);
  const cell = (moreFromDegrees: number, moreKnots: number): string => {
    const row = rows.find((each) => each.moreFromDegrees === moreFromDegrees && each.moreKnots === moreKnots);
    if (row === undefined) return '';
    const { bearingRadians, distanceMetres } = bearingDistance(point, geodetic(row.firstSmoke));
    return `${formatBearing(compassDegrees(briefing, bearingRadians))}\u00b0 ${units.distance.text(distanceMetres, 1)}`;
  };
  const place = geodetic(corridor.firstSmoke);
  const planned0 = bearingDistance(point, place);
  return (
    <section class="corrections">
      <h3>First smoke in another wind</h3>
      <p class="small">
        As planned: {formatLatitude(place.latitudeDegrees)} {formatLongitude(place.longitudeDegrees)},{' '}
        {formatBearing(compassDegrees(briefing, planned0.bearingRadians))}
        {'\u00b0'} {units.distance.text(planned0.distanceMetres, 1)} from {name}. Take the planned wind from the found one; what is left, from where and how
        strong, is looked up here. {briefing.variationDegrees === null ? 'Bearings from the point are true' : 'Bearings from the point are magnetic'}, the wind
        is true. Headings and seconds of the strokes stay.
      </p>
      <table class="figures">
        <thead>
          <tr>
            <th scope="col">More wind from</th>
            {CORRECTED_KNOTS.map((knots) => (
              <th key={knots} scope="col">
                {units.speed.own(knots)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {[...new Set(rows.map(({ moreFromDegrees }) => moreFromDegrees))].map((from) => (
            <tr key={from}>
              <th scope="row">
                {formatBearing(from)}
                {'\u00b0'}
              </th>
              {CORRECTED_KNOTS.map((knots) => (
                <td key={knots}>{cell(from, knots)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Rows({
  title,
  none,
  heads,
  rows,
}: {
  readonly title: string;
  readonly none: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly ComponentChildren[])[];
}): VNode {
  return (
    <section>
      <h3>{title}</h3>
      {rows.length === 0 ? (
        <p class="small">{none}</p>
      ) : (
        <table class="figures">
          <thead>
            <tr>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (
              <tr key={index}>
                {row.map((each, at) => (
                  <td key={at}>{each}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

const said = (text: string): string => (text === '' ? NOT_ENTERED : text);
const signed = (seconds: number): string => (seconds > 0 ? `+${formatDuration(seconds)}` : formatDuration(seconds));
