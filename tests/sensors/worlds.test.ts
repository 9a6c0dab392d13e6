import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { TimedFix } from '../../src/core/tracks/track-fixes.ts';
import { createHands } from '../../src/sensors/hands.ts';
import { createPlayedClock } from '../../src/sensors/played-clock.ts';
import { recordedWorld } from '../../src/sensors/recorded-world.ts';

const START_MILLISECONDS = Date.UTC(2026, 5, 20, 15, 0, 0);
const together = (work: () => void): void => work();

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('createPlayedClock', () => {
  it('takes steps of a tenth of a second, as many at once as its speed says', () => {
    let rooms = 0;
    const played = createPlayedClock({ startSeconds: 100, startWallMilliseconds: START_MILLISECONDS }, 20, (work) => {
      rooms += 1;
      work();
    });
    const ticks: number[] = [];
    const end = played.clock.everyTick(({ atSeconds }) => ticks.push(atSeconds));
    vi.advanceTimersByTime(1_000);
    expect(rooms).toBe(10);
    expect(ticks).toHaveLength(200);
    expect(ticks.slice(0, 3)).toEqual([100.1, 100.2, 100.3]);
    expect(played.clock.now()).toEqual({ atSeconds: 120, wallMilliseconds: START_MILLISECONDS + 20_000 });
    played.speed.write(1);
    vi.advanceTimersByTime(1_000);
    expect(played.clock.now().atSeconds).toBe(121);
    end();
    vi.advanceTimersByTime(5_000);
    expect(ticks).toHaveLength(210);
  });

  it('goes at 1 to 20 times the room’s clock and no other', () => {
    const played = createPlayedClock({ startSeconds: 0, startWallMilliseconds: 0 }, 400, together);
    expect(played.speed.read()).toBe(20);
    played.speed.write(0);
    expect(played.speed.read()).toBe(1);
  });
});

describe('recordedWorld', () => {
  const fixes: TimedFix[] = [0, 1, 2, 9].map((atSeconds) => ({
    atSeconds,
    fix: {
      latitudeDegrees: 47 + atSeconds / 1000,
      longitudeDegrees: 11,
      accuracyMetres: 10,
      altitudeMetres: null,
      groundSpeedMetresPerSecond: null,
      trackDegrees: null,
      stampMilliseconds: START_MILLISECONDS + atSeconds * 1000,
    },
  }));

  it('gives each fix a moment after its stamp on its own clock, invents none, and tells the end', () => {
    const world = recordedWorld(fixes, 1, together);
    const heard: string[] = [];
    world.position.start({
      fixReceived: ({ stampMilliseconds }) => heard.push(`${world.clock.now().wallMilliseconds - (stampMilliseconds ?? 0)} ms late`),
      fixesLost: (reason) => heard.push(reason),
    });
    world.clock.everyTick(() => {});
    vi.advanceTimersByTime(8_000);
    expect(heard).toEqual(['300 ms late', '300 ms late', '300 ms late']);
    vi.advanceTimersByTime(20_000);
    expect(heard).toEqual(['300 ms late', '300 ms late', '300 ms late', '300 ms late', 'unavailable']);
  });
});

describe('createHands', () => {
  class Key extends Event {
    readonly code: string;
    readonly repeat: boolean;

    constructor(type: string, code: string, repeat = false) {
      super(type, { cancelable: true });
      this.code = code;
      this.repeat = repeat;
    }
  }

  it('leans while a key is held, and moves the switch once a press', () => {
    const keys = new EventTarget();
    const hands = createHands(keys);
    keys.dispatchEvent(new Key('keydown', 'ArrowLeft'));
    expect(hands.lean()).toBe(-1);
    keys.dispatchEvent(new Key('keydown', 'ArrowRight'));
    expect(hands.lean()).toBe(0);
    keys.dispatchEvent(new Key('keyup', 'ArrowLeft'));
    expect(hands.lean()).toBe(1);
    keys.dispatchEvent(new Key('keyup', 'ArrowRight'));
    hands.leanTo(-1);
    expect(hands.lean()).toBe(-1);
    keys.dispatchEvent(new Key('keydown', 'Space'));
    keys.dispatchEvent(new Key('keydown', 'Space', true));
    expect(hands.smoke()).toBe('on');
    hands.end();
    keys.dispatchEvent(new Key('keydown', 'Space'));
    expect(hands.smoke()).toBe('on');
  });
});
