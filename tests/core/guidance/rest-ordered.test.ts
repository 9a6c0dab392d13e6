import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import type { FlightEvent, FlightFact } from '../../../src/core/guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { restOrdered, restProblem } from '../../../src/core/guidance/rest-problem.ts';
import { strokesAsFlown } from '../../../src/core/debrief/strokes-as-flown.ts';
import { reversedAirPath } from '../../../src/core/paths/air-path.ts';
import { flyTouched } from '../../flight/fly-reordered.ts';

const job = { ...wordJob('QUICK'), options: { ...wordJob('QUICK').options, letterOrder: 'free' as const, progress: 'free' as const } };
const flight = flyTouched(job, 4, 'strokeRedone', 4, false);
/** The state after each event, from which others go on. */
const states = flight.events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
const redoneAt = flight.events.findIndex(({ kind }) => kind === 'strokeRedone');
const redone = states[redoneAt]!;
const next = (state: GuidanceState, fact: FlightFact): GuidanceState => {
  const { atSeconds, wallMilliseconds } = state.phase === 'idle' ? { atSeconds: 0, wallMilliseconds: 0 } : state.flight;
  return reduce(state, { ...fact, atSeconds, wallMilliseconds } as FlightEvent);
};
const turnedRound = (state: GuidanceState): Extract<FlightFact, { kind: 'restOrdered' }> => {
  const { strokes } = restProblem(state)!;
  return {
    kind: 'restOrdered',
    rest: strokes.toReversed().map(({ strokeIndex, path }, index) => ({ strokeIndex, path: reversedAirPath(path), restSeconds: 100 - 10 * index })),
  };
};

