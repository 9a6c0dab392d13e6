import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { LinkDesk } from './link-desk.ts';

const NONE: readonly never[] = [];
const RETRY_MILLISECONDS = 2_000;

/**
 * The page's link, its code fetched after the first cue, which waits for none of it. Until it is there nothing is linked;
 * what is asked of it meanwhile is done then. A fetch that fails is tried again.
 */
export function laterLink(load: () => Promise<LinkDesk>): LinkDesk {
  const desk = signal<LinkDesk | null>(null);
  const loading = (async (): Promise<LinkDesk> => {
    for (;;) {
      try {
        desk.value = await load();
        return desk.value;
      } catch {
        await new Promise((resolve) => setTimeout(resolve, RETRY_MILLISECONDS));
      }
    }
  })();
  const through = <Value>(read: (made: LinkDesk) => ReadonlySignal<Value>, before: Value): ReadonlySignal<Value> =>
    computed(() => (desk.value === null ? before : read(desk.value).value));
  return {
    settings: through(({ settings }) => settings, null),
    settingsRead: through(({ settingsRead }) => settingsRead, false),
    room: through(({ room }) => room, null),
    groundCalls: through(({ groundCalls }) => groundCalls, NONE),
    nearShips: through(({ nearShips }) => nearShips, NONE),
    sameShip: through(({ sameShip }) => sameShip, NONE),
    lost: through(({ lost }) => lost, false),
    setSettings: (settings) => void loading.then((made) => made.setSettings(settings)),
    observe(jobId, name, digest) {
      const ending = loading.then((made) => made.observe(jobId, name, digest));
      return () => void ending.then((end) => end());
    },
    tell: (fact) => void loading.then((made) => made.tell(fact)),
    retry: () => void loading.then((made) => made.retry()),
  };
}
