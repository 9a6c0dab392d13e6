import { effect } from '@preact/signals';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import { restOrdered, restProblem } from '../../core/guidance/rest-problem.ts';
import { type RestClient, startRestClient } from '../../workers/rest-client.ts';
import type { Flying } from './fly-flight.ts';

/**
 * Has what is left of a flight ordered anew, off the page, whenever it is not what was planned: after a redo, a skip, an undo, a
 * stroke broken off, or where a timed start is missed. The answer is a fact like any other; where smoke is near by then, or what is left has changed, it means nothing.
 */
export function followRest(flying: Pick<Flying, 'cues' | 'state' | 'receive'>, start: () => RestClient = startRestClient): () => void {
  let client: RestClient | null = null;
  let before: GuidanceState | null = null;
  let wanted = false;
  let askedLateSeconds = 0;
  const drop = (): void => {
    client?.dispose();
    client = null;
  };
  const endEffect = effect(() => {
    const late = flying.cues.value.lateSeconds ?? 0;
    const state = flying.state();
    if (state.phase === 'onStroke') wanted = false;
    else if (before !== null && outOfPlan(before, state)) wanted = true;
    else if (startsLate(state, late - askedLateSeconds)) {
      wanted = true;
      askedLateSeconds = late;
    }
    before = state;
    // A hold ends who knows where: what is left is ordered from there.
    const problem = wanted && state.phase !== 'holding' ? restProblem(state) : null;
    if (problem === null) return;
    wanted = false;
    client ??= start();
    client.order(problem).then((order) => {
      // What means nothing any more is not even logged.
      const left = restProblem(flying.state())
        ?.strokes.map(({ strokeIndex }) => strokeIndex)
        .join();
      if (order !== null && left === problem.strokes.map(({ strokeIndex }) => strokeIndex).join()) flying.receive(restOrdered(order));
    }, drop);
  });
  return () => {
    endEffect();
    drop();
  };
}

/** A timed start is missed by more than this, or by so much more than when it was asked about last. */
const LATE_SECONDS = 10;

/** Whether the first smoke will come late, and later than was known. */
function startsLate(state: GuidanceState, laterBySeconds: number): boolean {
  return state.phase === 'repositioning' && state.flight.smokeCuedAtSeconds === null && laterBySeconds >= LATE_SECONDS;
}

/** Whether anything but one stroke flown, the next one, came between two states. */
function outOfPlan(before: GuidanceState, state: GuidanceState): boolean {
  if (before.phase === 'idle' || state.phase === 'idle') return false;
  const changed = state.flight.progress.filter(({ status }, index) => status !== before.flight.progress[index]?.status);
  const broken = before.phase === 'onStroke' && state.flight.progress[before.strokeIndex]?.status === 'to-fly';
  return broken || changed.length > 1 || changed.some(({ status }) => status !== 'flown');
}
