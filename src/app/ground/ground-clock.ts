import type { ObserverFact } from '../../core/wire/observer-log.ts';
import { elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';

/** When the first smoke was or will be, and how that is known. */
export interface GroundDatum {
  /** `plan` goes by the job's read time and the device's clock; `radio` by a call that was heard; `link` by the lead. */
  readonly source: Extract<ObserverFact, { kind: 'hack' }>['source'];
  /** By this device's clock. */
  readonly datumMilliseconds: number;
  /** Where the count began, so that a clock set since changes nothing; null to go by the device's clock. */
  readonly counted: { readonly from: LinkInstant; readonly sinceDatumSeconds: number } | null;
}

/** The datum as the plan has it: so long before the read time. */
export function datumFromPlan(readMilliseconds: number, readSeconds: number): GroundDatum {
  return { source: 'plan', datumMilliseconds: readMilliseconds - readSeconds * 1000, counted: null };
}

/** The datum from a call heard now, that many seconds ahead (0: the smoke came on now). */
export function datumFromHack(now: LinkInstant, aheadSeconds: number, source: 'radio' | 'link' = 'radio'): GroundDatum {
  return { source, datumMilliseconds: now.wallMilliseconds + aheadSeconds * 1000, counted: { from: now, sinceDatumSeconds: -aheadSeconds } };
}

/** The datum moved: later by so many seconds. */
export function datumMoved(datum: GroundDatum, laterSeconds: number): GroundDatum {
  return {
    ...datum,
    source: datum.source === 'plan' ? 'radio' : datum.source,
    datumMilliseconds: datum.datumMilliseconds + laterSeconds * 1000,
    counted: datum.counted === null ? null : { ...datum.counted, sinceDatumSeconds: datum.counted.sinceDatumSeconds - laterSeconds },
  };
}

/** Seconds since the datum at a moment; negative before it. */
export function sinceDatum({ datumMilliseconds, counted }: GroundDatum, now: LinkInstant): number {
  if (counted === null) return (now.wallMilliseconds - datumMilliseconds) / 1000;
  return counted.sinceDatumSeconds + elapsedMilliseconds(counted.from, now) / 1000;
}
