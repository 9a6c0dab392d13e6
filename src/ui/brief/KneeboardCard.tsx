import type { VNode } from 'preact';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import { type CardPiece, type CardStep, flightCard } from '../../core/planning/flight-card.ts';
import type { ShipPlan } from '../../core/planning/plan.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { knotsFromMetresPerSecond, poundsFromKilograms } from '../../core/units/quantity.ts';
import { formatBearing, formatDuration, formatNumber } from '../parts/number-formats.ts';
import { PilotPicture } from '../parts/PilotPicture.tsx';
import { type Briefing, clockText, compassDegrees, dayText } from './briefing.ts';

export interface KneeboardCardProps {
  readonly briefing: Briefing;
  readonly ship: ShipPlan;
  readonly night: boolean;
}

const PICTURE_HEIGHT_PIXELS = 215;

/** One ship's card for the kneeboard, A5: the text as it looks from the cockpit, and its strokes in order. */
export function KneeboardCard({ briefing, ship, night }: KneeboardCardProps): VNode {
  const { job, planned } = briefing;
  const jobShip = job.ships[ship.shipIndex];
  const steps = flightCard(ship);
  const { fromRadians, speedMetresPerSecond } = windFromVector(planned.air.wind);
  const wind = planned.air.directionKnown ? { fromRadians, text: `${formatBearing(degreesFromRadians(fromRadians))} / ${formatNumber(knotsFromMetresPerSecond(speedMetresPerSecond))} kt` } : null;
  return (
    <article class={night ? 'sheet card night' : 'sheet card'} aria-label={`Card of ${jobShip?.name ?? 'the ship'}`}>
      <header>
        <h2>
          {job.text} <span class="ship">{jobShip?.name}</span>
        </h2>
        <p>
          {dayText(briefing)} · first smoke {clockText(briefing, briefing.datumMilliseconds)}
        </p>
        <p>
          {formatNumber(job.layer.altitudeFeet + ship.heightStepMetres / 0.3048)} ft · {formatNumber(jobShip?.trueAirspeedKnots ?? NaN)} kt true · writing {formatNumber(jobShip?.writingBankDegrees ?? NaN)}°, turning{' '}
          {formatNumber(jobShip?.turningBankDegrees ?? NaN)}° of bank · run-in {formatNumber(job.options.runInSeconds)} s
        </p>
      </header>
      <PilotPicture
        ships={[ship]}
        shipNames={job.ships.map(({ name }) => name)}
        shipIndex={0}
        up="first-stroke"
        wind={wind}
        atSeconds={null}
        maximumHeightPixels={PICTURE_HEIGHT_PIXELS}
        description={`${job.text} from above, as flown, first stroke up`}
      />
      <table class="steps">
        <caption class="visually-hidden">Strokes in order; headings {briefing.variationDegrees === null ? 'true' : 'magnetic'}</caption>
        <thead>
          <tr>
            <th scope="col">#</th>
            <th scope="col">Letter</th>
            <th scope="col">Way there, smoke off</th>
            <th scope="col">Smoke on, heading</th>
            <th scope="col" class="number">Seconds</th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step) => (
            <StepRow key={step.strokeNumber} briefing={briefing} step={step} />
          ))}
        </tbody>
      </table>
      <footer>
        <p>
          <strong>Time hack</strong> first smoke is zero; last smoke at {formatDuration(planned.plan.durationSeconds)}. Headings are {briefing.variationDegrees === null ? 'TRUE: no magnetic model for the day' : 'magnetic, in still air: fly the heading, the air does the rest'}.
        </p>
        {planned.plan.ships.length > 1 && (
          <p>
            <strong>Apart</strong> never nearer than {formatNumber(job.options.separationFeet)} ft; on a late start keep your own clock. Formation only as arranged between all pilots in command.
          </p>
        )}
        <p>
          <strong>Smoke oil</strong> {formatNumber(poundsFromKilograms(ship.oilKilograms))} of {formatNumber(jobShip?.smokeOilPounds ?? NaN)} lb in {ship.toggles} openings.
        </p>
        {job.frequencies.length > 0 && (
          <p>
            <strong>Radio</strong> {job.frequencies.map(({ use, megahertz }) => `${use} ${megahertz.toFixed(3)}`).join(' · ')}
          </p>
        )}
        <p class="knock">
          “{job.knockItOffWords}”: smoke off, wings level, away from the others, say it back.
        </p>
        <p class="small">Look outside first. Smoke hides horizon and traffic. Not for navigation or separation; local rules and licensed practice decide.</p>
      </footer>
    </article>
  );
}

function StepRow({ briefing, step }: { readonly briefing: Briefing; readonly step: CardStep }): VNode {
  return (
    <tr>
      <th scope="row">{step.strokeNumber}</th>
      <td class="letter">{step.character}</td>
      <td>
        {step.way.length === 0 ? 'run-in' : <Pieces briefing={briefing} pieces={step.way} />}
        {step.holdSeconds > 0 && ` hold ${formatDuration(step.holdSeconds)}`}
        {step.way.length > 0 && <span class="seconds"> = {formatNumber(step.waySeconds)} s</span>}
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

const TURN_WORDS = { left: 'L', right: 'R' } as const;

/** `L 215°→ 038 · 6 s · R →124`: turns with their angle and the heading to roll out on, straights with their seconds. */
function Pieces({ briefing, pieces }: { readonly briefing: Briefing; readonly pieces: readonly CardPiece[] }): VNode {
  const words = pieces.map((piece) =>
    piece.kind === 'straight'
      ? `${formatNumber(piece.seconds)} s`
      : `${TURN_WORDS[piece.kind]} ${formatNumber(degreesFromRadians(piece.turnRadians))}° to ${formatBearing(compassDegrees(briefing, piece.headingRadians))}`,
  );
  return (
    <span class="pieces">
      {words.map((word, index) => (
        <span key={index}>{index === 0 ? word : `· ${word}`} </span>
      ))}
    </span>
  );
}
