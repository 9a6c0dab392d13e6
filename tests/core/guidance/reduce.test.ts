import { fc } from '../../property.ts';
import { beforeAll, describe, expect, it } from 'vitest';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { FlightEvent, FlightFact } from '../../../src/core/guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { predictedAt } from '../../../src/core/guidance/present.ts';
import { STATE } from '../../../src/core/tracking/estimate.ts';
import { viewFrom } from '../../../src/core/guidance/flight-view-from.ts';
import { type DeskFlight, flyAtDesk } from '../../flight/fly-at-desk.ts';
import { ordinaryWorld, TEN_KNOTS } from '../../flight/ordinary-world.ts';
import { wordSetup } from '../../flight/word-setup.ts';

const { setup } = wordSetup('FLY');
const facts: readonly FlightFact[] = [
  { kind: 'strokeRedone' },
  { kind: 'strokeSkipped' },
  { kind: 'held' },
  { kind: 'holdReleased' },
  { kind: 'datumMovedHere' },
  { kind: 'knockedOff' },
  { kind: 'lastTouchUndone' },
  { kind: 'smokeSwitched', smoke: 'on' },
  { kind: 'smokeSwitched', smoke: 'off' },
  { kind: 'flightResumed' },
  { kind: 'fixesLost', reason: 'permission' },
  { kind: 'datumTimed', datumWallMilliseconds: Date.UTC(2027, 6, 17, 15, 10) },
];

let flight: DeskFlight;
/** A state in each phase, as met in the flight. */
const met = new Map<string, GuidanceState>();

beforeAll(() => {
  flight = flyAtDesk(setup, ordinaryWorld(3, TEN_KNOTS), {
    watch: (state) => {
      const { phase } = cuesFrom(state);
      if (!met.has(phase) || (phase === 'stroke' && state.phase === 'onStroke' && state.alongMetres > 300 && state.alongMetres < 400)) met.set(phase, state);
    },
  });
});

function then(state: GuidanceState, fact: FlightFact, afterSeconds = 0.1, wallAfterSeconds = afterSeconds): GuidanceState {
  const { atSeconds, wallMilliseconds } = state.phase === 'idle' ? { atSeconds: 0, wallMilliseconds: 0 } : state.flight;
  return reduce(state, { ...fact, atSeconds: atSeconds + afterSeconds, wallMilliseconds: wallMilliseconds + wallAfterSeconds * 1000 });
}

