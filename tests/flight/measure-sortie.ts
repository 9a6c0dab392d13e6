import { airPoseAt } from '../../src/core/paths/air-path.ts';
import { flySortie, type SortieReport } from './fly-sortie.ts';
import { type Sortie, sortieOf, type SortieReceivers } from './ships-from-anywhere.ts';

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
  /** Of a ship whose positions come late behind a clock as much behind: whether its pilot was asked, and its strokes begun in all and after that. */
  readonly hiddenLate: { readonly seconds: number; readonly asked: boolean; readonly strokes: number; readonly strokesAfterAsked: number } | null;
  /** Ships that were asked without a cause. */
  readonly askedForNothing: number;
  readonly durationShare: number;
  readonly hacks: number;
  readonly strokes: number;
  readonly strokesOutsideWindows: number;
  /** How far from the plan each ship on time left its circle. */
  readonly leftBySeconds: readonly number[];
}

/** A stroke whose smoke has just come, and where in the air since the start. */
interface Begun {
  readonly shipIndex: number;
  readonly strokeIndex: number;
  /** The stroke that its circle was left for last, and how often it was left. */
  readonly fromCircleTo: number;
  readonly circlesLeft: number;
  readonly atSeconds: number;
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
}

/** Hands on the call, and the hand on the smoke switch. */
const HANDS_SECONDS = 1;
const SWITCH_SECONDS = 1.5;
/** Where a ship believes its stroke to be, ten minutes after the datum, is off by so much at most. */
const AT_START_METRES = 300;
/** Windows that follow at once begin so much apart. */
const NEXT_WINDOW_SECONDS = 12;

/** By how much one device's clock is set in the minute before the datum. */
const CLOCK_STEPS_SECONDS = [30, 2, 600, -30, -600];

/** A hack is pressed so late. */
const LATE_HACK_SECONDS = 25;

/**
 * Obedient eyes and a third with a fault; the same with one ship's wall clock set in the minute before the datum; ordinary pilots without a
 * fault; or, without a fault, one ship's hack pressed late: unknown to all, heard over the link with nobody's answer, or answered in 15 s.
 */
export type SortieKind = 'obedient' | 'clock set' | 'ordinary pilots' | 'late hack' | 'late hack heard' | 'late hack answered';

/** Flies the sortie of a seed and measures it. */
export function measureSortie(seed: number, kind: SortieKind = 'obedient'): MeasuredSortie {
  const sortie = sortieOfKind(seed, kind);
  const leftBySeconds: number[] = [];
  const parts = new Map<number, string>();
  const begun: Begun[] = [];
  const smoking = new Set<number>();
  const asked = new Map<number, number>();
  const late = sortie.receivers?.hiddenLate;
  const circles = new Map<number, Pick<Begun, 'fromCircleTo' | 'circlesLeft'>>();
  const report = flySortie(sortie, (shipIndex, _since, state, { smokeOn, atSeconds: nowSeconds, airEastMetres, airNorthMetres }) => {
    if (state.phase === 'idle' || state.flight.formation === null) return;
    const { formation, atSeconds, datumAtSeconds } = state.flight;
    if (state.flight.stampTrust.turns?.verdict === 'late' && !asked.has(shipIndex)) asked.set(shipIndex, nowSeconds);
    const before = parts.get(shipIndex);
    parts.set(shipIndex, formation.part);
    const leaves = before === 'circling' && formation.part === 'timetable' && 'strokeIndex' in state;
    if (leaves) circles.set(shipIndex, { fromCircleTo: state.strokeIndex, circlesLeft: (circles.get(shipIndex)?.circlesLeft ?? 0) + 1 });
    if (smokeOn && !smoking.has(shipIndex) && 'strokeIndex' in state) {
      const { fromCircleTo, circlesLeft } = circles.get(shipIndex) ?? { fromCircleTo: -1, circlesLeft: 0 };
      begun.push({ shipIndex, strokeIndex: state.strokeIndex, fromCircleTo, circlesLeft, atSeconds: nowSeconds, airEastMetres, airNorthMetres });
    }
    if (smokeOn) smoking.add(shipIndex);
    else smoking.delete(shipIndex);
    if (!leaves || datumAtSeconds === null) return;
    const entry = sortie.plan.ships[shipIndex]!.entries!.find(({ strokeIndex }) => strokeIndex === state.strokeIndex);
    if (entry === undefined || formation.window === null || formation.window.fromSeconds > 0) return;
    leftBySeconds.push(atSeconds - datumAtSeconds - entry.leg.startSeconds);
  });
  return {
    seed,
    text: sortie.job.text,
    ships: sortie.ships.length,
    fault: sortie.fault?.fault.kind ?? null,
    nearestMetres: report.nearest?.metres ?? Infinity,
    nearestAtSeconds: report.nearest === null ? 0 : report.nearest.atSeconds - report.datumSeconds,
    whole: report.whole,
    hiddenLate: late == null ? null : hiddenLateOf(late, begun, asked),
    askedForNothing: [...asked.keys()].filter((shipIndex) => shipIndex !== late?.shipIndex).length,
    durationShare: report.durationShare,
    hacks: report.hacks,
    strokes: begun.length,
    strokesOutsideWindows: begun.length - begunInside(begun, report),
    leftBySeconds,
  };
}

