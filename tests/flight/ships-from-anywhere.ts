import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import words from '../reference/words-open.json' with { type: 'json' };
import { uniformFrom } from './random.ts';

/** What goes wrong for one ship of a flight. */
export type ShipFault =
  | { readonly kind: 'arrives-late'; readonly seconds: number }
  | { readonly kind: 'held'; readonly seconds: number; readonly atSeconds: number }
  | { readonly kind: 'circles-on'; readonly seconds: number }
  | { readonly kind: 'dropped-out'; readonly atSeconds: number }
  | { readonly kind: 'killed'; readonly seconds: number; readonly atSeconds: number }
  | { readonly kind: 'blind'; readonly seconds: number; readonly atSeconds: number }
  | { readonly kind: 'redo'; readonly atSeconds: number };

/** One device's wall clock set on by so much, so long before the datum. */
export interface SortieClockSet {
  readonly shipIndex: number;
  readonly beforeDatumSeconds: number;
  readonly bySeconds: number;
}

/** What the receivers of all ships give besides places, and one whose positions come late behind a clock that is as much behind. */
export interface SortieReceivers {
  readonly stamps: 'satellite' | 'device';
  readonly hiddenLate: { readonly shipIndex: number; readonly seconds: number } | null;
}

/** How a found wind goes round. */
export interface SortieHangs {
  /** By the link without a touch; or as figures on the radio that every ship types, one of which is mistyped by this ship first. */
  readonly by: 'link' | { readonly mistypedBy: number | null };
  /** So long after the lead has found the wind it hangs the word; by radio it also waits until all are at their own heights, unless this is said. */
  readonly afterSeconds?: number;
  /** Each ship hears of it, or has typed it, so long after; the lead's own is 0 by the link. */
  readonly heardAfterSeconds?: readonly number[];
  /** This ship's pilot touches that it hangs as briefed, 5 s after it was hung by the link; the lead then hangs as briefed too, 10 s later. */
  readonly refusedBy?: number;
}

/** A hack that one ship presses too late. */
export interface LateHack {
  readonly shipIndex: number;
  readonly seconds: number;
  /** With the link every ship hears of the lead's datum: its pilot takes it so long after that, or never; null without the link. */
  readonly linked: { readonly takenAfterSeconds: number } | null;
}

/** Where, when and in what air the ships of one flight begin. */
export interface Sortie {
  /** Flown by ordinary pilots, who look now and then, listen, and have instruments of their own; by obedient eyes where it is left out. */
  readonly ordinaryPilots?: true;
  /** No stamps where it is left out. */
  readonly receivers?: SortieReceivers;
  readonly clockSet?: SortieClockSet;
  readonly lateHack?: LateHack;
  /** The lead hangs the word for the wind it found, and how the others hear of it. */
  readonly hangs?: SortieHangs;
  readonly seed: number;
  readonly job: Job;
  readonly plan: Plan;
  /** From the first ship's first fix to the datum. */
  readonly datumSeconds: number;
  readonly windEastMetresPerSecond: number;
  readonly windNorthMetresPerSecond: number;
  readonly ships: readonly ShipStart[];
  /** Times of a fault count from the datum. */
  readonly fault: { readonly shipIndex: number; readonly fault: ShipFault } | null;
}

export interface ShipStart {
  readonly eastMetres: number;
  readonly northMetres: number;
  readonly headingDegrees: number;
  readonly rollRateDegreesPerSecond: number;
  readonly airspeedShare: number;
  readonly reactionSeconds: number;
  /** Its clock against the true one: hands on a radio call. */
  readonly clockErrorSeconds: number;
  readonly climbFeetPerMinute: number;
  readonly descentFeetPerMinute: number;
}

const KNOT = 1852 / 3600;
const WORDS = words.words.filter((word) => word.length >= 3 && word.length <= 6);
const plans = new Map<string, { readonly job: Job; readonly plan: Plan } | null>();

/** The demo's job with another word and so many ships of its kind; null when they cannot be kept apart over it. */
export function formationJob(text: string, ships: number): { readonly job: Job; readonly plan: Plan } | null {
  const key = `${text} ${ships}`;
  const known = plans.get(key);
  if (known !== undefined) return known;
  const job: Job = {
    ...DEMO_JOB,
    id: `word-${text.toLowerCase()}`,
    name: `Word ${text}`,
    text,
    ships: ['Lead', 'Two', 'Three'].slice(0, ships).map((name) => ({ ...DEMO_JOB.ships[0]!, name })),
  };
  const planned = planJob(job);
  const made = planned.ok ? { job, plan: planned.value.plan } : null;
  plans.set(key, made);
  return made;
}

/** The demo's wind at its layer: from 75 degrees, 12.5 kt. */
const FORECAST = { east: -12.5 * KNOT * Math.sin((75 * Math.PI) / 180), north: -12.5 * KNOT * Math.cos((75 * Math.PI) / 180) };

/** The sortie of a seed: two or three ships anywhere within 8 km, 1 to 10 minutes before the datum; a third with a fault. */
export function sortieOf(seed: number): Sortie {
  const next = uniformFrom(seed * 7919 + 13);
  for (let i = 0; i < 5; i += 1) next();
  const between = (low: number, high: number): number => low + (high - low) * next();
  const count = next() < 0.5 ? 2 : 3;
  let made = formationJob(WORDS[Math.floor(next() * WORDS.length)]!, count);
  while (made === null) made = formationJob(WORDS[Math.floor(next() * WORDS.length)]!, count);
  const off = between(0, 20) * KNOT;
  const towards = between(0, 2 * Math.PI);
  const ships = made.plan.ships.map((): ShipStart => {
    const away = 8000 * Math.sqrt(next());
    const bearing = between(0, 2 * Math.PI);
    return {
      eastMetres: away * Math.sin(bearing),
      northMetres: away * Math.cos(bearing),
      headingDegrees: between(0, 360),
      rollRateDegreesPerSecond: between(25, 60),
      airspeedShare: between(0.95, 1.05),
      reactionSeconds: between(0.3, 1.2),
      clockErrorSeconds: between(-1, 1),
      climbFeetPerMinute: between(600, 1200),
      descentFeetPerMinute: between(1000, 2000),
    };
  });
  return {
    seed,
    ...made,
    datumSeconds: between(60, 600),
    windEastMetresPerSecond: FORECAST.east + off * Math.cos(towards),
    windNorthMetresPerSecond: FORECAST.north + off * Math.sin(towards),
    ships,
    fault: next() < 1 / 3 ? { shipIndex: Math.floor(next() * made.plan.ships.length), fault: faultFrom(next, made.plan.durationSeconds) } : null,
  };
}

function faultFrom(next: () => number, durationSeconds: number): ShipFault {
  const seconds = 5 + 115 * next();
  const atSeconds = -60 + (durationSeconds + 60) * next();
  const kind = Math.floor(next() * 5);
  if (kind === 0) {
    const how = Math.floor(next() * 3);
    return how === 0 ? { kind: 'arrives-late', seconds } : how === 1 ? { kind: 'held', seconds, atSeconds } : { kind: 'circles-on', seconds };
  }
  if (kind === 1) return { kind: 'dropped-out', atSeconds };
  if (kind === 2) return { kind: 'killed', seconds: 4 + seconds / 10, atSeconds };
  if (kind === 3) return { kind: 'blind', seconds: 30, atSeconds };
  return { kind: 'redo', atSeconds: durationSeconds * (0.2 + 0.8 * next()) };
}
