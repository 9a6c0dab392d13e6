/**
 * The settings that a backup holds, by the beginning of their keys: what a person entered, chose or learned. What is made
 * from other data, belongs to this device alone (who the observer is, a flight broken off) or is a secret is left out.
 */
const KEPT = [
  'appearance',
  'job-versions/',
  'kept-things',
  'lessons/',
  'logbook/',
  'photograph/',
  'picture/',
  'receiver',
  'rules',
  'seen-smoke/',
  'smoke-calibration',
  'smoke-switch',
  'sortie',
  'tracks/',
  'units',
] as const;

/** Whether a setting of this key goes into a backup, and may come out of one. */
export function isBackedUp(key: string): boolean {
  return key === 'link' || KEPT.some((start) => (start.endsWith('/') ? key.startsWith(start) : key === start));
}

/** The link's address and name go along, its password never: it is switched off until one is entered. */
export function withoutSecret(key: string, value: unknown): unknown {
  return key === 'link' && typeof value === 'object' && value !== null ? { ...value, password: '', on: false } : value;
}
