import type { DBSchema } from 'idb';

/** Raised by one with each change of the stores; `upgradeSchema` has a step for each. */
export const SCHEMA_VERSION = 1;

/**
 * What is stored, as it was written by any version of this app: read as `unknown` and parsed, never trusted.
 * Jobs, plans and events are kept as JSON text, so that what is stored is what an export holds and a damaged
 * one can still be named.
 */
export interface QuillwindSchema extends DBSchema {
  jobs: { key: string; value: StoredJob };
  flights: { key: string; value: StoredFlight; indexes: { 'by-job': string } };
  rows: { key: [flightId: string, sequence: number]; value: StoredRow };
  settings: { key: string; value: unknown };
  outbox: { key: [bootId: string, sequence: number]; value: StoredMessage };
}

export interface StoredJob {
  readonly id: string;
  /** Repeated here so that a damaged file can be named. */
  readonly name: string;
  readonly savedAtMilliseconds: number;
  readonly fileText: string;
}

export interface StoredFlight {
  readonly id: string;
  readonly jobId: string;
  readonly name: string;
  readonly kind: FlightKind;
  readonly startedAtMilliseconds: number;
  /** Null while the flight is in progress. */
  readonly endedAtMilliseconds: number | null;
  /** The job as it was at the start: later edits do not reach a flight. */
  readonly jobFileText: string;
  /** Whatever else the flight needs to start again, as JSON. */
  readonly setupText: string;
}

export type FlightKind = 'flight' | 'rehearsal' | 'replay';

export interface StoredRow {
  readonly flightId: string;
  readonly sequence: number;
  readonly monotonicSeconds: number;
  readonly wallMilliseconds: number;
  readonly eventText: string;
  /** Of the other fields; see `row-checksum.ts`. */
  readonly checksum: number;
}

export interface StoredMessage {
  readonly bootId: string;
  readonly sequence: number;
  readonly topic: string;
  readonly payloadText: string;
  readonly queuedAtMilliseconds: number;
  /** Missing until the broker has it; kept after that, to be told again to whoever missed it. */
  readonly acknowledgedAtMilliseconds?: number;
}

export type StoreName = 'jobs' | 'flights' | 'rows' | 'settings' | 'outbox';
