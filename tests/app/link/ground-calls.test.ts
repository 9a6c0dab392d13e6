import { describe, expect, it } from 'vitest';
import { groundCallsShown } from '../../../src/app/link/ground-calls.ts';
import type { GroundEventHeard, RoomView } from '../../../src/link/link-room.ts';

const AT = 1_800_000_000_000;
const at = (seconds: number) => ({ wallMilliseconds: AT + seconds * 1000, monotonicMilliseconds: seconds * 1000 });
const call = (sequence: number, heardAtSeconds: number, ageMilliseconds: number | null, more: object = {}): GroundEventHeard => ({
  device: 'anna',
  at: at(heardAtSeconds),
  ageAtArrival: ageMilliseconds === null ? { kind: 'unknown', apartMilliseconds: 300_000 } : { kind: 'known', ageMilliseconds },
  event: {
    v: 1,
    device: 'anna',
    boot: 'b',
    sentAtMilliseconds: AT,
    sequence,
    atMilliseconds: AT,
    kind: 'call',
    call: 'traffic',
    letterIndex: null,
    character: null,
    ...more,
  },
});
const room = (groundEvents: readonly GroundEventHeard[]): RoomView => ({
  status: { kind: 'linked' },
  ships: [],
  groundEvents,
  observers: [{ device: 'anna', name: 'Pier' }],
  heard: [],
  eventCount: 0,
  missingCount: 0,
  waitingCount: 0,
  storing: true,
  refusedCount: 0,
});

describe('calls on the cue screen', () => {
  it('are words with the caller\u2019s name and their age, newest first, two at most', () => {
    const shown = groundCallsShown(
      room([call(0, 0, 100), call(1, 5, 100, { call: 'letter-broken', letterIndex: 1, character: 'K' }), call(2, 8, 100, { call: 'reads-well' })]),
      at(10),
    );
    expect(shown.map(({ words, from, ageSeconds }) => [words, from, Math.round(ageSeconds ?? -1)])).toEqual([
      ['READS WELL', 'Pier', 2],
      ['LETTER K BROKEN', 'Pier', 5],
    ]);
  });

  it('go after a minute', () => {
    expect(groundCallsShown(room([call(0, 0, 0)]), at(59))).toHaveLength(1);
    expect(groundCallsShown(room([call(0, 0, 0)]), at(61))).toHaveLength(0);
  });

  it('keep STOP above all else for as long as nobody has touched it, the latest one alone', () => {
    const stop = (sequence: number, heardAtSeconds: number) => call(sequence, heardAtSeconds, 100, { call: 'stop' });
    const heard = room([stop(0, 0), stop(1, 5), call(2, 300, 100), call(3, 301, 100), call(4, 302, 100, { call: 'reads-well' })]);
    expect(groundCallsShown(heard, at(310)).map(({ words, id }) => `${words} ${id}`)).toEqual(['STOP anna/b/1', 'READS WELL anna/b/4']);
    expect(groundCallsShown(heard, at(4_000)).map(({ words }) => words)).toEqual(['STOP']);
    expect(groundCallsShown(room([call(0, 0, 301_000, { call: 'stop' })]), at(1))).toEqual([]);
  });

  it('are as old as they are when a link held them up, and not shown at all after five minutes', () => {
    expect(groundCallsShown(room([call(0, 0, 200_000)]), at(1))[0]?.ageSeconds).toBeCloseTo(201, 6);
    expect(groundCallsShown(room([call(0, 0, 301_000)]), at(1))).toEqual([]);
  });

  it('have no age where the clocks are in doubt', () => {
    expect(groundCallsShown(room([call(0, 0, null)]), at(1))[0]?.ageSeconds).toBeNull();
  });

  it('are no news while there are none', () => {
    expect(groundCallsShown(null, at(0))).toBe(groundCallsShown(room([]), at(1)));
    expect(groundCallsShown(room([call(0, 0, 0)]), at(100))).toBe(groundCallsShown(null, at(0)));
  });
});
