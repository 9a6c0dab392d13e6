import type { DeviceChoice, RehearsalChoice, SourceChoice } from './flight-choices.ts';

/** What of a choice is stored with a flight, to go on with after a kill (a recording is not gone on with), and which ship flies. */
export function sourceTextFor(source: SourceChoice, shipName: string): string {
  const kept = source.kind === 'recorded' ? { kind: source.kind, name: source.name } : source;
  // A radio is no text: the browser is asked for it again.
  return JSON.stringify({ ...kept, shipName }, (key, value: unknown) => (key === 'device' ? null : value));
}

/** The choice a flight was begun with; null for a recording or a walk, or for what this version does not understand. */
export function sourceFromText(text: string): Exclude<SourceChoice, { kind: 'recorded' | 'walking' }> | null {
  let stored: unknown;
  try {
    stored = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof stored !== 'object' || stored === null || !('kind' in stored)) return null;
  if (stored.kind === 'device') return deviceFrom(stored);
  return stored.kind === 'rehearsal' ? rehearsalFrom(stored as Partial<Record<keyof RehearsalChoice, unknown>>) : null;
}

/** Flights of an earlier version had a port's speed alone. */
function deviceFrom(stored: object): DeviceChoice {
  const { receiver, serialBaudRate } = stored as { readonly receiver?: unknown; readonly serialBaudRate?: unknown };
  const { kind, baudRate } = typeof receiver === 'object' && receiver !== null ? (receiver as { readonly kind?: unknown; readonly baudRate?: unknown }) : {};
  const rate = baudRate ?? serialBaudRate;
  if (kind === 'bluetooth') return { kind: 'device', receiver: { kind: 'bluetooth', device: null } };
  return typeof rate === 'number' ? { kind: 'device', receiver: { kind: 'port', baudRate: rate } } : { kind: 'device' };
}

function rehearsalFrom({ windFromDegrees, windKnots, skill, flownBy, speed, seed }: Partial<Record<keyof RehearsalChoice, unknown>>): RehearsalChoice | null {
  const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
  if (!isNumber(windFromDegrees) || !isNumber(windKnots) || !isNumber(speed) || !isNumber(seed)) return null;
  if (skill !== 'steady' && skill !== 'ordinary' && skill !== 'tired') return null;
  if (flownBy !== 'machine' && flownBy !== 'hands') return null;
  return { kind: 'rehearsal', windFromDegrees, windKnots, skill, flownBy, speed, seed };
}
