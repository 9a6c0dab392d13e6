import { describe, expect, it } from 'vitest';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { Cues } from '../../src/core/guidance/cues.ts';
import { viewFrom } from '../../src/core/guidance/flight-view-from.ts';
import { initialState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { flySortie } from './fly-sortie.ts';
import { ordinaryHands } from './ordinary-pilot.ts';
import { type Sortie, sortieOf, type ShipFault } from './ships-from-anywhere.ts';

/** Seed 26: BLESS by two ships, 525 s before the datum, no fault of its own. */
const CLEAN = 26;
const withFault = (fault: ShipFault): Sortie => ({ ...sortieOf(CLEAN), fault: { shipIndex: 1, fault } });

describe('ships of a formation from anywhere', () => {
  it('write whole and keep apart, at heights of their own until they are on their circles', { timeout: 60_000 }, () => {
    const joinedAt: number[] = [];
    const report = flySortie(sortieOf(CLEAN), (ship, _since, state) => {
      const cues = cuesFrom(state);
      if (cues.part === 'joining' && cues.heightFeet !== null) expect(cues.heightFeet).toBe(ship === 0 ? 10_000 : 11_000);
      if (cues.phase === 'stroke') expect(cues.heightFeet).toBe(10_500);
      if (cues.established === true) joinedAt[ship] ??= 1;
    });
    expect(report.whole).toBe(true);
    expect(joinedAt).toEqual([1, 1]);
    expect(report.nearest?.metres ?? Infinity).toBeGreaterThan(300);
  });

  it.each<ShipFault>([
    { kind: 'blind', seconds: 30, atSeconds: 40 },
    { kind: 'killed', seconds: 12, atSeconds: 40 },
    { kind: 'redo', atSeconds: 120 },
    { kind: 'held', seconds: 40, atSeconds: 60 },
    { kind: 'dropped-out', atSeconds: 60 },
  ])('end at their own height when $kind, and nobody comes near', { timeout: 60_000 }, (fault) => {
    let wentDown = false;
    const report = flySortie(withFault(fault), (ship, since, state) => {
      if (ship === 1 && since > 40 && cuesFrom(state).heightFeet === 11_000) wentDown = true;
    });
    expect(wentDown).toBe(true);
    expect(report.states.every(({ phase }) => phase === 'finished')).toBe(true);
    expect(report.nearest?.metres ?? Infinity).toBeGreaterThan(300);
  });

  it('learn their pilots’ reaction on their ways, and nothing of it from the banks of their circles', { timeout: 180_000 }, () => {
    const before: { part: string; reactionSeconds: number }[] = [];
    let circled = 0;
    const report = flySortie(sortieOf(CLEAN), (ship, _since, state) => {
      if (state.phase === 'idle' || state.flight.formation === null) return;
      const { hands, formation } = state.flight;
      const now = { part: formation.part, reactionSeconds: hands.turnReactionSeconds };
      if (now.part === 'circling' && before[ship]?.part === 'circling') {
        circled += 1;
        expect(now).toEqual(before[ship]);
      }
      before[ship] = now;
    });
    expect(circled).toBeGreaterThan(500);
    for (const [ship, state] of report.states.entries()) {
      if (state.phase === 'idle') throw new Error('idle');
      const truly = report.sortie.ships[ship]!.reactionSeconds;
      const { hands, setup } = state.flight;
      expect(Math.abs(hands.turnReactionSeconds - truly)).toBeLessThan(Math.max(0.2, Math.abs(setup.reactionSeconds - truly)));
      expect(hands.turnReactionSeconds).not.toBe(setup.reactionSeconds);
      expect(hands.turnShare).toBeGreaterThan(0.93);
      expect(hands.turnShare).toBeLessThan(1.07);
    }
  });

  it('learn on their circles how steeply ordinary pilots turn', { timeout: 60_000 }, () => {
    const learned = new Map<number, number>();
    flySortie({ ...sortieOf(CLEAN), ordinaryPilots: true }, (ship, sinceDatum, state) => {
      if (state.phase !== 'idle' && sinceDatum < 0 && state.flight.formation?.part === 'circling') learned.set(ship, state.flight.hands.turnShare);
    });
    for (const [ship, share] of learned) {
      const off = ordinaryHands(CLEAN * 10 + ship, { airspeedMetresPerSecond: 1, valveOnSeconds: 0, valveOffSeconds: 0 }).bankOffDegrees!;
      // At about 45 degrees, where its tangent is 1.
      const truly = Math.tan(((45 + off) * Math.PI) / 180);
      expect(Math.abs(share - truly)).toBeLessThan(Math.max(0.06, 0.7 * Math.abs(1 - truly)));
    }
    expect(learned.size).toBe(2);
  });

  it(
    'are not early at a stroke any more, where being slow gains time in turns (seeds 13 and 41 left their timetables for minutes)',
    { timeout: 60_000 },
    () => {
      for (const seed of [13, 41]) expect(flySortie(sortieOf(seed)).durationShare).toBeLessThan(1.1);
    },
  );

  it('wait on their circles while their place is in doubt, and say why', { timeout: 60_000 }, () => {
    const events = flySortie(sortieOf(CLEAN)).events[1]!;
    let state = initialState;
    let doubtedAtSeconds: number | null = null;
    const cues: Cues[] = [];
    for (const event of events) {
      if (doubtedAtSeconds !== null && event.atSeconds > doubtedAtSeconds + 120) break;
      state = reduce(state, event);
      if (doubtedAtSeconds !== null) cues.push(cuesFrom(state));
      if (doubtedAtSeconds !== null || state.phase === 'idle' || state.flight.formation === null) continue;
      if (state.flight.formation.part !== 'circling' || state.flight.formation.toLayerSinceSeconds === null) continue;
      // At the layer, half a minute before it leaves.
      doubtedAtSeconds = event.atSeconds;
      state = { ...state, flight: { ...state.flight, placeDoubt: { kind: 'late', seconds: 3 } } };
    }
    expect(cues[20]).toMatchObject({ part: 'circling', because: expect.stringContaining('late by 3 s') as string });
    expect(cues.some(({ part }) => part === 'timetable')).toBe(false);
    expect(viewFrom(state)?.placeDoubted).toBe(true);
  });

  it('keep their timetables when they answer on the way that the place is right', { timeout: 60_000 }, () => {
    const events = flySortie(sortieOf(CLEAN)).events[1]!;
    let state = initialState;
    let answered = 0;
    for (const event of events) {
      state = reduce(state, event);
      if (state.phase === 'idle' || state.flight.formation?.part !== 'timetable') continue;
      const { phase, flight } = state;
      if (answered === (phase === 'onStroke' ? 1 : 0)) {
        const doubted = { ...state, flight: { ...flight, placeDoubt: { kind: 'late' as const, seconds: 3 } } };
        state = reduce(doubted, { kind: 'holdReleased', atSeconds: event.atSeconds, wallMilliseconds: event.wallMilliseconds });
        answered += 1;
        expect(viewFrom(state)?.placeDoubted).toBe(false);
        expect(state).toMatchObject({ phase, flight: { formation: { part: 'timetable', left: null, window: flight.formation?.window } } });
      }
    }
    expect(answered).toBe(2);
    expect(state.phase === 'finished' && state.how).toBe('complete');
  });

  it('replay from their logs to the very same state', { timeout: 60_000 }, () => {
    const report = flySortie(withFault({ kind: 'redo', atSeconds: 120 }));
    for (const [ship, events] of report.events.entries()) {
      const again = (JSON.parse(JSON.stringify(events)) as typeof events).reduce(reduce, initialState);
      expect(JSON.stringify(again)).toBe(JSON.stringify(report.states[ship]));
    }
  });
});
