import { clockText } from '../words/clock.ts';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { DeskShip } from '../../app/debrief/desk-types.ts';
import { leastSeparation } from '../../core/debrief/separation.ts';
import { type WindVector, windFromVector } from '../../core/earth/wind-vector.ts';
import type { CrowdScore } from '../../core/debrief/crowd-score.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { knotsFromMetresPerSecond } from '../../core/units/quantity.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { highWords } from '../words/high-words.ts';
import { readsText } from '../words/reads-text.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatBearing, formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { FlownScene } from './flown-scene.ts';
import { useUnitText } from '../fields/units-context.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

export interface FlightFiguresProps {
  readonly ship: DeskShip;
  readonly ships: readonly DeskShip[];
  readonly scene: FlownScene;
  /** The job's least distance between ships. */
  readonly separationFeet: number;
  readonly timeZone: string;
  /** How long the text reads by computation: from the smoke that was laid, and as planned; null where it is not known. */
  readonly flownReading: ReadingWindow | null;
  readonly plannedReading: ReadingWindow | null;
}

/** A flight in figures, what was planned beside what was flown. */
export function FlightFigures({ ship, ships, scene, separationFeet, timeZone, flownReading, plannedReading }: FlightFiguresProps): VNode | null {
  const { debrief } = ship;
  const units = useUnitText();
  const nearest = useMemo(() => separations(ships, scene), [ships, scene]);
  if (debrief === null) return null;
  const { flight, offset } = debrief;
  const planned = ship.log.setup.strokes.length > 0;
  const offsetMetres = Math.hypot(offset.eastMetres, offset.northMetres);
  return (
    <dl class="figure-rows">
      <FigureRow
        label="Wind"
        name="wind-found-knots"
        value={flight.windFound === null ? '' : knotsFromMetresPerSecond(windFromVector(flight.windFound).speedMetresPerSecond).toFixed(1)}
        note={ship.kind === 'flight' ? `forecast ${windWords(flight.windForecast, units)}` : 'from the track alone'}
      >
        {flight.windFound === null || flight.windSigmaMetresPerSecond === null
          ? 'not known'
          : `${windWords(flight.windFound, units)} \u00b1 ${units.speed.number(flight.windSigmaMetresPerSecond, 1)}`}
      </FigureRow>
      <FigureRow label="True airspeed" note={planned ? `planned ${units.speed.text(flight.airspeedPlannedMetresPerSecond)}` : undefined}>
        {flight.airspeedFlownMetresPerSecond === null ? 'not known' : units.speed.text(flight.airspeedFlownMetresPerSecond, 1)}
      </FigureRow>
      <FigureRow
        label="First smoke to last"
        name="duration-seconds"
        value={flight.durationFlownSeconds?.toFixed(0) ?? ''}
        note={planned ? `planned ${formatDuration(flight.durationPlannedSeconds)}` : undefined}
      >
        {flight.durationFlownSeconds === null ? 'no smoke' : formatDuration(flight.durationFlownSeconds)}
      </FigureRow>
      <FigureRow label="Reads as a whole" note={plannedReading === null ? undefined : `planned ${readsText(plannedReading)}`}>
        {flownReading === null ? 'not known' : readsText(flownReading)}
      </FigureRow>
      <FigureRow label="Flown meanwhile" note={planned ? `planned ${units.crowdDistance.text(flight.distancePlannedMetres, 1)}` : undefined}>
        {flight.distanceFlownMetres === null ? 'no smoke' : units.crowdDistance.text(flight.distanceFlownMetres, 1)}
      </FigureRow>
      {planned && (
        <>
          <FigureRow label="Smoke oil" note={`planned ${units.mass.text(flight.oilPlannedKilograms)}`}>
            {units.mass.text(flight.oilUsedKilograms)}
          </FigureRow>
          <FigureRow
            label="Strokes"
            name="strokes-flown"
            value={flight.strokesFlown}
            note={strokeNote(flight.strokesSkipped, flight.strokesRedone, flight.goArounds)}
          >
            {flight.strokesFlown} of {ship.log.setup.strokes.length}
          </FigureRow>
          <FigureRow label="The word hung" note="against its place in the air, as one piece">
            {offsetMetres < 5
              ? 'in its place'
              : `${units.height.text(offsetMetres)} off, towards ${formatBearing(degreesFromRadians(Math.atan2(offset.eastMetres, offset.northMetres)))}\u00b0`}
          </FigureRow>
        </>
      )}
      {debrief.crowd !== null && (
        <FigureRow
          label="Seen by the crowd"
          name="crowd-lean"
          value={degreesFromRadians(debrief.crowd.middle.leanRadians).toFixed(1)}
          note={crowdNote(debrief.crowd, units)}
        >
          {crowdText(debrief.crowd)}
        </FigureRow>
      )}
      {flight.blindSeconds > 0 && <FigureRow label="Without a position">{formatNumber(flight.blindSeconds)} s while writing</FigureRow>}
      {nearest.map(({ names, least }) => (
        <FigureRow
          key={names}
          label={`Nearest, ${names}`}
          note={
            least === null
              ? undefined
              : `level distance, at ${clockText(least.atMilliseconds, timeZone, { seconds: true })}; the job asks for ${units.height.own(separationFeet)}`
          }
        >
          {least === null ? 'not known' : units.height.text(least.separationMetres)}
        </FigureRow>
      ))}
    </dl>
  );
}