describe('an order chosen anew in the air', () => {
  it('is taken off smoke: its first stroke is led to, the others follow, in their new directions', () => {
    const fact = turnedRound(redone);
    const state = next(redone, fact);
    if (state.phase !== 'repositioning') throw new Error(state.phase);
    expect(state.strokeIndex).toBe(fact.rest[0]!.strokeIndex);
    expect(state.flight.sequence.slice(-fact.rest.length)).toEqual(fact.rest.map(({ strokeIndex }) => strokeIndex));
    for (const { strokeIndex, path } of fact.rest) expect(state.flight.setup.strokes[strokeIndex]!.path).toEqual(path);
    expect(state.flight.advice?.because).toBe(`to stroke ${fact.rest[0]!.strokeIndex + 1}`);
  });

  it('binds the letter that is being written, and no other that was begun', () => {
    if (redone.phase === 'idle') throw new Error('idle');
    const { setup, sequence, progress } = redone.flight;
    const done = sequence.filter((index) => progress[index]!.status !== 'to-fly').map((index) => setup.strokes[index]!.letterIndex);
    const { lettersBegun } = restProblem(redone)!;
    expect(lettersBegun).not.toContain(done.at(-1));
    expect(new Set([...lettersBegun, done.at(-1)])).toEqual(new Set(done));
  });

  it('is undone with the touch that it followed', () => {
    const state = next(next(redone, turnedRound(redone)), { kind: 'lastTouchUndone' });
    const before = states[redoneAt - 1]!;
    if (state.phase === 'idle' || before.phase === 'idle') throw new Error('idle');
    expect(state.flight.setup).toBe(before.flight.setup);
    expect(state.flight.sequence).toEqual(before.flight.sequence);
  });

  it('is chosen while the ship holds: nothing is flown until the hold ends, then its first stroke is led to', () => {
    const held = next(redone, { kind: 'held' });
    const fact = { ...turnedRound(held), chosen: true as const };
    const chosen = next(held, fact);
    if (chosen.phase !== 'holding') throw new Error(chosen.phase);
    expect(chosen.strokeIndex).toBe(fact.rest[0]!.strokeIndex);
    const released = next(chosen, { kind: 'holdReleased' });
    if (released.phase !== 'repositioning') throw new Error(released.phase);
    expect(released.strokeIndex).toBe(fact.rest[0]!.strokeIndex);
    const back = next(chosen, { kind: 'lastTouchUndone' });
    if (back.phase !== 'holding' || held.phase !== 'holding') throw new Error(back.phase);
    expect(back.flight.sequence).toEqual(held.flight.sequence);
  });

  it('is undone by a touch of its own where the pilot chose its first stroke', () => {
    const fact = { ...turnedRound(redone), chosen: true as const };
    const state = next(redone, fact);
    const back = next(state, { kind: 'lastTouchUndone' });
    if (state.phase !== 'repositioning' || back.phase !== 'repositioning' || redone.phase !== 'repositioning') throw new Error('not off smoke');
    expect(state.strokeIndex).toBe(fact.rest[0]!.strokeIndex);
    expect(back.strokeIndex).toBe(redone.strokeIndex);
    expect(back.flight.setup).toBe(redone.flight.setup);
    expect(back.flight.sequence).toBe(redone.flight.sequence);
    // The debrief knows as much.
    const { atSeconds, wallMilliseconds } = redone.flight;
    const told = [...flight.events.slice(0, redoneAt + 1), { ...fact, atSeconds, wallMilliseconds }];
    const paths = (events: readonly FlightEvent[]): unknown => strokesAsFlown(redone.flight.setup, events).map(({ path }) => path);
    expect(paths(told)).toEqual(state.flight.setup.strokes.map(({ path }) => path));
    const second = { ...told.at(-1)!, ...turnedRound(state), chosen: true as const } as FlightEvent;
    expect(paths([...told, second])).not.toEqual(paths(told));
    expect(paths([...told, second, { kind: 'lastTouchUndone', atSeconds, wallMilliseconds }])).toEqual(paths(told));
    // Without the pilot's word the touch before it is what would be undone.
    expect(next(next(redone, turnedRound(redone)), { kind: 'lastTouchUndone' })).not.toEqual(back);
  });

  it('means nothing under smoke, on a run-in, or where something else is left', () => {
    const fact = turnedRound(redone);
    const onStroke = states.find((state, index) => index > redoneAt && state.phase === 'onStroke')!;
    const onRunIn = states.find((state, index) => index > redoneAt && state.phase === 'repositioning' && state.onRunIn)!;
    for (const state of [onStroke, onRunIn]) {
      expect(restProblem(state)).toBeNull();
      const same = next(state, { kind: 'restOrdered', rest: fact.rest });
      expect(same).toBe(state);
    }
    expect(next(redone, { kind: 'restOrdered', rest: fact.rest.slice(1) })).toBe(redone);
    expect(next(redone, { kind: 'restOrdered', rest: [...fact.rest, { ...fact.rest[0]!, strokeIndex: 0 }] })).toBe(redone);
  });

  it('saves time at the desk, and every stroke is flown', { timeout: 60_000 }, () => {
    const anew = flyTouched(job, 4, 'strokeRedone', 4, true);
    expect(anew.promisedSeconds).toBeGreaterThan(8);
    expect(anew.afterTouchSeconds).toBeLessThan(flight.afterTouchSeconds - 8);
    if (anew.finalState.phase !== 'finished') throw new Error(anew.finalState.phase);
    expect(anew.finalState.flight.progress.every(({ status }) => status === 'flown')).toBe(true);
    // The log alone leads to the same, and tells the debrief how each stroke was flown.
    expect(anew.events.reduce(reduce, initialState)).toEqual(anew.finalState);
    const { setup } = anew;
    expect(strokesAsFlown(setup, anew.events).map(({ path }) => path)).toEqual(anew.finalState.flight.setup.strokes.map(({ path }) => path));
    expect(strokesAsFlown(setup, flight.events)).toEqual(setup.strokes);
  });

  it('may be chosen before the first smoke, but for the circle that finds the wind, and ends when it was to end', () => {
    const before = states.filter((state) => state.phase === 'repositioning' && state.flight.smokeCuedAtSeconds === null);
    const circle = before.find((state) => state.phase === 'repositioning' && state.windCircle !== null)!;
    expect(restProblem(circle)).toBeNull();
    const start = before.find((state) => restProblem(state) !== null)!;
    const fact = turnedRound(start);
    const state = next(start, fact);
    if (state.phase !== 'repositioning' || start.phase !== 'repositioning') throw new Error(state.phase);
    expect(state.strokeIndex).toBe(fact.rest[0]!.strokeIndex);
    const endSeconds = fact.rest[0]!.restSeconds + state.flight.setup.strokes[state.strokeIndex]!.plannedStartSeconds;
    expect(endSeconds).toBeCloseTo(start.flight.setup.hanging!.writingSeconds, 9);
    expect(restOrdered({ strokes: [], savedSeconds: 0 })).toEqual({ kind: 'restOrdered', rest: [] });
  });
});
