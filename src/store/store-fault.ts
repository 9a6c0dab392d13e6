/** Why the store could not do what was asked. */
export type StoreFaultReason =
  /** An open or a transaction did not settle in time. */
  | 'timed-out'
  /** The device has no room left. */
  | 'no-space'
  /** The data was written by a newer version of this app. */
  | 'newer-data'
  /** Another tab holds the data in an older form. */
  | 'blocked'
  /** Another tab writes; this one reads. */
  | 'read-only'
  /** This browser keeps no data here, as in some private windows. */
  | 'unavailable'
  /** Something else is stored under this key already, and is not overwritten. */
  | 'conflict'
  | 'failed';

const WORDS: Readonly<Record<StoreFaultReason, string>> = {
  'timed-out': 'The storage of this device does not answer.',
  'no-space': 'This device has no room left. Delete what is not needed; waiting rows are then written.',
  'newer-data': 'What is stored was written by a newer version of Quillwind. Reload the page.',
  blocked: 'Another tab still uses the data of an older version. Close the other Quillwind tabs.',
  'read-only': 'Quillwind is open in another tab, which does the writing. This tab only reads.',
  unavailable: 'This browser keeps no data for this page. Private windows often do not.',
  conflict: 'Something else is stored at this place already; nothing was overwritten.',
  failed: 'The storage of this device failed.',
};

/** Thrown by everything in store; `reason` for code, `message` for people, `cause` for whoever looks closer. */
export class StoreFault extends Error {
  override readonly name = 'StoreFault';
  readonly reason: StoreFaultReason;

  constructor(reason: StoreFaultReason, options?: { readonly cause?: unknown }) {
    super(WORDS[reason], options);
    this.reason = reason;
  }
}

/** The fault behind anything thrown by the database. */
export function storeFaultFrom(error: unknown): StoreFault {
  if (error instanceof StoreFault) return error;
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError') return new StoreFault('no-space', { cause: error });
  if (name === 'VersionError') return new StoreFault('newer-data', { cause: error });
  if (name === 'SecurityError' || name === 'ReferenceError') return new StoreFault('unavailable', { cause: error });
  return new StoreFault('failed', { cause: error });
}

/** True when a fresh handle may succeed where this attempt failed. */
export function isWorthRetrying({ reason }: StoreFault): boolean {
  return reason === 'timed-out' || reason === 'failed';
}
