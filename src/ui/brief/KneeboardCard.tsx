import { counted } from '../../core/text/counted.ts';
import { MissingLine } from './MissingSheet.tsx';
import { DemoMark } from '../drawing/DemoMark.tsx';
import type { VNode } from 'preact';
import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import { type CardPiece, type CardStep, flightCard } from '../../core/plan/flight-card.ts';
import type { Plan, ShipPlan } from '../../core/plan/plan.ts';
import { bearingFromDirection, degreesFromRadians } from '../../core/units/angle.ts';
import { metresPerSecondFromKnots } from '../../core/units/quantity.ts';
import { formatBearing, formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { JobShip } from '../../core/job/job.ts';
import { shipAsFlown } from '../../core/job/common-limits.ts';
import { missingWindWords } from '../../core/job/job-air.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { altimeterWords } from '../words/altimeter-words.ts';
import { clockText } from '../words/clock.ts';
import { layerAir } from '../../app/draw/layer-air.ts';
import { PilotPicture } from '../drawing/PilotPicture.tsx';
import { type Briefing, briefClock, compassDegrees, briefDay, firstSmokeText, firstStroke } from './briefing.ts';
import { FormationNotes } from './FormationNotes.tsx';
import { firstFit, nextFit, type PageMeasure } from './card-fit.ts';
import { pieceWords } from './piece-words.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface KneeboardCardProps {
  readonly briefing: Briefing;
  readonly ship: ShipPlan;
  readonly night: boolean;
}

/** The picture takes so much of a page at most. */
const PICTURE_HEIGHT_PIXELS = 150;
/** A line of strokes is drawn level from so many on: it needs less height. */
const LEVEL_FROM_STROKES = 6;
/** A5, ISO 216, less what rounding may add. */
const PAGE_PIXELS = (210 / 25.4) * 96 - 1;

/** A page of a card: which strokes it holds, its number from 1 and how many there are. */
interface CardPage {
  readonly steps: readonly CardStep[];
  readonly number: number;
  readonly count: number;
  readonly points: number;
}

/**
 * One ship's card for the kneeboard, A5: the text as it looks from the cockpit, and its strokes in order, in the largest
 * type that fits one page, and never under 11 points: then it goes on overleaf. It is laid out until it fits, before it
 * is painted.
 */
export function KneeboardCard({ briefing, ship, night }: KneeboardCardProps): VNode {
  const steps = useMemo(() => flightCard(ship), [ship]);
  const [fit, setFit] = useState(() => firstFit(steps.length));
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => setFit(firstFit(steps.length)), [steps]);
  useLayoutEffect(() => {
    const sheets = [...(host.current?.querySelectorAll<HTMLElement>('article.card') ?? [])];
    const next = nextFit(fit, sheets.map(measured));
    if (next !== null) setFit(next);
  });
  const pages = useMemo((): CardPage[] => {
    let from = 0;
    return fit.strokesOnPages.map((strokes, index) => {
      const own = steps.slice(from, from + strokes);
      from += strokes;
      return { steps: own, number: index + 1, count: fit.strokesOnPages.length, points: fit.points };
    });
  }, [steps, fit]);
  return (
    <div class="card-pages" ref={host}>
      {pages.map((page) => (
        <CardSheet key={page.number} briefing={briefing} ship={ship} night={night} page={page} />
      ))}
    </div>
  );
}

/** How high a sheet and its strokes are on paper, also where the screen is narrower. */
function measured(sheet: HTMLElement): PageMeasure {
  sheet.style.maxWidth = 'none';
  sheet.dataset['measuring'] = '';
  const height = sheet.offsetHeight / PAGE_PIXELS;
  const rows = [...sheet.querySelectorAll<HTMLElement>('.steps tbody tr')].map(({ offsetHeight }) => offsetHeight / PAGE_PIXELS);
  sheet.style.maxWidth = '';
  delete sheet.dataset['measuring'];
  return { height, rows };
}

