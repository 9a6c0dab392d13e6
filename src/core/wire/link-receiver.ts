import { metresFromFeet } from '../units/quantity.ts';
import { readJsonText } from '../text/json-text.ts';

/**
 * How one receiver's JSON is read. Names may be paths with dots, `position.lat`; an empty one is not there. Receivers
 * differ in every name, so a person says them once.
 */
export interface ReceiverMapping {
  /** Where the list of aircraft is; empty when the whole answer is the list. */
  readonly list: string;
  readonly id: string;
  readonly latitudeDegrees: string;
  readonly longitudeDegrees: string;
  /** Height above mean sea level. */
  readonly altitude: string;
  readonly altitudeUnit: 'feet' | 'metres';
  readonly trackDegreesTrue: string;
  /** Seconds since the position was received. */
  readonly ageSeconds: string;
}

/** A mapping to begin with. */
export const RECEIVER_MAPPING: ReceiverMapping = {
  list: 'aircraft',
  id: 'id',
  latitudeDegrees: 'lat',
  longitudeDegrees: 'lon',
  altitude: 'altitude',
  altitudeUnit: 'feet',
  trackDegreesTrue: 'track',
  ageSeconds: 'age',
};

/** An aircraft as a receiver has it. */
export interface ReceivedAircraft {
  readonly id: string;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  readonly altitudeMetres: number | null;
  readonly trackDegreesTrue: number | null;
  /** Null where the receiver does not say: then nobody knows. */
  readonly ageSeconds: number | null;
}

export type ReceiverReading = { readonly ok: true; readonly value: readonly ReceivedAircraft[] } | { readonly ok: false; readonly reason: string };

const AIRCRAFT_LIMIT = 2000;

/**
 * The aircraft in a receiver's answer, those with an id and a position; others are left out, as receivers list
 * aircraft they have only half heard. Never throws.
 */
export function aircraftFromReceiver(text: string, mapping: ReceiverMapping): ReceiverReading {
  const json = readJsonText(text);
  if (!json.ok) return { ok: false, reason: 'The receiver’s answer is not JSON of less than 1 MB.' };
  const found = mapping.list === '' ? json.value : valueAt(json.value, mapping.list);
  // Some receivers list by id: {"abc123": {...}}.
  const list = Array.isArray(found)
    ? found
    : isRecord(found)
      ? Object.entries(found).map(([id, value]) => (isRecord(value) ? { [mapping.id]: id, ...value } : value))
      : null;
  if (list === null)
    return {
      ok: false,
      reason: mapping.list === '' ? 'The receiver’s answer is no list.' : `The receiver’s answer has no list named ${mapping.list.slice(0, 40)}.`,
    };
  return { ok: true, value: list.slice(0, AIRCRAFT_LIMIT).flatMap((item) => aircraftFrom(item, mapping)) };
}

function aircraftFrom(item: unknown, mapping: ReceiverMapping): ReceivedAircraft[] {
  const idValue = valueAt(item, mapping.id);
  const id = typeof idValue === 'string' || typeof idValue === 'number' ? String(idValue).trim().slice(0, 32) : '';
  const latitudeDegrees = numberAt(item, mapping.latitudeDegrees, -90, 90);
  const longitudeDegrees = numberAt(item, mapping.longitudeDegrees, -180, 180);
  if (id === '' || latitudeDegrees === null || longitudeDegrees === null) return [];
  const altitude = numberAt(item, mapping.altitude, -5000, 150_000);
  return [
    {
      id,
      latitudeDegrees,
      longitudeDegrees,
      altitudeMetres: altitude === null ? null : mapping.altitudeUnit === 'feet' ? metresFromFeet(altitude) : altitude,
      trackDegreesTrue: numberAt(item, mapping.trackDegreesTrue, 0, 360),
      ageSeconds: numberAt(item, mapping.ageSeconds, 0, 86_400),
    },
  ];
}

function numberAt(item: unknown, path: string, least: number, greatest: number): number | null {
  const value = valueAt(item, path);
  const number = typeof value === 'number' ? value : typeof value === 'string' && value.trim() !== '' ? Number(value) : Number.NaN;
  return number >= least && number <= greatest ? number : null;
}

/** Empty paths name nothing, but for the list, which may be the whole answer. */
function valueAt(value: unknown, path: string): unknown {
  if (path === '') return undefined;
  let found = value;
  for (const name of path.split('.').slice(0, 8)) {
    if (Array.isArray(found)) found = found[Number(name)];
    else if (isRecord(found) && Object.hasOwn(found, name)) found = found[name];
    else return undefined;
  }
  return found;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
