/** What the service worker found when it looked at every stored file of the app. */
export interface StoredFiles {
  readonly whole: number;
  /** Missing or altered, and fetched again since. */
  readonly repaired: number;
  /** Missing or altered, and not to be had now. */
  readonly broken: readonly string[];
}

/** A service worker of an earlier version does not answer. */
const PATIENCE_MILLISECONDS = 20_000;
const UNKNOWN: StoredFiles = { whole: 0, repaired: 0, broken: [] };

/** Has every stored file held against the build's digest; nothing broken where nobody answers. */
export function askStoredFiles(container: Pick<ServiceWorkerContainer, 'ready'>): Promise<StoredFiles> {
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve(UNKNOWN), PATIENCE_MILLISECONDS);
    void container.ready.then(({ active }) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = ({ data }: MessageEvent<unknown>) => {
        clearTimeout(timer);
        channel.port1.close();
        resolve(isStoredFiles(data) ? data : UNKNOWN);
      };
      active?.postMessage({ type: 'IS_SHELL_WHOLE' }, [channel.port2]);
    });
  });
}

function isStoredFiles(value: unknown): value is StoredFiles {
  if (typeof value !== 'object' || value === null) return false;
  const { whole, repaired, broken } = value as Partial<Record<keyof StoredFiles, unknown>>;
  return typeof whole === 'number' && typeof repaired === 'number' && Array.isArray(broken) && broken.every((each) => typeof each === 'string');
}
