import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { soon } from '../soon.ts';
import type { LinkDesk } from './link-desk.ts';

const NONE: readonly never[] = [];

/**
 * The page's link, its code fetched after the first cue, which waits for none of it. Until it is there nothing is linked;
 * what is asked of it meanwhile is done then. A fetch that fails is tried again.
 */
export function laterLink(load: () => Promise<LinkDesk>): LinkDesk {
  const desk = signal<LinkDesk | null>(null);
  const loading = new Promise<LinkDesk>((resolve) => {
    soon(async () => {
      const made = await load();
      desk.value = made;
      resolve(made);
      // It lives as long as the page.
      return () => {};
    });
  });
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
