import { airPathLengthMetres, airPoseAt } from '../../src/core/paths/air-path.ts';
import type { SmokeLeg } from '../../src/core/plan/plan.ts';
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
/** A smoke that runs farther than this from every stroke of its ship is none of the plan's. */
const ASIDE_METRES = 400;
const LOOKED_AT_SECONDS = [0, 5, 10];
/** The simulated aircraft leaves its smoke so often. */
const PUFF_SECONDS = 0.05;

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

/** Each stroke as its smoke truly began in the air, and whether that was inside a window of the plan, by the true clock. */
function strokesBegun({ sortie, trails, datumSeconds, driftAtDatum }: SortieReport): { readonly inside: boolean }[] {
  return sortie.plan.ships.flatMap((ship, index) =>
    trails[index]!.flatMap((trail) => {
      const first = trail[0];
      if (first === undefined) return [];
      // Strokes may begin in one place and run nearly alike: it is the one that the smoke follows for ten seconds.
      const asideMetres = (leg: SmokeLeg): number =>
        Math.max(
          ...LOOKED_AT_SECONDS.map((seconds) => {
            const puff = trail[Math.min(trail.length - 1, Math.round(seconds / PUFF_SECONDS))]!;
            const speed = airPathLengthMetres(leg.path) / (leg.endSeconds - leg.startSeconds);
            const planned = airPoseAt(leg.path, (puff.atSeconds - first.atSeconds) * speed);
            return Math.hypot(
              puff.airEastMetres + driftAtDatum.eastMetres - planned.airEastMetres,
              puff.airNorthMetres + driftAtDatum.northMetres - planned.airNorthMetres,
            );
          }),
        );
      const begun = ship.legs
        .flatMap((leg) => (leg.kind === 'smoke' ? [{ leg, metres: asideMetres(leg) }] : []))
        .filter(({ metres }) => metres <= ASIDE_METRES)
        .sort((one, other) => one.metres - other.metres)[0]?.leg;
      if (begun === undefined) return [];
      const spare = HANDS_SECONDS + SWITCH_SECONDS;
      const late = first.atSeconds - datumSeconds - begun.startSeconds;
      const inside = ship.entries!.some(
        ({ strokeIndex, windows }) =>
          strokeIndex <= begun.strokeIndex && windows.some(({ fromSeconds, toSeconds }) => late >= fromSeconds - spare && late <= toSeconds + spare),
      );
      return [{ inside }];
    }),
  );
}
