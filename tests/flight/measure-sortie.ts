import { airPoseAt } from '../../src/core/paths/air-path.ts';
import { flySortie, type SortieReport } from './fly-sortie.ts';
import { sortieOf } from './ships-from-anywhere.ts';

/** What a show says of one sortie. */
export interface MeasuredSortie {
  readonly seed: number;
  readonly text: string;
  readonly ships: number;
  readonly fault: string | null;
  /** Within 300 ft of height; Infinity when no two ships ever were. */
  readonly nearestMetres: number;
  readonly nearestAtSeconds: number;
  readonly whole: boolean;
  readonly durationShare: number;
  readonly hacks: number;
  readonly strokes: number;
  readonly strokesOutsideWindows: number;
  /** How far from the plan each ship on time left its circle. */
  readonly leftBySeconds: readonly number[];
}

/** Hands on the call, and the hand on the smoke switch. */
const HANDS_SECONDS = 1;
const SWITCH_SECONDS = 1.5;
/** A smoke that begins farther from every stroke's start than this is one broken off and taken up again. */
const AT_START_METRES = 400;
const SAME_WAY_COSINE = Math.cos(Math.PI / 4);

/** By how much one device's clock is set in the minute before the datum. */
const CLOCK_STEPS_SECONDS = [30, 2, 600, -30, -600];

/**
 * Flies the sortie of a seed and measures it.
 *
 * @param clockSet whether one ship's wall clock is set in the minute before the datum
 */
export function measureSortie(seed: number, clockSet = false): MeasuredSortie {
  const honest = sortieOf(seed);
  const sortie = clockSet
    ? { ...honest, clockSet: { shipIndex: seed % honest.ships.length, beforeDatumSeconds: 5 + ((seed * 7) % 50), bySeconds: CLOCK_STEPS_SECONDS[seed % 5]! } }
    : honest;
  const leftBySeconds: number[] = [];
  const parts = new Map<number, string>();
  const report = flySortie(sortie, (shipIndex, _since, state) => {
    if (state.phase !== 'repositioning' || state.flight.formation === null || state.flight.datumAtSeconds === null) return;
    const { formation, atSeconds, datumAtSeconds } = state.flight;
    const before = parts.get(shipIndex);
    parts.set(shipIndex, formation.part);
    const entry = sortie.plan.ships[shipIndex]!.entries!.find(({ strokeIndex }) => strokeIndex === state.strokeIndex);
    if (before !== 'circling' || formation.part !== 'timetable' || entry === undefined || formation.window === null || formation.window.fromSeconds > 0) return;
    leftBySeconds.push(atSeconds - datumAtSeconds - entry.leg.startSeconds);
  });
  const begun = strokesBegun(report);
  return {
    seed,
    text: sortie.job.text,
    ships: sortie.ships.length,
    fault: sortie.fault?.fault.kind ?? null,
    nearestMetres: report.nearest?.metres ?? Infinity,
    nearestAtSeconds: report.nearest === null ? 0 : report.nearest.atSeconds - report.datumSeconds,
    whole: report.whole,
    durationShare: report.durationShare,
    hacks: report.hacks,
    strokes: begun.length,
    strokesOutsideWindows: begun.filter(({ inside }) => !inside).length,
    leftBySeconds,
  };
}

/** Each stroke as its smoke truly began, and whether that was inside a window of the plan, by the true clock. */
function strokesBegun({ sortie, switchings, tracks, datumSeconds }: SortieReport): { readonly inside: boolean }[] {
  return sortie.plan.ships.flatMap((ship, index) =>
    switchings[index]!.flatMap(({ atSeconds, on }) => {
      const at = tracks[index]!.findIndex((one) => one.atSeconds >= atSeconds);
      const place = tracks[index]![at];
      const after = tracks[index]![at + 5];
      if (!on || place === undefined || after === undefined) return [];
      // The wind's own wandering moves the air by tens of metres, which does not mistake one stroke's start for another's.
      const drift = { east: sortie.windEastMetresPerSecond * (atSeconds - datumSeconds), north: sortie.windNorthMetresPerSecond * (atSeconds - datumSeconds) };
      const starts = ship.legs.flatMap((leg) => {
        if (leg.kind !== 'smoke') return [];
        const start = airPoseAt(leg.path, 0);
        const metres = Math.hypot(place.eastMetres - drift.east - start.airEastMetres, place.northMetres - drift.north - start.airNorthMetres);
        const east = after.eastMetres - place.eastMetres - sortie.windEastMetresPerSecond * (after.atSeconds - place.atSeconds);
        const north = after.northMetres - place.northMetres - sortie.windNorthMetresPerSecond * (after.atSeconds - place.atSeconds);
        // Of strokes that begin in one place it is the one that goes this way.
        const along = (east * Math.cos(start.directionRadians) + north * Math.sin(start.directionRadians)) / Math.hypot(east, north);
        return along < SAME_WAY_COSINE ? [] : [{ metres, leg }];
      });
      const near = starts.filter(({ metres }) => metres <= AT_START_METRES);
      if (near.length === 0) return [];
      const spare = HANDS_SECONDS + SWITCH_SECONDS;
      const inside = near.some(({ leg }) => {
        const late = atSeconds - datumSeconds - leg.startSeconds;
        return ship.entries!.some(
          ({ strokeIndex, windows }) =>
            strokeIndex <= leg.strokeIndex && windows.some(({ fromSeconds, toSeconds }) => late >= fromSeconds - spare && late <= toSeconds + spare),
        );
      });
      return [{ inside }];
    }),
  );
}
