import { signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { laterLink } from '../../../src/app/link/later-link.ts';
import type { LinkDesk } from '../../../src/app/link/link-desk.ts';
import type { LinkSettings } from '../../../src/app/link/link-settings.ts';

const NEAR = { words: 'TWO 300 m left, 10 s', isClose: true };
const SETTINGS: LinkSettings = { address: 'wss://field.example/link', user: 'anna', password: 'x', on: true };

function someDesk(): LinkDesk & { readonly endObserving: ReturnType<typeof vi.fn> } {
  const endObserving = vi.fn();
  return {
    settings: signal<LinkSettings | null>(SETTINGS),
    settingsRead: signal(true),
    room: signal(null),
    groundCalls: signal([]),
    nearShips: signal([NEAR]),
    sameShip: signal([]),
    lost: signal(true),
    setSettings: vi.fn(),
    observe: vi.fn(() => endObserving),
    tell: vi.fn(),
    retry: vi.fn(),
    endObserving,
  };
}

describe('laterLink', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('is unlinked until its code is there, and then does what was asked meanwhile, in its order', async () => {
    const desk = someDesk();
    const load = vi.fn<() => Promise<LinkDesk>>().mockRejectedValueOnce(new Error('offline')).mockResolvedValueOnce(desk);
    const link = laterLink(load);
    expect([link.settingsRead.value, link.settings.value, link.lost.value, link.nearShips.value]).toEqual([false, null, false, []]);
    link.setSettings(SETTINGS);
    const end = link.observe('lake', 'Pier', null);
    end();
    await vi.advanceTimersByTimeAsync(2_000);
    expect([link.settingsRead.value, link.settings.value, link.lost.value, link.nearShips.value]).toEqual([true, SETTINGS, true, [NEAR]]);
    expect(desk.setSettings).toHaveBeenCalledWith(SETTINGS);
    expect(desk.observe).toHaveBeenCalledWith('lake', 'Pier', null);
    // What was ended before it was there is ended all the same.
    expect(desk.endObserving).toHaveBeenCalledTimes(1);
    expect(load).toHaveBeenCalledTimes(2);
  });
});
