import { MissingLine } from './MissingSheet.tsx';
import { DemoMark } from '../drawing/DemoMark.tsx';
import type { VNode } from 'preact';
import { bearingDistance } from '../../core/earth/bearing-distance.ts';
import { coveringPolygon } from '../../core/place/area.ts';
import { heightStepsOf } from '../../core/plan/plan.ts';
import { TIME_CHECK_SECONDS } from '../../core/plan/radio-script.ts';
import { TOLD_FOR_KNOTS } from '../../core/place/told-area.ts';
import { PERMISSION_WORDS } from '../../core/checks/booking-checks.ts';
import { STANDING_CAUTIONS } from '../../core/checks/standing-cautions.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { metresFromFeet } from '../../core/units/quantity.ts';
import { formatBearing, formatLatitude, formatLongitude, formatNumber } from '../../core/text/number-formats.ts';
import { altimeterWords } from '../words/altimeter-words.ts';
import { circleWords } from '../words/circle-words.ts';
import { clockText } from '../words/clock.ts';
import { type Briefing, briefClock, briefDay } from './briefing.ts';
import { useUnitText } from '../fields/units-context.ts';

/** Ships keep their height within this; the block told to the controller is as much higher and lower. */
const HEIGHT_MARGIN_FEET = 500;
/** Ships come early and leave late by this much. */
const TIME_MARGIN_MILLISECONDS = 15 * 60_000;
const ANNOUNCED = ['waiver', 'controller', 'traffic', 'people'];

/** One page for the controller: where, how high, when, who, and how it is called off. */
export function ControllerNotice({ briefing }: { readonly briefing: Briefing }): VNode {
  const { job, corridor, geodetic, planned } = briefing;
  const units = useUnitText();
  const circle = briefing.shipsCircle;
  const alone = planned.plan.ships.length === 1;
  const centre = geodetic(circle.centre);
  const whole = corridor.wholeCircle;
  const fromSite = bearingDistance(job.site, centre);
  const { lowestMetres, highestMetres } = heightStepsOf(planned.plan);
  const layerMetres = metresFromFeet(job.layer.altitudeFeet);
  // A block rounded inwards would leave part of the flying outside.
  const low = units.height.rounded(layerMetres + lowestMetres - metresFromFeet(HEIGHT_MARGIN_FEET), 1, 'down');
  const high = units.height.rounded(layerMetres + highestMetres + metresFromFeet(HEIGHT_MARGIN_FEET), 1, 'up');
  const altimeter = altimeterWords(job, units);
  return (
    <article class="sheet notice-sheet" aria-label="Notice for the controller">
      <header>
        <h2>Sky writing, notice for the controller</h2>
        <p>
          {briefDay(briefing)}, {job.site.name === '' ? 'site’s name not entered' : job.site.name}
        </p>
        <DemoMark job={job} />
      </header>
      <dl>
        <dt>Ships</dt>
        <dd>{job.ships.map(({ name }) => name).join(', ')}</dd>
        <dt>In the area</dt>
        <dd>
          {briefClock(briefing, briefing.datumMilliseconds - TIME_MARGIN_MILLISECONDS)} to{' '}
          {briefClock(briefing, briefing.datumMilliseconds + planned.plan.durationSeconds * 1000 + TIME_MARGIN_MILLISECONDS)}
        </dd>
        <dt>Writing</dt>
        <dd>
          {briefClock(briefing, briefing.datumMilliseconds)} to {briefClock(briefing, briefing.datumMilliseconds + planned.plan.durationSeconds * 1000)}
        </dd>
        <dt>Heights</dt>
        <dd>
          {units.height.number(low)} to {units.height.text(high)} above mean sea level; level turns up to{' '}
          {formatNumber(Math.max(...job.ships.map(({ maximumBankDegrees }) => maximumBankDegrees)))}° of bank
        </dd>
        <dt>Ships within</dt>
        <dd>
          {circleWords(circle.radiusMetres, centre, units.distance)}, that is {units.distance.text(fromSite.distanceMetres, 1)} on{' '}
          {formatBearing(degreesFromRadians(fromSite.bearingRadians))}° true from {job.site.name === '' ? 'the crowd' : job.site.name}
          {!alone && `; from ${-TIME_CHECK_SECONDS / 60} minutes before the first smoke on circles that drift with the wind, each ship at its own height`}
        </dd>
        <dt>Smoke, drifting until about {briefClock(briefing, briefing.goneMilliseconds)}</dt>
        <dd>
          within {circleWords(whole.radiusMetres, geodetic(whole.centre), units.distance)}, ships and drift together, and inside the polygon below; smoke hides
          the horizon and other traffic, so keep others out of it
        </dd>
        <dt>Radio</dt>
        <dd>
          {job.frequencies.length === 0
            ? 'not entered'
            : job.frequencies.map(({ use, megahertz }) => `${use === '' ? 'use not entered,' : use} ${megahertz.toFixed(3)} MHz`).join(', ')}
        </dd>
        {job.booking.permissions.length > 0 && (
          <>
            <dt>Permissions</dt>
            <dd>
              {job.booking.permissions
                .map(({ name, state, number }) => `${name === '' ? 'not named' : name}: ${PERMISSION_WORDS[state]}${number === '' ? '' : `, ${number}`}`)
                .join('; ')}
            </dd>
          </>
        )}
        <dt>Calling it off</dt>
        <dd>{job.knockItOffWords === '' ? 'words not entered' : `“${job.knockItOffWords}” on any of these`}; everyone stops smoke and levels off</dd>
      </dl>
      <div class="polygons">
        <Polygon
          title={alone ? `Ships, in any wind up to ${units.speed.own(TOLD_FOR_KNOTS)} off the forecast` : 'Ships, with the wind as forecast'}
          points={coveringPolygon(briefing.shipsArea, MOST_CORNERS).map(geodetic)}
        />
        <Polygon
          title={`Smoke, from first laid to ${clockText(briefing.goneMilliseconds, 'UTC')}`}
          points={coveringPolygon(corridor.smokeArea, MOST_CORNERS).map(geodetic)}
        />
      </div>
      <ul class="small">
        {STANDING_CAUTIONS.filter(({ id }) => ANNOUNCED.includes(id)).map(({ id, title, advice, source }) => (
          <li key={id}>
            <strong>{title}.</strong> {advice} ({source})
          </li>
        ))}
      </ul>
      <MissingLine job={job} />
      <p class="small">
        Wind {planned.air.windMissing === null ? 'by the job’s forecast' : `not known (${planned.air.windMissing})`}
        {alone
          ? `; once the wind is found in flight the word is hung for it, inside the ships’ area, and the smoke drifts with that wind.`
          : `; with another wind the area moves with it.`}{' '}
        Positions on WGS 84.{' '}
        {altimeter === null ? 'Heights by altimeter on the local setting.' : `Heights are true. At the layer the altimeter on ${altimeter}.`}
      </p>
    </article>
  );
}

interface PolygonProps {
  readonly title: string;
  readonly points: readonly { readonly latitudeDegrees: number; readonly longitudeDegrees: number }[];
}

/** More corners than a person types in. */
const MOST_CORNERS = 12;

function Polygon({ title, points }: PolygonProps): VNode {
  return (
    <section>
      <h3>{title}</h3>
      <ol>
        {points.map(({ latitudeDegrees, longitudeDegrees }) => (
          <li key={`${latitudeDegrees} ${longitudeDegrees}`}>
            {formatLatitude(latitudeDegrees)} {formatLongitude(longitudeDegrees)}
          </li>
        ))}
      </ol>
    </section>
  );
}
