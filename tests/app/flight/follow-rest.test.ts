import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { followRest } from '../../../src/app/flight/follow-rest.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { FlightFact } from '../../../src/core/guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { orderOfRest } from '../../../src/core/order/rest-order.ts';
import type { RestProblem } from '../../../src/core/order/rest-of-flight.ts';
import { flyLate, flyTouched } from '../../flight/fly-reordered.ts';

const job = { ...wordJob('QUICK'), options: { ...wordJob('QUICK').options, letterOrder: 'free' as const, progress: 'free' as const } };
const { events } = flyTouched(job, 4, 'strokeRedone', 4, false);
const states = events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
const redoneAt = events.findIndex(({ kind }) => kind === 'strokeRedone');

/** Shows a follower some states, one after another, and gives what it asked and what it told. */
async function followed(shown: readonly GuidanceState[], answer: (problem: RestProblem) => Promise<ReturnType<typeof orderOfRest>>) {
  let state = shown[0]!;
  const cues = signal(cuesFrom(state));
  const asked: RestProblem[] = [];
  const told: FlightFact[] = [];
  let disposed = 0;
  const end = followRest({ cues, state: () => state, receive: (fact) => told.push(fact) }, () => ({
    order: (problem) => {
      asked.push(problem);
      return answer(problem);
    },
    byFirst: () => Promise.reject(new Error('nothing is chosen here')),
    dispose: () => (disposed += 1),
  }));
  for (const next of shown.slice(1)) {
    state = next;
    cues.value = { ...cuesFrom(next) };
  }
  await new Promise((resolve) => setTimeout(resolve, 0));
  end();
  return { asked, told, disposed };
}

describe('what is left of a flight', () => {
  it('is asked about once after a redo, and the answer told', async () => {
    const { asked, told, disposed } = await followed(states.slice(redoneAt - 5, redoneAt + 3), async (problem) => orderOfRest(problem));
    expect(asked).toHaveLength(1);
    expect(told.map(({ kind }) => kind)).toEqual(['restOrdered']);
    expect(disposed).toBe(1);
  });

  it('is not asked about while strokes follow as planned', async () => {
    expect((await followed(states.slice(0, redoneAt), async () => null)).asked).toEqual([]);
  });

  it('is asked about when a timed start is missed, again only when it is missed by ten seconds more, and not when it is kept', async () => {
    const late = flyLate(job, 1, 60, false).events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
    const firstSmoke = late.findIndex(({ phase }) => phase === 'onStroke');
    const { asked } = await followed(late.slice(0, firstSmoke), async () => null);
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.length).toBeLessThan(8);
    // With 420 s it is begun in time, by a way that looked up to 13 s late at first.
    const kept = flyLate(job, 1, 440, false).events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
    expect((await followed(kept.slice(0, firstSmoke), async () => null)).asked).toEqual([]);
  });

  it('is left as it is when the answer comes too late, or the worker breaks off', async () => {
    const onStroke = states.findIndex((state, index) => index > redoneAt && state.phase === 'onStroke');
    const late = await followed(states.slice(redoneAt - 1, onStroke + 1), async (problem) => orderOfRest(problem));
    expect(late.asked).toHaveLength(1);
    expect(late.told).toEqual([]);
    const broken = await followed(states.slice(redoneAt - 1, redoneAt + 3), () => Promise.reject(new Error('broke off')));
    expect(broken.told).toEqual([]);
  });
});
