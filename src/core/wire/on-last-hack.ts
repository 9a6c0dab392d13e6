import type { ObserverEntry } from './observer-log.ts';

/** A time hack that comes sooner than this after another is of the same flight, and knows better. */
const SAME_FLIGHT_MILLISECONDS = 30 * 60_000;

/**
 * The entries of one observer's log counted by the last time hack of their flight: what was written before the clock
 * was set again belongs to the same first smoke. A rating at -2:17, and 22 s later the call that the smoke is on:
 * it was at -0:22. A later flight's hack changes nothing, nor does going back to the plan's hour.
 *
 * @param entries in order of sequence; those withdrawn are no concern of anybody's and are best left out before
 */
export function onLastHack(entries: readonly ObserverEntry[]): ObserverEntry[] {
  const hacks = entries.flatMap((entry) => (entry.kind === 'hack' ? [entry] : []));
  const lastDatum: number[] = [];
  for (let index = hacks.length - 1; index >= 0; index -= 1) {
    const [hack, next] = [hacks[index]!, hacks[index + 1]];
    const isSet = next !== undefined && next.source !== 'plan' && next.atMilliseconds - hack.atMilliseconds < SAME_FLIGHT_MILLISECONDS;
    lastDatum[index] = isSet ? lastDatum[index + 1]! : hack.datumMilliseconds;
  }
  let current = -1;
  return entries.map((entry) => {
    if (entry.kind === 'hack') current += 1;
    const hack = hacks[current];
    if (hack === undefined || entry.sinceDatumSeconds === null) return entry;
    const laterSeconds = (lastDatum[current]! - hack.datumMilliseconds) / 1000;
    return laterSeconds === 0 ? entry : { ...entry, sinceDatumSeconds: Math.round((entry.sinceDatumSeconds - laterSeconds) * 10) / 10 };
  });
}
