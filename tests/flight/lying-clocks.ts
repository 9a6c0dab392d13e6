import { viewFrom } from '../../src/core/guidance/flight-view-from.ts';
import type { GuidanceState } from '../../src/core/guidance/guidance-state.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { type FaultyFlight, type FlightFaults, flyWithFaults } from '../faults/faulty-flight.ts';
import { ordinaryWorld, TEN_KNOTS } from './ordinary-world.ts';
import { uniformFrom } from './random.ts';
import { unknownRollRate } from './job-flight.ts';

/** One flight with one to three faults of clocks and receivers, and what came of it. */
export interface LyingFlight {
  readonly seed: number;
  /** Positions come later than any smoke is cued by: said aloud, and written by another receiver. */
  readonly tooLate: boolean;
  /** In words. */
  readonly faults: readonly string[];
  readonly finished: boolean;
  /** The farthest that the aircraft truly was from where smoke was cued for. */
  readonly worstMetres: number;
  /** The farthest that a later stroke's frame stood from the first one's, in the air: without a fault up to 160 m, since the wind wanders. */
  readonly worstFrameMetres: number;
  /** Looks with the smoke on while the place was doubted. */
  readonly doubtedOns: number;
  /** Why nothing was cued, each once. */
  readonly reasons: readonly string[];
  /** Of the faults that a pilot must hear of, how many were named. */
  readonly named: number;
  readonly toName: number;
}

const METRES_PER_DEGREE = 111_320;
/** Lateness above 2 s is refused aloud (the client's figure). */
const TOO_LATE_SECONDS = 2;
/** Asleep, the aircraft flies straight on, and must come back against the wind. */
const FLOWN_BACK = 2.5;
/** A pilot who is asked looks and answers within this. */
const ANSWER_SECONDS = 4;

