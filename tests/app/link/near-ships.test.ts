import { describe, expect, it } from 'vitest';
import { createNearShips } from '../../../src/app/link/near-ships.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import type { RoomView } from '../../../src/link/link-room.ts';
import { flySortie } from '../../flight/fly-sortie.ts';
import { sortieOf } from '../../flight/ships-from-anywhere.ts';

/** The lead of seed 26 on its circle, hung for a wind of its own. */
function leadHung(): GuidanceState {
  const { events } = flySortie(sortieOf(26));
  let state: GuidanceState = initialState;
  for (const event of events[0]!) {
    state = reduce(state, event);
    if (state.phase === 'repositioning' && state.flight.formation?.part === 'circling') break;
  }
  if (state.phase !== 'repositioning') throw new Error(state.phase);
  const { atSeconds, wallMilliseconds } = state.flight;
  return reduce(state, { kind: 'hangingGiven', wind: { eastMetresPerSecond: 10, northMetresPerSecond: 0 }, atSeconds, wallMilliseconds });
}

describe('another ship that hangs the word elsewhere', () => {
  it('is told by its distance, and not where both hang it alike', { timeout: 30_000 }, () => {
    const state = leadHung();
    if (state.phase === 'idle') throw new Error('idle');
    const { movedEastMetres, movedNorthMetres } = state.flight;
    const at = { monotonicMilliseconds: 0, wallMilliseconds: 0 };
    const later = { monotonicMilliseconds: 6000, wallMilliseconds: 6000 };
    const fix = { latitudeDegrees: 46, longitudeDegrees: 8, ageSeconds: 0, altitudeMetres: null, trackDegreesTrue: null, groundSpeedMetresPerSecond: null };
    const roomWith = (hung: { readonly movedEastMetres: number; readonly movedNorthMetres: number; readonly hungBy: string } | null): RoomView =>
      ({
        ships: [{ device: 'b', name: 'Two', shipIndex: 1, ended: false, last: { at: later, retained: false, state: { fix, formation: hung } } }],
      }) as unknown as RoomView;
    const wordsOf = (hung: Parameters<typeof roomWith>[0]): readonly string[] => {
      const nearShips = createNearShips();
      // All hear of a new place within seconds: until then nothing is said.
      expect(nearShips(roomWith(hung), state, null, at)).toEqual([]);
      return nearShips(roomWith(hung), state, null, later).map(({ words }) => words);
    };
    const kilometres = (Math.hypot(movedEastMetres, movedNorthMetres) / 1000).toFixed(1);
    const briefed = { movedEastMetres: 0, movedNorthMetres: 0, hungBy: 'plan' };
    expect(Number(kilometres)).toBeGreaterThan(0.5);
    expect(wordsOf(briefed)).toEqual([`TWO HANGS ${kilometres} KM FROM YOU`]);
    expect(wordsOf({ ...briefed, hungBy: 'refusal' })).toEqual([`TWO REFUSED: HANGS ${kilometres} KM FROM YOU`]);
    expect(wordsOf({ movedEastMetres: Math.round(movedEastMetres), movedNorthMetres: Math.round(movedNorthMetres), hungBy: 'link' })).toEqual([]);
    // An older version says nothing of it, and nothing is known.
    expect(wordsOf(null)).toEqual([]);
  });
});

describe('another ship with another datum', () => {
  it('is told by how much, on both, and not within what hands and messages make', { timeout: 30_000 }, () => {
    const state = leadHung();
    if (state.phase === 'idle') throw new Error('idle');
    const { flight } = state;
    const at = { monotonicMilliseconds: 0, wallMilliseconds: 0 };
    const now = { monotonicMilliseconds: 1000, wallMilliseconds: 1000 };
    const fix = { latitudeDegrees: 46, longitudeDegrees: 8, ageSeconds: 0, altitudeMetres: null, trackDegreesTrue: null, groundSpeedMetresPerSecond: null };
    const told = (laterSeconds: number | null, own: GuidanceState = state, sent: { retained?: boolean; shipIndex?: number } = {}): readonly unknown[] => {
      const formation = {
        movedEastMetres: flight.movedEastMetres,
        movedNorthMetres: flight.movedNorthMetres,
        hungBy: 'hand',
        datumInSeconds: laterSeconds === null ? null : flight.datumAtSeconds! - flight.atSeconds + laterSeconds + 1,
      };
      const last = { at, retained: sent.retained ?? false, state: { fix, formation } };
      const room = { ships: [{ device: 'b', name: 'Two', shipIndex: sent.shipIndex ?? 1, ended: false, last }] } as unknown as RoomView;
      return createNearShips()(room, own, null, now);
    };
    expect(told(25)).toEqual([{ words: 'TWO’S TIME IS 25 s BEHIND YOURS: CALL TWO', isClose: false }]);
    expect(told(-25)).toEqual([{ words: 'TWO’S TIME IS 25 s AHEAD OF YOURS: CALL TWO', isClose: false }]);
    expect(told(300)).toEqual([{ words: 'TWO’S TIME IS 5:00 min BEHIND YOURS: CALL TWO', isClose: false }]);
    expect([told(4), told(-4), told(null)]).toEqual([[], [], []]);
    // What the broker kept, a second tablet of this very ship, and a ship whose own clock was set.
    expect(told(25, state, { retained: true })).toEqual([]);
    expect(told(25, state, { shipIndex: 0 })).toEqual([]);
    expect(told(25, { ...state, flight: { ...flight, formation: { ...flight.formation!, clockBroken: true } } })).toEqual([]);
  });
});
