import type { PrecacheController, PrecacheEntry } from 'workbox-precaching';

/** What became of the stored files, each held against the digest that the build wrote down. */
export interface ShellReport {
  /** Files that are as they were built. */
  readonly whole: number;
  /** Files that were missing or altered and have been fetched again. */
  readonly repaired: number;
  /** Files that are missing or altered and cannot be had now. */
  readonly broken: readonly string[];
}

/** Looks at every stored file, and fetches again what is not as it was built. */
export async function shellReport(manifest: readonly (PrecacheEntry | string)[], precache: PrecacheController): Promise<ShellReport> {
  let whole = 0;
  let repaired = 0;
  const broken: string[] = [];
  for (const entry of manifest) {
    if (typeof entry === 'string' || entry.integrity === undefined) continue;
    const key = precache.getCacheKeyForURL(entry.url);
    if (key === undefined) continue;
    const stored = await caches.match(key);
    if (stored !== undefined && (await digestOf(stored)) === entry.integrity) whole += 1;
    else if (await repair(key, entry.url, entry.integrity)) repaired += 1;
    else broken.push(entry.url);
  }
  return { whole, repaired, broken };
}

async function digestOf(response: Response): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()));
  return `sha256-${btoa(String.fromCharCode(...digest))}`;
}

async function repair(key: string, url: string, integrity: string): Promise<boolean> {
  try {
    const fresh = await fetch(url, { cache: 'reload', integrity, credentials: 'same-origin' });
    const name = (await caches.keys()).find((each) => each.includes('-precache-'));
    if (!fresh.ok || name === undefined) return false;
    await (await caches.open(name)).put(key, fresh);
    return true;
  } catch {
    return false;
  }
}
