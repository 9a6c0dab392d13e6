/** The keys of a flight's rows, or of those from a row on. */
export function rowRange(flightId: string, fromSequence = 0): IDBKeyRange {
  return IDBKeyRange.bound([flightId, fromSequence], [flightId, Number.MAX_SAFE_INTEGER]);
}

/** The setting in which a flight's packed log lies, see `packed-log.ts`. */
export const packedLogKey = (flightId: string): string => `packed-log/${flightId}`;
