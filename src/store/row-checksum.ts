import type { StoredRow } from './schema.ts';

/**
 * FNV-1a, 32 bits (Fowler, Noll, Vo 1991), over the UTF-8 bytes of a text: finds damage, not malice.
 * `fnv1a('foobar')` is 0xbf9cf968.
 */
export function fnv1a(text: string): number {
  let hash = 0x81_1c_9d_c5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01_00_01_93);
  return hash >>> 0;
}

/** The checksum that belongs to a row's other fields. */
export function rowChecksum(row: Omit<StoredRow, 'checksum'>): number {
  return fnv1a(JSON.stringify([row.flightId, row.sequence, row.monotonicSeconds, row.wallMilliseconds, row.eventText]));
}
