import { describe, expect, it } from 'vitest';
import { createNearShips } from '../../../src/app/link/near-ships.ts';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { predictedAt } from '../../../src/core/guidance/present.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { STATE } from '../../../src/core/tracking/estimate.ts';
import type { RoomView } from '../../../src/link/link-room.ts';
import { flySortie } from '../../flight/fly-sortie.ts';
import { sortieOf } from '../../flight/ships-from-anywhere.ts';

const FLOWN = { jobDigest: 'a1b2', flightKind: 'flight' } as const;

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
        ships: [
          {
            device: 'b',
            name: 'Two',
            shipIndex: 1,
            ended: false,
            flightKind: null,
            jobDigest: null,
            last: { at: later, retained: false, state: { fix, formation: hung } },
          },
        ],
      }) as unknown as RoomView;
    const wordsOf = (hung: Parameters<typeof roomWith>[0]): readonly string[] => {
      const nearShips = createNearShips(FLOWN);
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
      const room = {
        ships: [{ device: 'b', name: 'Two', shipIndex: sent.shipIndex ?? 1, ended: false, flightKind: null, jobDigest: null, last }],
      } as unknown as RoomView;
      return createNearShips(FLOWN)(room, own, null, now);
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

describe('another ship that does not fly the same', () => {
  const at = { monotonicMilliseconds: 0, wallMilliseconds: 0 };
  const soon = { monotonicMilliseconds: 1000, wallMilliseconds: 1000 };
  /** Two beside this very ship, heading for it, as its device tells it. */
  const told = (
    own: GuidanceState,
    flown: Parameters<typeof createNearShips>[0],
    kind: string | null,
    digest: string | null,
    { now = soon, shipIndex = 1 } = {},
  ): readonly unknown[] => {
    if (own.phase === 'idle') throw new Error('idle');
    const { movedEastMetres, movedNorthMetres } = own.flight;
    const { mean } = predictedAt(own.flight, own.flight.atSeconds)!;
    const place = geodeticFromSite(
      { eastMetres: mean[STATE.east]!, northMetres: mean[STATE.north]! },
      own.flight.setup.layerHeightMetres,
      own.flight.setup.site,
    );
    const fix = { ...place, ageSeconds: 0, altitudeMetres: null, trackDegreesTrue: 0, groundSpeedMetresPerSecond: 50 };
    const formation = kind === null ? null : { flightKind: kind, movedEastMetres, movedNorthMetres, hungBy: 'hand', datumInSeconds: null };
    const last = { at, retained: false, state: { fix, formation } };
    const ships = [{ device: 'b', name: 'Two', shipIndex, ended: false, flightKind: null, jobDigest: digest, last }];
    return createNearShips(flown)({ ships } as unknown as RoomView, own, null, now);
  };
  const close = { words: expect.stringMatching(/^TWO \d+ m .*, 0 s$/) as string, isClose: true };

  it('is said to rehearse or to fly, and what is only simulated is near nobody', { timeout: 30_000 }, () => {
    const state = leadHung();
    const rehearsed = { ...FLOWN, flightKind: 'rehearsal' } as const;
    expect(told(state, FLOWN, 'flight', 'a1b2')).toEqual([close]);
    // A version that tells no kind is taken for one that flies as this ship does.
    expect(told(state, FLOWN, null, 'a1b2')).toEqual([close]);
    expect(told(state, FLOWN, 'rehearsal', 'a1b2')).toEqual([{ words: 'TWO IS NOT FLYING: CALL TWO', isClose: false }]);
    expect(told(state, FLOWN, 'replay', 'a1b2')).toEqual([{ words: 'TWO IS NOT FLYING: CALL TWO', isClose: false }]);
    expect(told(state, rehearsed, 'rehearsal', 'a1b2')).toEqual([close]);
    expect(told(state, rehearsed, 'flight', 'a1b2')).toEqual([{ words: 'TWO FLIES, YOU DO NOT', isClose: false }]);
    expect(told(state, rehearsed, 'replay', 'a1b2')).toEqual([]);
    // A second tablet of this very ship is told of in a line of its own.
    expect(told(state, FLOWN, 'rehearsal', 'a1b2', { shipIndex: 0 })).toEqual([]);
    expect(told(state, FLOWN, 'flight', 'ffff', { shipIndex: 0 })).toEqual([]);
    // Not heard of for longer, it may long have ended.
    expect(told(state, FLOWN, 'rehearsal', 'a1b2', { now: { monotonicMilliseconds: 9000, wallMilliseconds: 9000 } })).toEqual([]);
  });

  it('is said to have another version of the job until the datum, and is cautioned of as before', { timeout: 30_000 }, () => {
    const state = leadHung();
    if (state.phase === 'idle') throw new Error('idle');
    const other = { words: 'TWO’S JOB IS NOT YOURS: CALL TWO', isClose: false };
    expect(told(state, FLOWN, 'flight', 'ffff')).toEqual([close, other]);
    expect(told(state, FLOWN, 'flight', null)).toEqual([close]);
    expect(told(state, { ...FLOWN, jobDigest: null }, 'flight', 'ffff')).toEqual([close]);
    const writing = { ...state, flight: { ...state.flight, datumAtSeconds: state.flight.atSeconds - 1 } };
    expect(told(writing, FLOWN, 'flight', 'ffff')).not.toContainEqual(other);
  });
});
