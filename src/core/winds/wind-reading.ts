import type { Job, JobConditions, JobWind } from '../job/job.ts';

/** Winds, temperatures, clouds of one hour as they were read from a text or a file; nothing is taken before it is looked at. */
export interface ReadHour {
  /** Of which station, model or row; empty where nothing says. */
  readonly place: string;
  /** Null where the text does not say for when. */
  readonly validMilliseconds: number | null;
  readonly issuedMilliseconds: number | null;
  readonly winds: readonly JobWind[];
  readonly conditions: JobConditions;
}

/** A line that was not understood. */
export interface LineLeft {
  /** From 1. */
  readonly lineNumber: number;
  readonly text: string;
  readonly reason: string;
}

/** What a text was taken for, and what came out of it. */
export interface WindReading {
  readonly kind: 'bulletin' | 'plain rows' | 'table' | 'spot winds' | 'sounding' | 'model levels' | 'METAR' | 'TAF';
  readonly hours: readonly ReadHour[];
  readonly left: readonly LineLeft[];
  /** What a person should know before taking it; empty for nothing. */
  readonly notes: readonly string[];
}

export type WindReadingResult = { readonly ok: true; readonly reading: WindReading } | { readonly ok: false; readonly reason: string };

/** Nobody has looked at visibility and clouds. */
export const NO_CONDITIONS: Job['conditions'] = { visibilityStatuteMiles: null, clouds: null, altimeterHectopascals: null };

/** What a job file takes: anything else in a text is a slip of the pen or another unit. */
export function windFault({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius }: JobWind): string | null {
  if (!(altitudeFeet >= -1500 && altitudeFeet <= 60_000)) return `a height of ${Math.round(altitudeFeet)} ft`;
  if (fromDegreesTrue !== null && !(fromDegreesTrue >= 0 && fromDegreesTrue <= 360)) return `a direction of ${fromDegreesTrue} degrees`;
  if (!(speedKnots >= 0 && speedKnots <= 250)) return `a speed of ${Math.round(speedKnots)} kt`;
  if (temperatureCelsius !== null && !(temperatureCelsius >= -100 && temperatureCelsius <= 60)) return `a temperature of ${temperatureCelsius} \u00b0C`;
  return null;
}

/** A wind as rows hold it: 360 is 0, and what computation makes is rounded to a tenth. */
export function windRow(altitudeFeet: number, fromDegreesTrue: number | null, speedKnots: number, temperatureCelsius: number | null): JobWind {
  const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
  return {
    altitudeFeet: Math.round(altitudeFeet) + 0,
    fromDegreesTrue: fromDegreesTrue === null ? null : tenth(fromDegreesTrue) % 360,
    speedKnots: fromDegreesTrue === null ? 0 : tenth(speedKnots),
    temperatureCelsius: temperatureCelsius === null ? null : tenth(temperatureCelsius),
  };
}