describe('reduce', () => {
  it('meets every phase of an ordinary flight', () => {
    expect([...met.keys()].sort()).toEqual(expect.arrayContaining(['finished', 'reposition', 'run-in', 'standby', 'stroke']));
  });

  it('goes back for a stroke when the word is written, and for the one before when asked again', () => {
    const again = then(met.get('finished')!, { kind: 'strokeRedone' });
    const before = then(again, { kind: 'strokeRedone' });
    if (again.phase !== 'repositioning' || before.phase !== 'repositioning') throw new Error(`${again.phase}, ${before.phase}`);
    expect(again.strokeIndex).toBe(again.flight.setup.strokes.length - 1);
    expect(before.strokeIndex).toBe(again.strokeIndex - 1);
  });

  it('returns the very state for an event that means nothing in it', () => {
    expect(then(initialState, { kind: 'clockAdvanced' })).toBe(initialState);
    const finished = met.get('finished')!;
    for (const kind of ['strokeSkipped', 'held', 'knockedOff', 'datumMovedHere'] as const) expect(then(finished, { kind })).toBe(finished);
    expect(then(then(finished, { kind: 'strokeRedone' }), { kind: 'lastTouchUndone' }).phase).toBe('finished');
    const stroke = met.get('stroke')!;
    expect(then(stroke, { kind: 'holdReleased' })).toBe(stroke);
    expect(then(stroke, { kind: 'datumMovedHere' })).toBe(stroke);
    expect(then(stroke, { kind: 'lastTouchUndone' })).toBe(stroke);
  });

  it('takes any event in any phase without a NaN in its cues', () => {
    const states = (): GuidanceState[] => [initialState, ...met.values()];
    fc.assert(
      fc.property(fc.nat(), fc.array(fc.constantFrom(...facts), { maxLength: 8 }), fc.double({ min: 0, max: 20, noNaN: true }), (pick, sequence, after) => {
        let state = states()[pick % states().length]!;
        for (const fact of sequence) state = then(then(state, fact, after), { kind: 'clockAdvanced' });
        const cues = cuesFrom(state);
        for (const value of Object.values(cues)) if (typeof value === 'number') expect(Number.isNaN(value)).toBe(false);
        for (const heading of [cues.headingMagneticDegrees, cues.headingTrueDegrees]) if (heading !== null) expect(heading >= 0 && heading < 360).toBe(true);
        if (cues.phase !== 'stroke') expect(cues.smoke).not.toBe('on');
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  it('breaks a stroke off at a hold and takes it up again a little before the break', () => {
    const held = then(met.get('stroke')!, { kind: 'held' });
    expect(cuesFrom(held)).toMatchObject({ phase: 'hold', smoke: 'off', headingMagneticDegrees: null });
    const released = then(held, { kind: 'holdReleased' });
    if (released.phase !== 'repositioning') throw new Error(released.phase);
    const progress = released.flight.progress[released.strokeIndex]!;
    expect(progress.status === 'to-fly' && progress.smokedMetres > 300).toBe(true);
    expect(viewFrom(released)!.strokeDoneMetres).toBeGreaterThan(300);
  });

  it('undoes a skip until the next stroke begins, and keeps what was learned since', () => {
    const before = met.get('reposition')!;
    if (before.phase !== 'repositioning') throw new Error(before.phase);
    const skipped = then(before, { kind: 'strokeSkipped' });
    if (skipped.phase !== 'repositioning') throw new Error(skipped.phase);
    expect(skipped.strokeIndex).toBe(before.strokeIndex + 1);
    const undone = then(skipped, { kind: 'lastTouchUndone' }, 2);
    if (undone.phase !== 'repositioning') throw new Error(undone.phase);
    expect(undone.strokeIndex).toBe(before.strokeIndex);
    expect(undone.flight.atSeconds).toBeCloseTo(before.flight.atSeconds + 2.1, 6);
  });

  it('flies a stroke again from its start after a redo', () => {
    const redone = then(met.get('stroke')!, { kind: 'strokeRedone' });
    if (redone.phase !== 'repositioning') throw new Error(redone.phase);
    expect(redone.flight.progress[redone.strokeIndex]).toEqual({ status: 'to-fly', smokedMetres: 0 });
    expect(cuesFrom(redone).smoke).toBe('off');
  });

  it('knocks off from everywhere, and lets it be undone', () => {
    for (const phase of ['reposition', 'run-in', 'stroke'] as const) {
      const off = then(met.get(phase)!, { kind: 'knockedOff' });
      expect(cuesFrom(off)).toMatchObject({ phase: 'finished', smoke: 'off', turn: null, because: 'knocked off' });
      expect(cuesFrom(then(then(off, { kind: 'lastTouchUndone' }), { kind: 'clockAdvanced' })).phase).not.toBe('finished');
    }
  });

  it('moves the text here before the first smoke: the first run-in lies straight ahead', () => {
    const before = [...met.values()].find(
      (state) => state.phase === 'repositioning' && state.flight.datumAtSeconds === null && state.flight.tracker.estimate !== null,
    )!;
    const here = then(before, { kind: 'datumMovedHere' });
    if (here.phase !== 'repositioning') throw new Error(here.phase);
    const start = viewFrom(here)!.stroke!.start;
    const own = viewFrom(here)!.own!;
    expect(Math.hypot(start.airEastMetres - own.airEastMetres, start.airNorthMetres - own.airNorthMetres)).toBeLessThan(700);
  });
});

describe('the true switch', () => {
  it('teaches the reaction that the cues lead by', () => {
    const begun = flight.events.reduce<GuidanceState>((state, event) => (state.phase === 'onStroke' ? state : reduce(state, event)), initialState);
    if (begun.phase !== 'onStroke') throw new Error(begun.phase);
    const switched = then(begun, { kind: 'smokeSwitched', smoke: 'on' }, 1);
    if (switched.phase !== 'onStroke') throw new Error(switched.phase);
    expect(switched.flight.reactionSeconds).toBeCloseTo(0.4 + 0.3 * (1 - 0.4), 6);
    const against = then(begun, { kind: 'smokeSwitched', smoke: 'off' }, 1);
    if (against.phase !== 'onStroke') throw new Error(against.phase);
    expect(against.flight.reactionSeconds).toBe(0.4);
  });

  it('late by a stalled page is a go-around, never a late ON', () => {
    const runIn = [...met.values()].find((state) => cuesFrom(state).phase === 'run-in')!;
    const inSeconds = cuesFrom(runIn).smokeInSeconds!;
    const stalled = then(runIn, { kind: 'clockAdvanced' }, Math.min(2.5, inSeconds + 0.8));
    expect(cuesFrom(stalled).smoke).toBe('off');
  });
});

describe('stale positions', () => {
  it('cue nothing from 3 s of age on, and say why', () => {
    const stroke = met.get('stroke')!;
    const blank = then(stroke, { kind: 'clockAdvanced' }, 3.2);
    expect(cuesFrom(blank)).toMatchObject({
      phase: 'no-cue',
      turn: null,
      headingMagneticDegrees: null,
      bankDegrees: null,
      smokeInSeconds: null,
      smoke: 'off',
      because: 'no fix',
    });
    expect(viewFrom(blank)).toMatchObject({ own: null, way: null });
  });

  it.each([
    ['a sleep of 3.5 s', 0.1, 3.6],
    ['a sleep of ten minutes', 0.1, 600.1],
    ['a wall clock set six hours on', 0.1, 6 * 3600 + 0.1],
    ['a wall clock set back', 0.1, -100],
  ])('cue nothing after %s until a fresh fix', (_, monotonicSeconds, wallSeconds) => {
    const jumped = then(met.get('reposition')!, { kind: 'clockAdvanced' }, monotonicSeconds, wallSeconds);
    expect(cuesFrom(jumped)).toMatchObject({
      phase: 'no-cue',
      turn: null,
      because: expect.stringMatching(/^clock jumped .* s: waiting for a fresh fix$/) as string,
    });
  });

  it.each([20, 600, 890])('lets the drift go on over a sleep of %d s, for the air did not sleep', (sleptSeconds) => {
    const stroke = met.get('stroke')!;
    const slept = then(then(stroke, { kind: 'clockAdvanced' }, 0.1, sleptSeconds + 0.1), { kind: 'clockAnswered', slept: true });
    if (slept.phase === 'idle' || stroke.phase === 'idle') throw new Error('idle');
    expect(stroke.flight.datumAtSeconds! - slept.flight.datumAtSeconds!).toBeCloseTo(sleptSeconds, 3);
  });
});

describe('under smoke', () => {
  it('the letter frame never jumps: what a fix says of the past drift waits until the smoke is off', () => {
    let state: GuidanceState = initialState;
    let before: { readonly east: number; readonly north: number } | null = null;
    let lastWind = { east: 0, north: 0 };
    let worst = 0;
    let waiting = 0;
    for (const event of flight.events) {
      state = reduce(state, event);
      if (state.phase !== 'onStroke') {
        before = null;
        continue;
      }
      // Where the frame stands over the ground: the position less the pose in it.
      const position = predictedAt(state.flight, state.flight.atSeconds)!;
      const pose = viewFrom(state)!.own!;
      const frame = {
        east: position.mean[STATE.east]! - pose.airEastMetres - position.mean[STATE.windEast]! * state.flight.atSeconds,
        north: position.mean[STATE.north]! - pose.airNorthMetres - position.mean[STATE.windNorth]! * state.flight.atSeconds,
      };
      if (before !== null && event.kind === 'fixReceived') {
        // The wind's own correction, times the clock, is not a jump of the frame.
        const turned = { east: frame.east - before.east, north: frame.north - before.north };
        const windEast = position.mean[STATE.windEast]! - lastWind.east;
        const windNorth = position.mean[STATE.windNorth]! - lastWind.north;
        worst = Math.max(worst, Math.hypot(turned.east + windEast * state.flight.atSeconds, turned.north + windNorth * state.flight.atSeconds));
        waiting = Math.max(waiting, Math.hypot(state.deferredEastMetres, state.deferredNorthMetres));
      }
      lastWind = { east: position.mean[STATE.windEast]!, north: position.mean[STATE.windNorth]! };
      before = frame;
    }
    expect(waiting).toBeGreaterThan(5);
    expect(worst).toBeLessThan(1);
  });

  it('is begun only inside the gate, on every stroke of the flight', () => {
    let state: GuidanceState = initialState;
    let begun = 0;
    for (const event of flight.events as FlightEvent[]) {
      const next = reduce(state, event);
      if (next.phase === 'onStroke' && state.phase !== 'onStroke') {
        begun += 1;
        expect(state.phase === 'repositioning' && state.onRunIn).toBe(true);
        expect(Math.abs(next.flight.advice!.crossTrackMetres!)).toBeLessThanOrEqual(60);
        expect(cuesFrom(next).fixAgeSeconds!).toBeLessThanOrEqual(2.2);
      }
      state = next;
    }
    expect(begun).toBe(setup.strokes.length);
  });
});
