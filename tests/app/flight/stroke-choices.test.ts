import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { strokeChoices } from '../../../src/app/flight/stroke-choices.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { FlightFact } from '../../../src/core/guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { ordersByFirst } from '../../../src/core/order/rest-order.ts';
import type { RestProblem } from '../../../src/core/order/rest-of-flight.ts';
import { flyTouched } from '../../flight/fly-reordered.ts';

const { events } = flyTouched(wordJob('QUICK'), 4, 'strokeRedone', 4, false);
const states = events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
const redoneAt = events.findIndex(({ kind }) => kind === 'strokeRedone');
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** The choices as they are offered while a flight goes through some states. */
function offered(first: GuidanceState) {
  let state = first;
  const cues = signal(cuesFrom(state));
  const asked: RestProblem[] = [];
  const told: FlightFact[] = [];
  const offer = strokeChoices({ cues, state: () => state, receive: (fact) => told.push(fact) }, () => ({
    order: () => Promise.resolve(null),
    byFirst: async (problem) => {
      asked.push(problem);
      return ordersByFirst(problem);
    },
    dispose: () => {},
  }));
  const show = async (next: GuidanceState): Promise<void> => {
    state = next;
    cues.value = { ...cuesFrom(next) };
    await settled();
  };
  return { offer, asked, told, show };
}

describe('the strokes that may come next', () => {
  it('are all that are left, each with its seconds, asked again as the ship flies on', async () => {
    const { offer, asked, told, show } = offered(states[redoneAt]!);
    expect(offer.mayChoose.value).toBe(true);
    await settled();
    const { choices } = offer;
    expect(choices.value!.map(({ strokeIndex }) => strokeIndex)).toEqual(asked[0]!.strokes.map(({ strokeIndex }) => strokeIndex));
    // The one that stands costs nothing; some other costs something.
    expect(choices.value![0]!.moreSeconds).toBeLessThanOrEqual(0);
    expect(Math.max(...choices.value!.map(({ moreSeconds }) => moreSeconds))).toBeGreaterThan(5);
    await show(states[redoneAt + 2]!);
    const atSeconds = (index: number): number => (states[index] as Extract<GuidanceState, { flight: unknown }>).flight.atSeconds;
    const later = states.findIndex((_, index) => index > redoneAt && atSeconds(index) > atSeconds(redoneAt) + 1);
    expect(asked).toHaveLength(1);
    await show(states[later]!);
    expect(asked).toHaveLength(2);
    const last = choices.value!.at(-1)!;
    offer.choose(last);
    expect(told).toEqual([{ kind: 'restOrdered', rest: last.order.strokes, chosen: true }]);
    offer.end();
  });

  it('are none under smoke and on a run-in', async () => {
    const { offer, asked, show } = offered(states[redoneAt]!);
    await settled();
    for (const without of [
      states.find((state, index) => index > redoneAt && state.phase === 'repositioning' && state.onRunIn)!,
      states.find((state, index) => index > redoneAt && state.phase === 'onStroke')!,
    ]) {
      await show(without);
      expect(offer.mayChoose.value).toBe(false);
      expect(offer.choices.value).toBeNull();
    }
    expect(asked).toHaveLength(1);
    offer.end();
  });
});
