/** Whether the screen stays lit: held, being asked for, or why not. */
export type WakeLockState = 'held' | 'asking' | 'refused' | 'unsupported' | 'hidden';

/** The parts of the platform that a wake lock needs; the browser's objects fit. */
export interface WakeLockPlatform {
  readonly wakeLock: { request(type: 'screen'): Promise<WakeLockHandle> } | null;
  readonly page: Pick<EventTarget, 'addEventListener' | 'removeEventListener'> & { readonly visibilityState: string };
}

interface WakeLockHandle extends Pick<EventTarget, 'addEventListener'> {
  release(): Promise<void>;
}

const RETRY_MILLISECONDS = 5_000;

/** The browser's own platform. */
export function wakeLockPlatform(): WakeLockPlatform {
  return { wakeLock: 'wakeLock' in navigator ? navigator.wakeLock : null, page: document };
}

/**
 * Keeps the screen lit until the returned function is called. The system lets go of the lock when the page hides or
 * as it pleases; it is asked for again when the page shows, at once when released, and every 5 s when refused.
 */
export function keepAwake(platform: WakeLockPlatform, onState: (state: WakeLockState) => void): () => void {
  let ended = false;
  let asking = false;
  let held: WakeLockHandle | null = null;
  const { wakeLock, page } = platform;
  if (wakeLock === null) {
    onState('unsupported');
    return () => {};
  }

  const lost = (handle: WakeLockHandle): void => {
    if (held !== handle) return;
    held = null;
    if (!ended) void ask();
  };
  const ask = async (): Promise<void> => {
    if (ended || asking || held !== null) return;
    if (page.visibilityState === 'hidden') {
      onState('hidden');
      return;
    }
    asking = true;
    onState('asking');
    try {
      const handle = await wakeLock.request('screen');
      asking = false;
      if (ended) {
        await handle.release();
        return;
      }
      held = handle;
      handle.addEventListener('release', () => lost(handle));
      onState('held');
    } catch {
      asking = false;
      if (!ended) onState('refused');
    }
  };
  const again = (): void => void ask();

  page.addEventListener('visibilitychange', again);
  const timer = setInterval(again, RETRY_MILLISECONDS);
  void ask();
  return () => {
    ended = true;
    clearInterval(timer);
    page.removeEventListener('visibilitychange', again);
    // The page may be on its way out; a lock that cannot be let go is the system's to collect.
    held?.release().catch(() => {});
  };
}
