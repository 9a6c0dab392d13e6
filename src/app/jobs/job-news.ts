import type { JobNews } from './shelf-types.ts';

const CHANNEL = 'quillwind-jobs';

/** News of stored jobs between the tabs of this browser; a tab that could not hear reads again when it is shown. */
export function jobNews(): JobNews {
  const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(CHANNEL) : null;
  return {
    tell: () => channel?.postMessage(null),
    onTold(listener) {
      channel?.addEventListener('message', () => void listener());
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'visible') void listener();
      });
    },
  };
}
