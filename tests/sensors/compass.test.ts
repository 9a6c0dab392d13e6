import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type CompassReading, followCompass } from '../../src/sensors/compass.ts';
import { degreesFromRadians } from '../../src/core/units/angle.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function follow(options: { permission?: string; supported?: boolean } = {}) {
  const target = new EventTarget();
  const readings: CompassReading[] = [];
  const end = followCompass(
    { target, requestPermission: options.permission === undefined ? null : async () => options.permission ?? '', supported: options.supported ?? true },
    (reading) => readings.push(reading),
  );
  const turn = (name: string, angles: object): void => void target.dispatchEvent(Object.assign(new Event(name), angles));
  return { readings, end, turn };
}

const pointed = (reading: CompassReading | undefined): readonly number[] | null =>
  reading?.kind === 'pointing'
    ? [reading.magnetic.azimuthRadians, reading.magnetic.elevationRadians].map((radians) => Math.round(degreesFromRadians(radians)) + 0)
    : null;

describe('the compass', () => {
  it('points where the back of a device points, 35 degrees up in the north-west', () => {
    const { readings, turn } = follow();
    turn('deviceorientationabsolute', { alpha: 45, beta: 125, gamma: 0, absolute: true });
    expect(pointed(readings.at(-1))).toEqual([315, 35]);
  });

  it('takes the heading where a platform gives that instead, with its stated error', async () => {
    const { readings, turn } = follow({ permission: 'granted' });
    await vi.advanceTimersByTimeAsync(0);
    turn('deviceorientation', { alpha: 12, beta: 90, gamma: 0, absolute: false, webkitCompassHeading: 90, webkitCompassAccuracy: 15 });
    expect(pointed(readings.at(-1))).toEqual([90, 0]);
    expect(readings.at(-1)).toMatchObject({ errorDegrees: 15 });
  });

  it('makes nothing of angles that are not from north', () => {
    const { readings, turn } = follow();
    turn('deviceorientation', { alpha: 45, beta: 90, gamma: 0, absolute: false });
    turn('deviceorientation', { alpha: null, beta: null, gamma: null, absolute: true });
    expect(readings).toEqual([{ kind: 'silent' }]);
  });

  it('says so when it is refused, when it is silent, and when there is none', async () => {
    const refused = follow({ permission: 'denied' });
    await vi.advanceTimersByTimeAsync(5000);
    refused.turn('deviceorientationabsolute', { alpha: 0, beta: 90, gamma: 0, absolute: true });
    expect(refused.readings.map(({ kind }) => kind)).toEqual(['silent', 'refused']);
    const silent = follow();
    vi.advanceTimersByTime(3000);
    expect(silent.readings.map(({ kind }) => kind)).toEqual(['silent', 'unsupported']);
    expect(follow({ supported: false }).readings).toEqual([{ kind: 'unsupported' }]);
  });

  it('points nowhere from a table, and says nothing after its end', () => {
    const { readings, turn, end } = follow();
    turn('deviceorientationabsolute', { alpha: 0, beta: 0, gamma: 0, absolute: true });
    expect(readings.at(-1)).toEqual({ kind: 'nowhere' });
    end();
    turn('deviceorientationabsolute', { alpha: 0, beta: 90, gamma: 0, absolute: true });
    expect(readings).toHaveLength(2);
  });
});
