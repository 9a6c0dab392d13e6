import type { FlightEvent } from '../guidance/flight-event.ts';
import type { FlightSetup } from '../guidance/flight-setup.ts';
import type { CueChange } from './replay.ts';

/** A time of smoke somebody saw: from the ground, or on a recording. Flight time. */
export interface SeenSmoke {
  readonly onSeconds: number;
  readonly offSeconds: number;
}

/** Smoke out of the nozzle, as believed, and what that belief rests on. Flight times. */
export interface SmokeInterval {
  readonly onSeconds: number;
  readonly offSeconds: number;
  /** The stroke it was cued for; null for smoke nobody was told to make. */
  readonly strokeIndex: number | null;
  /** `seen` by somebody, `switched` as the true switch was marked, or merely `cued`. */
  readonly source: 'seen' | 'switched' | 'cued';
  /** When the cue changed; null where there was none. */
  readonly cuedOnSeconds: number | null;
  readonly cuedOffSeconds: number | null;
  /** When the true switch was moved; null where nobody marked it. */
  readonly switchedOnSeconds: number | null;
  readonly switchedOffSeconds: number | null;
}

/** One run of a cue or a switch. */
interface Run {
  readonly onSeconds: number;
  readonly offSeconds: number;
}

/** Smoke cued for one stroke without a break. */
interface CuedRun extends Run {
  readonly strokeIndex: number;
}

/** Two runs that belong together begin within this of each other, or overlap. */
const SAME_SECONDS = 12;

/**
 * When there was smoke, for which stroke. What somebody saw counts before the marked switch, that before the cue; a
 * switch is followed by the valve's latency, a cue by the pilot's reaction and the valve's latency, both as the
 * flight was set up.
 *
 * @param events of the flight with their flight times
 * @param changes of the cues, from the replay
 * @param seen empty when nobody did
 * @param endSeconds end of the log, for smoke that was never ended
 */
export function smokeIntervals(
  events: readonly FlightEvent[],
  times: Float64Array,
  changes: readonly CueChange[],
  setup: FlightSetup,
  seen: readonly SeenSmoke[],
  endSeconds: number,
): SmokeInterval[] {
  const cued = cuedRuns(changes, endSeconds);
  const switched = switchedRuns(events, times, endSeconds);
  const base: readonly Run[] = seen.length > 0 ? seen : switched.length > 0 ? switched : cued;
  const source = seen.length > 0 ? 'seen' : switched.length > 0 ? 'switched' : 'cued';
  const { valveOnSeconds, valveOffSeconds, reactionSeconds } = setup;
  const lag =
    source === 'seen'
      ? { on: 0, off: 0 }
      : source === 'switched'
        ? { on: valveOnSeconds, off: valveOffSeconds }
        : { on: reactionSeconds + valveOnSeconds, off: reactionSeconds + valveOffSeconds };
  return base.flatMap((run): SmokeInterval[] => {
    const cue = source === 'cued' ? (run as CuedRun) : matching(cued, run);
    const hand = source === 'switched' ? run : matching(switched, run);
    const onSeconds = run.onSeconds + lag.on;
    const offSeconds = run.offSeconds + lag.off;
    if (!(offSeconds > onSeconds)) return [];
    return [
      {
        onSeconds,
        offSeconds,
        strokeIndex: cue?.strokeIndex ?? null,
        source,
        cuedOnSeconds: cue?.onSeconds ?? null,
        cuedOffSeconds: cue?.offSeconds ?? null,
        switchedOnSeconds: hand?.onSeconds ?? null,
        switchedOffSeconds: hand?.offSeconds ?? null,
      },
    ];
  });
}

function cuedRuns(changes: readonly CueChange[], endSeconds: number): CuedRun[] {
  const runs: CuedRun[] = [];
  let open: { readonly onSeconds: number; readonly strokeIndex: number } | null = null;
  for (const change of changes) {
    const strokeIndex = change.smoke === 'on' ? change.strokeNumber - 1 : null;
    if (open !== null && strokeIndex === open.strokeIndex) continue;
    if (open !== null) runs.push({ ...open, offSeconds: change.atSeconds });
    open = strokeIndex === null ? null : { onSeconds: change.atSeconds, strokeIndex };
  }
  if (open !== null) runs.push({ ...open, offSeconds: endSeconds });
  return runs;
}

function switchedRuns(events: readonly FlightEvent[], times: Float64Array, endSeconds: number): Run[] {
  const runs: Run[] = [];
  let onSeconds: number | null = null;
  for (const [index, event] of events.entries()) {
    if (event.kind !== 'smokeSwitched') continue;
    if (event.smoke === 'on') {
      onSeconds ??= times[index]!;
    } else if (onSeconds !== null) {
      runs.push({ onSeconds, offSeconds: times[index]! });
      onSeconds = null;
    }
  }
  if (onSeconds !== null) runs.push({ onSeconds, offSeconds: endSeconds });
  return runs;
}

/** The run that overlaps most, or begins nearest within reach; null when none does. */
function matching<Candidate extends Run>(candidates: readonly Candidate[], run: Run): Candidate | null {
  let best: Candidate | null = null;
  let bestOverlap = -SAME_SECONDS;
  for (const candidate of candidates) {
    const overlap = Math.min(candidate.offSeconds, run.offSeconds) - Math.max(candidate.onSeconds, run.onSeconds);
    if (overlap > bestOverlap) {
      best = candidate;
      bestOverlap = overlap;
    }
  }
  return best;
}
