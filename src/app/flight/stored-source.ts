import type { RehearsalChoice, SourceChoice } from './flight-choices.ts';

/** What of a choice is stored with a flight, to go on with after a kill; a recording is not gone on with. */
export function sourceTextFor(source: SourceChoice): string {
  return JSON.stringify(source.kind === 'recorded' ? { kind: source.kind, name: source.name } : source);
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
  if (stored.kind === 'device')
    return 'serialBaudRate' in stored && typeof stored.serialBaudRate === 'number'
      ? { kind: 'device', serialBaudRate: stored.serialBaudRate }
      : { kind: 'device' };
  return stored.kind === 'rehearsal' ? rehearsalFrom(stored as Partial<Record<keyof RehearsalChoice, unknown>>) : null;
}

function rehearsalFrom({ windFromDegrees, windKnots, skill, flownBy, speed, seed }: Partial<Record<keyof RehearsalChoice, unknown>>): RehearsalChoice | null {
  const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
  if (!isNumber(windFromDegrees) || !isNumber(windKnots) || !isNumber(speed) || !isNumber(seed)) return null;
  if (skill !== 'steady' && skill !== 'ordinary' && skill !== 'tired') return null;
  if (flownBy !== 'machine' && flownBy !== 'hands') return null;
  return { kind: 'rehearsal', windFromDegrees, windKnots, skill, flownBy, speed, seed };
}