function CardSheet({ briefing, ship, night, page }: KneeboardCardProps & { readonly page: CardPage }): VNode {
  const { job, planned } = briefing;
  const jobShip = job.ships[ship.shipIndex];
  const units = useUnitText();
  const { fromRadians, speedMetresPerSecond } = windFromVector(planned.air.wind);
  const wind = planned.air.directionKnown
    ? { fromRadians, text: `${formatBearing(degreesFromRadians(fromRadians))}°T / ${units.speed.text(speedMetresPerSecond)}` }
    : null;
  const windWords =
    planned.air.windMissing !== null
      ? `${missingWindWords(planned.air)} Measure it before the first smoke.`
      : wind === null
        ? 'Wind light and variable: measure it before the first smoke.'
        : null;
  // All ships of a formation fly what the slowest and the gentlest can: the strokes' times hold for that alone.
  const flown = shipAsFlown(job, ship.shipIndex);
  const trueKnots = flown?.trueAirspeedKnots ?? NaN;
  const smokes = ship.legs.filter(({ kind }) => kind === 'smoke');
  const level = smokes.length >= LEVEL_FROM_STROKES;
  const startSeconds = (of: ShipPlan): number => firstStroke(of)?.startSeconds ?? Infinity;
  // The datum is the first smoke of the word, of whichever ship begins it; every other ship has a time and place of its own.
  const opener = planned.plan.ships.reduce((first, each) => (startSeconds(each) < startSeconds(first) ? each : first), ship);
  const others = opener === ship ? '' : `${job.ships[opener.shipIndex]?.name ?? 'lead'}’s `;
  const own = opener === ship ? '' : `${jobShip?.name ?? 'this ship'}’s own `;
  const altimeter = altimeterWords(job, units, ship.heightStepMetres);
  const first = page.number === 1;
  const last = page.number === page.count;
  const numbered = page.count > 1 ? `, page ${page.number} of ${page.count}` : '';
  return (
    <article
      class={`sheet card${night ? ' night' : ''}`}
      style={{ fontSize: `${page.points}pt` }}
      aria-label={`Card of ${jobShip?.name ?? 'the ship'}${numbered}`}
    >
      <header>
        <h2>
          {writtenWords(job)}{' '}
          <span class="ship">
            {jobShip?.name}
            {page.count > 1 && ` ${page.number}/${page.count}`}
          </span>
        </h2>
        <DemoMark job={job} />
        <p>
          {briefDay(briefing)} · {others}first smoke {briefClock(briefing, briefing.datumMilliseconds)}
          {own !== '' && `, ${own}${briefClock(briefing, briefing.datumMilliseconds + 1000 * startSeconds(ship))}`}
        </p>
        {first && (
          <>
            {windWords !== null && (
              <p>
                <strong>{windWords}</strong>
              </p>
            )}
            <p>
              {own === '' ? 'First smoke' : `${own}first smoke`} at {firstSmokeText(briefing, ship, units)}
            </p>
            <p>
              {units.height.text(planned.air.layerHeightMetres + ship.heightStepMetres)} · {units.speed.own(trueKnots)} true
              {trueKnots === jobShip?.trueAirspeedKnots ? '' : ' as the slowest ship'},{' '}
              {units.speed.number(metresPerSecondFromKnots(layerAir(job).calibratedKnots(trueKnots)))} calibrated · {bankWords(flown)} · run-in{' '}
              {formatNumber(job.options.runInSeconds)} s
            </p>
            {altimeter !== null && <p>Altimeter: {altimeter}</p>}
          </>
        )}
      </header>
      {first && (
        <PilotPicture
          ships={[ship]}
          shipNames={job.ships.map(({ name }) => name)}
          shipIndex={0}
          up={level ? { bearingRadians: levelUp(planned.plan, ship) } : 'first-stroke'}
          wind={wind}
          atSeconds={null}
          maximumHeightPixels={PICTURE_HEIGHT_PIXELS}
          description={`${writtenWords(job)} from above, as flown, ${level ? 'its line level' : 'first stroke up'}`}
        />
      )}
      <StepTable briefing={briefing} steps={page.steps} />
      <footer>
        {last && <CardNotes briefing={briefing} ship={ship} />}
        {last && <MissingLine job={job} />}
        <p class="knock">
          {job.knockItOffWords === '' ? 'Words that call it off: not entered. Then' : `“${job.knockItOffWords}”:`} smoke off, wings level, away from the others,
          say it back.
        </p>
        {last ? (
          <p class="small">Look outside first. Smoke hides horizon and traffic. Not for navigation or separation; local rules and licensed practice decide.</p>
        ) : (
          <p class="small">Goes on overleaf.</p>
        )}
      </footer>
    </article>
  );
}

/** Both banks, or the one where they are alike. */
function bankWords(ship: JobShip | undefined): string {
  const [writing, turning] = [ship?.writingBankDegrees ?? NaN, ship?.turningBankDegrees ?? NaN];
  return writing === turning ? `bank ${formatNumber(writing)}°` : `writing ${formatNumber(writing)}°, turning ${formatNumber(turning)}° of bank`;
}

