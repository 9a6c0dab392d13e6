import type { LinkPage } from '../../link/link-session-types.ts';

/** The page's own coming and going, as the link wants to know it. */
export function linkPage(): LinkPage {
  return {
    onShown(listener) {
      let hiddenAtMilliseconds = document.visibilityState === 'hidden' ? Date.now() : null;
      const changed = (): void => {
        if (document.visibilityState === 'hidden') {
          hiddenAtMilliseconds = Date.now();
          return;
        }
        const hiddenSeconds = hiddenAtMilliseconds === null ? 0 : Math.max(0, (Date.now() - hiddenAtMilliseconds) / 1000);
        hiddenAtMilliseconds = null;
        listener(hiddenSeconds);
      };
      document.addEventListener('visibilitychange', changed);
      return () => document.removeEventListener('visibilitychange', changed);
    },
    onOnline(listener) {
      addEventListener('online', listener);
      return () => removeEventListener('online', listener);
    },
  };
}