function hiddenLateOf(
  { shipIndex, seconds }: NonNullable<SortieReceivers['hiddenLate']>,
  begun: readonly Begun[],
  asked: ReadonlyMap<number, number>,
): MeasuredSortie['hiddenLate'] {
  const own = begun.filter((one) => one.shipIndex === shipIndex);
  const askedAtSeconds = asked.get(shipIndex) ?? Infinity;
  // A smoke that the hand was told before the question still comes.
  const after = own.filter(({ atSeconds }) => atSeconds > askedAtSeconds + HANDS_SECONDS + SWITCH_SECONDS);
  return { seconds, asked: asked.has(shipIndex), strokes: own.length, strokesAfterAsked: after.length };
}

export function sortieOfKind(seed: number, kind: SortieKind): Sortie {
  const honest = sortieOf(seed);
  if (kind === 'clock set') return { ...honest, ...clocksOf(seed, honest.ships.length) };
  if (kind === 'ordinary pilots') return { ...honest, fault: null, ordinaryPilots: true };
  if (kind === 'obedient') return honest;
  const linked = { 'late hack': null, 'late hack heard': { takenAfterSeconds: Infinity }, 'late hack answered': { takenAfterSeconds: 15 } }[kind];
  return { ...honest, fault: null, lateHack: { shipIndex: seed % honest.ships.length, seconds: LATE_HACK_SECONDS, linked } };
}

/** One clock set, receivers that stamp by either clock, and in a quarter of the sorties positions 2 to 4 s late that a clock hides. */
function clocksOf(seed: number, ships: number): Pick<Sortie, 'clockSet' | 'receivers'> {
  const hiddenLate = seed % 4 === 1 ? { shipIndex: (seed + 1) % ships, seconds: 2 + ((seed * 3) % 5) / 2 } : null;
  return {
    clockSet: { shipIndex: seed % ships, beforeDatumSeconds: 5 + ((seed * 7) % 50), bySeconds: CLOCK_STEPS_SECONDS[seed % 5]! },
    ...(seed % 3 === 0 && hiddenLate === null ? {} : { receivers: { stamps: seed % 3 === 1 && hiddenLate === null ? 'device' : 'satellite', hiddenLate } }),
  };
}

/**
 * How many strokes began where the plan has them in the air, inside a window of the way by which the ship came from its circle,
 * and no later than by one window against the stroke before; by the true clock and the true drift, since the wind's wandering
 * moves the air by a kilometre from its mean in ten minutes.
 */
function begunInside(begun: readonly Begun[], { sortie, datumSeconds, driftAtDatum }: SortieReport): number {
  const lateOf = ({ shipIndex, strokeIndex, atSeconds }: Begun): number =>
    atSeconds - datumSeconds - sortie.plan.ships[shipIndex]!.legs.find((one) => one.kind === 'smoke' && one.strokeIndex === strokeIndex)!.startSeconds;
  return begun.filter((one, index) => {
    const { shipIndex, strokeIndex, fromCircleTo } = one;
    const { legs, entries } = sortie.plan.ships[shipIndex]!;
    const start = airPoseAt(legs.find((leg) => leg.kind === 'smoke' && leg.strokeIndex === strokeIndex)!.path, 0);
    const aside = Math.hypot(
      one.airEastMetres + driftAtDatum.eastMetres - start.airEastMetres,
      one.airNorthMetres + driftAtDatum.northMetres - start.airNorthMetres,
    );
    const late = lateOf(one);
    const before = begun.slice(0, index).findLast((other) => other.shipIndex === shipIndex);
    const follows = before === undefined || before.circlesLeft !== one.circlesLeft || Math.abs(late - lateOf(before)) <= NEXT_WINDOW_SECONDS;
    const windows = entries!.find((entry) => entry.strokeIndex === fromCircleTo)?.windows ?? [];
    const spare = HANDS_SECONDS + SWITCH_SECONDS;
    return follows && aside <= AT_START_METRES && windows.some(({ fromSeconds, toSeconds }) => late >= fromSeconds - spare && late <= toSeconds + spare);
  }).length;
}