/** The bearing at the top of a picture in which the text's line lies level, whichever of the two the first stroke is nearer to. */
function levelUp({ frame }: Plan, ship: ShipPlan): number {
  const first = firstStroke(ship);
  const heading = first === undefined ? 0 : bearingFromDirection(first.path.start.directionRadians);
  return Math.cos(heading - frame.facingRadians) >= 0 ? frame.facingRadians : frame.facingRadians + Math.PI;
}

/** Time hack, separation, oil and radio. */
function CardNotes({ briefing, ship }: { readonly briefing: Briefing; readonly ship: ShipPlan }): VNode {
  const units = useUnitText();
  const { job, planned } = briefing;
  return (
    <>
      <p>
        <strong>Time hack</strong> first smoke is zero; last smoke at {formatDuration(planned.plan.durationSeconds)}. Headings are{' '}
        {briefing.variationDegrees === null
          ? 'TRUE: no magnetic model for the day'
          : `magnetic${briefing.variationByHandOf === null ? '' : ` by the variation entered for ${briefing.variationByHandOf.slice(0, 10)}`}, in still air: fly the heading, the air does the rest`}
        .
      </p>
      {planned.plan.ships.length > 1 && (
        <p>
          <strong>Apart</strong> never nearer than {units.height.own(job.options.separationFeet)}. <FormationNotes briefing={briefing} ship={ship} />
        </p>
      )}
      <p>
        <strong>Smoke oil</strong> {units.mass.number(ship.oilKilograms)} of {units.mass.own(job.ships[ship.shipIndex]?.smokeOilPounds ?? NaN)} in{' '}
        {counted(ship.toggles, 'opening')}.
        {job.frequencies.length > 0 && (
          <>
            {' '}
            <strong>Radio</strong> {job.frequencies.map(({ use, megahertz }) => `${use === '' ? 'use not entered,' : use} ${megahertz.toFixed(3)}`).join(' · ')}
          </>
        )}
      </p>
    </>
  );
}

function StepTable({ briefing, steps }: { readonly briefing: Briefing; readonly steps: readonly CardStep[] }): VNode {
  const mark = briefing.variationDegrees === null ? '°T' : '°M';
  return (
    <table class="steps">
      <caption class="visually-hidden">
        Strokes in order; headings {briefing.variationDegrees === null ? 'true' : 'magnetic'}; L or R with the angle turned through and the heading to roll out
        on
      </caption>
      <thead>
        <tr>
          <th scope="col">#</th>
          <th scope="col">
            <span class="visually-hidden">Letter</span>
          </th>
          <th scope="col">UTC</th>
          <th scope="col">Way there: turn°→{mark}</th>
          <th scope="col">Smoke on: {mark} first</th>
          <th scope="col" class="number">
            s
          </th>
        </tr>
      </thead>
      <tbody>
        {steps.map((step) => (
          <StepRow key={step.strokeNumber} briefing={briefing} step={step} />
        ))}
      </tbody>
    </table>
  );
}

function StepRow({ briefing, step }: { readonly briefing: Briefing; readonly step: CardStep }): VNode {
  return (
    <tr>
      <th scope="row">{step.strokeNumber}</th>
      <td class="letter">{step.character}</td>
      <td class="clock">{clockText(briefing.datumMilliseconds + 1000 * step.startSeconds, 'UTC', { seconds: true }).split(' ')[0]}</td>
      <td>
        {step.way.length === 0 ? 'run-in' : <Pieces briefing={briefing} pieces={step.way} />}
        {step.holdSeconds > 0 && ` hold ${formatDuration(step.holdSeconds)}`}
        {step.way.length > 0 && <span class="seconds">={formatNumber(step.waySeconds)}s</span>}
      </td>
      <td>
        <strong>{formatBearing(compassDegrees(briefing, step.smokeHeadingRadians))}</strong>
        {step.smoke.length > 1 || step.smoke[0]?.kind !== 'straight' ? (
          <>
            {' '}
            <Pieces briefing={briefing} pieces={step.smoke} />
          </>
        ) : null}
      </td>
      <td class="number">{formatNumber(step.smokeSeconds)}</td>
    </tr>
  );
}

function Pieces({ briefing, pieces }: { readonly briefing: Briefing; readonly pieces: readonly CardPiece[] }): VNode {
  return (
    <span class="pieces">
      {pieceWords(pieces, (headingRadians) => compassDegrees(briefing, headingRadians)).map((word, index) => (
        <span key={index}>{word} </span>
      ))}
    </span>
  );
}