const HUNG_WORDS = { 'as-briefed': 'hung as briefed', 'found-wind': 'hung by the wind that was found', 'by-hand': 'hung where the pilot put it' } as const;

/** `leaned 3°, 34° high at 341°`: in the middle of the reading, bearings true. */
function crowdText({ middle: { seen, leanRadians } }: CrowdScore): string {
  const lean = Math.round(degreesFromRadians(leanRadians));
  return `${lean === 0 ? 'level' : `leaned ${Math.abs(lean)}°, ${lean > 0 ? 'right' : 'left'} end high`}, ${highWords(seen.elevationRadians)} at ${formatBearing(degreesFromRadians(seen.azimuthRadians))}°`;
}

function crowdNote({ hung, offMetres, wishedElevationRadians, wishedAzimuthRadians, middle }: CrowdScore, units: UnitText): string {
  const wished = `${formatNumber(degreesFromRadians(wishedElevationRadians))}° high at ${formatBearing(degreesFromRadians(wishedAzimuthRadians))}° wished`;
  const sun = middle.sunRadians === null ? '' : `; ${formatNumber(degreesFromRadians(middle.sunRadians))}° from the sun`;
  return `${HUNG_WORDS[hung]}, ${units.distance.text(offMetres, 1)} off its place at the last smoke; ${wished}${sun}`;
}

function windWords(wind: WindVector, units: UnitText): string {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  return `${formatBearing(degreesFromRadians(fromRadians))}\u00b0 at ${units.speed.text(speedMetresPerSecond, 1)}`;
}

function strokeNote(skipped: number, redone: number, goArounds: number): string | undefined {
  const parts = [skipped > 0 ? `${skipped} skipped` : '', redone > 0 ? `${redone} flown again` : '', goArounds > 0 ? `${goArounds} passed again` : ''].filter(
    (part) => part !== '',
  );
  return parts.length === 0 ? undefined : parts.join(', ');
}

function separations(ships: readonly DeskShip[], scene: FlownScene): { readonly names: string; readonly least: ReturnType<typeof leastSeparation> }[] {
  const from = scene.firstSmokeMilliseconds ?? scene.fromMilliseconds;
  const to = scene.lastSmokeMilliseconds ?? scene.toMilliseconds;
  return ships.flatMap((one, index) =>
    ships.slice(index + 1).map((other) => ({ names: `${one.name} and ${other.name}`, least: leastSeparation(one.log, other.log, from, to) })),
  );
}