/** Flies a setup with the faults of a seed. */
export function flyWithLies(setup: FlightSetup, seed: number, watch?: (state: GuidanceState, atSeconds: number) => void): LyingFlight {
  const uniform = uniformFrom(seed * 613 + 5);
  const between = (from: number, to: number): number => from + uniform() * (to - from);
  const count = 1 + Math.floor(uniform() * 3);
  const words: string[] = [];
  const toName: { readonly at: number; readonly words: RegExp }[] = [];
  let faults: FlightFaults = { deviceStamps: uniform() < 0.5 };
  let lateSeconds = 0;
  let jump: { readonly at: number; readonly seconds: number; readonly metres: number } | null = null;
  let loss: { readonly at: number; readonly seconds: number } | null = null;
  const left = ['set', 'rate', 'offset', 'sleep', 'late', 'jump', 'loss'];
  for (let index = 0; index < count; index += 1) {
    const kind = left.splice(Math.floor(uniform() * left.length), 1)[0];
    const at = between(30, 420);
    if (kind === 'set') {
      const by = (uniform() < 0.5 ? -1 : 1) * 10 ** between(0.1, 4.93);
      faults = { ...faults, clockSet: { atSeconds: at, bySeconds: by } };
      words.push(`clock set by ${by.toFixed(1)} s at ${at.toFixed(0)}`);
      toName.push({ at, words: /clock/ });
    } else if (kind === 'rate') {
      const { clockOff } = faults;
      const rate = uniform() < 0.5 ? -0.01 : 0.01;
      faults = { ...faults, clockOff: (seconds) => rate * seconds + (clockOff?.(seconds) ?? 0) };
      words.push(`clock rate ${rate}`);
    } else if (kind === 'offset') {
      const { clockOff } = faults;
      const off = between(-10, 10);
      faults = { ...faults, clockOff: (seconds) => off + (clockOff?.(seconds) ?? 0) };
      words.push(`clock off ${off.toFixed(1)} s`);
    } else if (kind === 'sleep') {
      const seconds = 10 ** between(0, 3.25);
      faults = { ...faults, stops: { atSeconds: at, seconds, kind: 'sleep' } };
      words.push(`sleep of ${seconds.toFixed(1)} s at ${at.toFixed(0)}`);
      if (seconds > 1.2) toName.push({ at, words: /clock jumped|away/ });
    } else if (kind === 'late') {
      lateSeconds = between(0, 5);
      words.push(`positions ${lateSeconds.toFixed(1)} s late`);
    } else if (kind === 'jump') {
      jump = { at, seconds: between(1, 60), metres: 50 * 10 ** between(0, 2) };
      words.push(`jump of ${jump.metres.toFixed(0)} m for ${jump.seconds.toFixed(0)} s at ${at.toFixed(0)}`);
      if (jump.metres > 250 && jump.seconds > 6) toName.push({ at, words: /jumped/ });
    } else {
      loss = { at, seconds: 10 ** between(0, 2.08) };
      words.push(`loss of ${loss.seconds.toFixed(0)} s at ${at.toFixed(0)}`);
      if (loss.seconds > 9) toName.push({ at, words: /no fix|jump/ });
    }
  }
  const deliver: FlightFaults['deliver'] = (report, atSeconds) => {
    if (loss !== null && atSeconds >= loss.at && atSeconds < loss.at + loss.seconds) return [];
    const jumped = jump !== null && atSeconds >= jump.at && atSeconds < jump.at + jump.seconds;
    const coords = jumped ? { ...report.coords, latitude: report.coords.latitude + (jump?.metres ?? 0) / METRES_PER_DEGREE } : report.coords;
    return [{ report: { ...report, coords }, afterSeconds: 0 }];
  };
  let askedSince: number | null = null;
  let doubtedSince: number | null = null;
  let doubtedOns = 0;
  const touch: FlightFaults['touch'] = (state, atSeconds) => {
    watch?.(state, atSeconds);
    const view = viewFrom(state);
    if (view === null || state.phase === 'idle') return null;
    if (state.phase === 'onStroke' && view.placeDoubted) doubtedOns += 1;
    askedSince = view.askedSeconds === null ? null : (askedSince ?? atSeconds);
    doubtedSince = view.placeDoubted ? (doubtedSince ?? atSeconds) : null;
    const { stops, clockSet } = faults;
    if (askedSince !== null && atSeconds - askedSince > ANSWER_SECONDS) {
      const gap = view.askedSeconds ?? 0;
      return { kind: 'clockAnswered', slept: stops !== undefined && Math.abs(gap - stops.seconds) < Math.abs(gap - (clockSet?.bySeconds ?? 1e9)) };
    }
    if (doubtedSince === null || atSeconds - doubtedSince < 8) return null;
    // Eyes outside: the pilot goes on once the receiver shows the lake where it is, and the word is where it was.
    const lying = jump !== null && atSeconds >= jump.at && atSeconds < jump.at + jump.seconds + 10;
    switch (state.flight.placeDoubt?.kind) {
      case 'jumped':
        return lying ? null : { kind: 'holdReleased' };
      case 'away':
        return { kind: 'datumMovedHere' };
      case 'late':
        return lateSeconds < 1.5 ? { kind: 'holdReleased' } : null;
      default:
        return null;
    }
  };
  const world = ordinaryWorld(seed, TEN_KNOTS, { rollRateDegreesPerSecond: unknownRollRate(seed), fixLatencySeconds: 0.7 + lateSeconds });
  const flight: FaultyFlight = flyWithFaults(setup, world, { ...faults, deliver, touch }, 1500 + FLOWN_BACK * (faults.stops?.seconds ?? 0));
  const ended = flight.looks.at(-1)?.atSeconds ?? 0;
  const reasons = [...new Set(flight.looks.filter(({ cues }) => cues.phase === 'no-cue' || cues.phase === 'go-around').map(({ cues }) => cues.because))];
  // A fault that cost no cue, or came after the end, needs no name.
  const felt = toName.filter(
    ({ at }) => at < ended && flight.looks.some(({ atSeconds, cues }) => cues.phase === 'no-cue' && atSeconds >= at && atSeconds < at + 10),
  );
  return {
    seed,
    faults: [faults.deviceStamps === true ? 'device stamps' : 'satellite stamps', ...words],
    tooLate: world.fixLatencySeconds > TOO_LATE_SECONDS,
    finished: flight.finished,
    worstMetres: Math.max(0, ...flight.looks.map(({ cues, offMetres }) => (cues.smoke === 'on' ? (offMetres ?? 0) : 0))),
    worstFrameMetres: Math.max(0, ...flight.looks.map(({ frameMetres }) => frameMetres ?? 0)),
    doubtedOns,
    reasons,
    named: felt.filter((one) => reasons.some((reason) => one.words.test(reason))).length,
    toName: felt.length,
  };
}
