import { expect, it } from 'vitest';
import { flightOfTrack } from '../../../src/app/debrief/flight-of-track.ts';

const span = (fromMilliseconds: number, toMilliseconds: number) => ({ fromMilliseconds, toMilliseconds });
const flight = (flightId: string, from: number, to: number) => ({ flightId, ...span(from, to) });
const OTHERS = [flight('short', 100, 110), flight('long', 105, 200)];

it('is the open one where they overlap at all, however little', () => {
  expect(flightOfTrack(span(100, 200), flight('open', 200, 300), OTHERS)).toBe('open');
});

it('is the one that shares most time with it', () => {
  expect(flightOfTrack(span(100, 140), flight('open', 500, 600), OTHERS)).toBe('long');
  expect(flightOfTrack(span(90, 107), null, OTHERS)).toBe('short');
  expect(flightOfTrack(span(150, 160), null, [flight('going', 120, Infinity)])).toBe('going');
});

it('is none where nothing was flown at that hour', () => {
  expect(flightOfTrack(span(300, 400), flight('open', 500, 600), OTHERS)).toBeNull();
  expect(flightOfTrack(span(110, 111), null, [flight('short', 100, 110)])).toBeNull();
});
