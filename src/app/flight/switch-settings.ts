import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import type { SwitchAction, SwitchWiring } from '../../sensors/smoke-switch.ts';

/** How the pilot's smoke switch reaches this device. */
export interface SwitchSettings {
  /** Null when it does not. */
  readonly wiring: SwitchWiring | null;
  readonly action: SwitchAction;
}

export const NO_SWITCH: SwitchSettings = { wiring: null, action: 'each-press' };

const SETTING = 'smoke-switch';

/** The stored wiring; none when there is none, or none this version understands. */
export async function readSwitchSettings(database: Database): Promise<SwitchSettings> {
  try {
    return switchSettingsFrom(await readSetting(database, SETTING));
  } catch {
    return NO_SWITCH;
  }
}

/** Keeps the wiring for later flights. Rejects with a `StoreFault`. */
export function saveSwitchSettings(database: Database, settings: SwitchSettings): Promise<void> {
  return saveSetting(database, SETTING, settings);
}

/** What is stored, parsed. */
export function switchSettingsFrom(stored: unknown): SwitchSettings {
  if (typeof stored !== 'object' || stored === null || !('wiring' in stored)) return NO_SWITCH;
  const action: SwitchAction = 'action' in stored && stored.action === 'while-pressed' ? 'while-pressed' : 'each-press';
  const wiring = wiringFrom(stored.wiring);
  return { wiring, action };
}

function wiringFrom(stored: unknown): SwitchWiring | null {
  if (typeof stored !== 'object' || stored === null || !('kind' in stored)) return null;
  if (stored.kind === 'key' && 'code' in stored && typeof stored.code === 'string') return { kind: 'key', code: stored.code };
  if (stored.kind === 'gamepad' && 'button' in stored && Number.isInteger(stored.button)) return { kind: 'gamepad', button: Number(stored.button) };
  return null;
}
