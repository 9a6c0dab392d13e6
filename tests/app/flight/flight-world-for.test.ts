import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { worldWith } from '../../../src/app/flight/flight-world-for.ts';
import { keepPace } from '../../../src/app/flight/rehearsal-pace.ts';
import type { RehearsalChoice } from '../../../src/app/flight/flight-choices.ts';
import type { Fix } from '../../../src/core/tracking/fix.ts';
import { createHands } from '../../../src/sensors/hands.ts';
import { wordSetup } from '../../flight/word-setup.ts';
import { someCues } from '../../ui/write/some-cues.ts';

const { setup } = wordSetup('I');
const choice: RehearsalChoice = { kind: 'rehearsal', windFromDegrees: 270, windKnots: 0, skill: 'steady', flownBy: 'hands', speed: 20, seed: 1 };

/** Where a rehearsal by hand has turned to after some seconds, degrees clockwise of its start. */
function turnedDegrees(lean: -1 | 0 | 1, turn: 'left' | 'right' | 'straight', bankDegrees: number): number {
  const hands = createHands(new EventTarget());
  hands.leanTo(lean);
  const world = worldWith(choice, setup, null, () => ({ ...someCues, turn, bankDegrees }), hands);
  const fixes: Fix[] = [];
  const end = world.position.start({ fixReceived: (fix) => fixes.push(fix), fixesLost: () => {} });
  const endTicks = world.clock.everyTick(() => {});
  vi.advanceTimersByTime(600);
  end();
  endTicks();
  const track = (one: Fix, other: Fix): number =>
    (Math.atan2(
      (other.longitudeDegrees - one.longitudeDegrees) * Math.cos((one.latitudeDegrees * Math.PI) / 180),
      other.latitudeDegrees - one.latitudeDegrees,
    ) *
      180) /
    Math.PI;
  const [first, second] = [fixes[0]!, fixes[1]!];
  const [before, last] = [fixes.at(-2)!, fixes.at(-1)!];
  return ((((track(before, last) - track(first, second)) % 360) + 540) % 360) - 180;
}

describe('a rehearsal by hand', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('flies on straight without a hand, and turns to the side that is leaned to', () => {
    expect(Math.abs(turnedDegrees(0, 'left', 45))).toBeLessThan(12);
    expect(turnedDegrees(1, 'straight', 0)).toBeGreaterThan(25);
    expect(turnedDegrees(-1, 'straight', 0)).toBeLessThan(-25);
  });

  it('takes the cued bank on the cued side, and 20 degrees on the other', () => {
    // Rate g tan(bank) / V: 45 degrees turn 2.7 times as fast as 20 (FAA-H-8083-25C, chapter 5).
    const cued = turnedDegrees(-1, 'left', 45);
    const other = turnedDegrees(1, 'left', 45);
    expect(cued / other).toBeLessThan(-2);
    expect(cued / other).toBeGreaterThan(-3.5);
  });
});

describe('the pace of a rehearsal', () => {
  const kept = new Map<string, string>();
  const resumption = { atSeconds: 60, wallMilliseconds: null, place: null };
  const paceOf = (begun: typeof resumption | null): number | undefined => worldWith(choice, setup, begun, () => someCues, null).speed?.read();
  beforeEach(() => {
    kept.clear();
    vi.stubGlobal('sessionStorage', { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) });
  });
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  it('is the one that was chosen last when the page is loaded again, and the chosen one in a new rehearsal', () => {
    expect(paceOf(null)).toBe(20);
    keepPace(5);
    expect(paceOf(resumption)).toBe(5);
    expect(paceOf(null)).toBe(20);
    expect(paceOf(resumption)).toBe(20);
  });

  it('is the one it was begun with where nothing sensible is kept, or nothing can be', () => {
    for (const value of ['', 'fast', '0', '1e9']) {
      kept.set('rehearsal-pace', value);
      expect(paceOf(resumption)).toBe(20);
    }
    vi.stubGlobal('sessionStorage', undefined);
    expect(paceOf(resumption)).toBe(20);
  });
});
