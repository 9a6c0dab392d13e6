import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

/** How this device reaches the link. Kept on the device, in no job, no export and no address. */
export interface LinkSettings {
  /** `wss://host:port/path`; plain `ws://` only to this machine, or from a page that is not secure itself. */
  readonly address: string;
  /** The device's name with the broker. */
  readonly user: string;
  readonly password: string;
  /** Whether the link is to be used. */
  readonly on: boolean;
}

const SETTING = 'link';
/** Characters, at most. */
export const ADDRESS_LENGTH = 300;

/** What was stored; null for nothing, or nothing that makes sense. */
export async function readLinkSettings(database: Database): Promise<LinkSettings | null> {
  return settingsFrom(await readSetting(database, SETTING).catch(() => null));
}

/** By hand: it is read before the first cue of a resumed flight, and the library that checks files is not loaded then. */
function settingsFrom(stored: unknown): LinkSettings | null {
  if (typeof stored !== 'object' || stored === null) return null;
  const { address, user, password, on }: Partial<Record<keyof LinkSettings, unknown>> = stored;
  const isText = (value: unknown, longest: number): value is string => typeof value === 'string' && value.length <= longest;
  return isText(address, ADDRESS_LENGTH) && isText(user, 64) && isText(password, 200) && typeof on === 'boolean' ? { address, user, password, on } : null;
}

/** Rejects with a `StoreFault`. */
export function saveLinkSettings(database: Database, settings: LinkSettings): Promise<void> {
  return saveSetting(database, SETTING, settings);
}
