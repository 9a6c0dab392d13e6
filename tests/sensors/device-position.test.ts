import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { devicePosition } from '../../src/sensors/device-position.ts';
import type { DevicePositionReport } from '../../src/sensors/fix-from-position.ts';
import { FakePage } from './fake-page.ts';

const START_MILLISECONDS = Date.UTC(2026, 5, 20, 15, 0, 0);

function report(timestamp = Date.now(), latitude = 47): DevicePositionReport {
  return { coords: { latitude, longitude: 11, accuracy: 5, altitude: null, speed: null, heading: null }, timestamp };
}

class FakeReceiver {
  watches = new Map<number, { readonly success: (position: DevicePositionReport) => void; readonly failure: (error: { readonly code: number }) => void }>();
  begun = 0;

  watchPosition(success: (position: DevicePositionReport) => void, failure: (error: { readonly code: number }) => void): number {
    this.begun += 1;
    this.watches.set(this.begun, { success, failure });
    return this.begun;
  }

  clearWatch(watchId: number): void {
    this.watches.delete(watchId);
  }

  give(position: DevicePositionReport): void {
    for (const { success } of this.watches.values()) success(position);
  }

  fail(code: number): void {
    for (const { failure } of this.watches.values()) failure({ code });
  }
}

function started() {
  const receiver = new FakeReceiver();
  const page = new FakePage();
  let grant = (): void => {};
  const heard: string[] = [];
  const end = devicePosition({
    geolocation: receiver,
    page,
    onPermissionGranted(listener) {
      grant = listener;
      return () => {};
    },
  }).start({
    fixReceived: ({ latitudeDegrees }) => heard.push(`fix ${latitudeDegrees}`),
    fixesLost: (reason) => heard.push(reason),
  });
  return { receiver, page, heard, end, grant: () => grant() };
}

describe('devicePosition', () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: START_MILLISECONDS });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('tells a silence once, though the watch raises nothing, and hears on', () => {
    const { receiver, heard } = started();
    receiver.give(report());
    vi.advanceTimersByTime(2_900);
    expect(heard).toEqual(['fix 47']);
    vi.advanceTimersByTime(4_000);
    expect(heard).toEqual(['fix 47', 'unavailable']);
    receiver.give(report());
    vi.advanceTimersByTime(4_000);
    expect(heard).toEqual(['fix 47', 'unavailable', 'fix 47', 'unavailable']);
  });

  it('begins the watch anew every ten silent seconds, holding one watch at a time', () => {
    const { receiver } = started();
    vi.advanceTimersByTime(21_000);
    expect(receiver.begun).toBe(3);
    expect(receiver.watches.size).toBe(1);
  });

  it('does not ask again for a permission refused, and begins when it is granted', () => {
    const { receiver, page, heard, grant } = started();
    receiver.fail(1);
    vi.advanceTimersByTime(30_000);
    page.show('hidden');
    page.show('visible');
    expect(heard).toEqual(['permission', 'hidden', 'permission']);
    expect(receiver.begun).toBe(1);
    grant();
    receiver.give(report());
    expect(heard.at(-1)).toBe('fix 47');
  });

  it('drops what was measured before the page was shown again', () => {
    const { receiver, page, heard } = started();
    receiver.give(report());
    page.show('hidden');
    receiver.give(report(Date.now(), 48));
    vi.advanceTimersByTime(60_000);
    page.show('visible');
    receiver.give(report(Date.now() - 59_000, 49));
    receiver.give(report(Date.now() + 10, 50));
    expect(heard).toEqual(['fix 47', 'hidden', 'fix 50']);
  });

  it('keeps fixes whose stamp counts from 2001, since they say nothing about age', () => {
    const { receiver, page, heard } = started();
    page.show('hidden');
    page.show('visible');
    receiver.give(report(Date.now() - Date.UTC(2001, 0, 1)));
    expect(heard).toEqual(['hidden', 'fix 47']);
  });

  it('is silent after its end', () => {
    const { receiver, page, heard, end } = started();
    end();
    receiver.give(report());
    page.show('hidden');
    vi.advanceTimersByTime(60_000);
    expect(heard).toEqual([]);
    expect(receiver.watches.size).toBe(0);
  });

  it('says so where there is no receiver at all', () => {
    const heard: string[] = [];
    devicePosition({ geolocation: null, page: new FakePage(), onPermissionGranted: () => () => {} }).start({
      fixReceived: () => heard.push('fix'),
      fixesLost: (reason) => heard.push(reason),
    });
    expect(heard).toEqual(['unavailable']);
  });
});
