import type { Job } from './job.ts';

/** Something that nobody has entered, as it is named to the pilot. */
export interface MissingEntry {
  readonly words: string;
  /** Without it neither a place nor a time nor a flight can be told; with `sheets` it is only named as missing on paper. */
  readonly needed: 'first' | 'sheets';
}

interface Asked {
  readonly words: string;
  readonly needed: MissingEntry['needed'];
  /** Any of them not entered is this entry missing. */
  readonly paths: readonly string[];
}

const ASKED: readonly Asked[] = [
  { words: 'the site\u2019s position', needed: 'first', paths: ['site.latitudeDegrees', 'site.longitudeDegrees'] },
  { words: 'the site\u2019s elevation', needed: 'first', paths: ['site.elevationFeet'] },
  { words: 'where the crowd looks', needed: 'first', paths: ['facingDegreesTrue'] },
  { words: 'the read time', needed: 'first', paths: ['readTime'] },
  { words: 'the layer', needed: 'first', paths: ['layer.altitudeFeet'] },
  {
    words: 'how the ships fly (airspeed, banks, roll)',
    needed: 'first',
    paths: ['ships.trueAirspeedKnots', 'ships.writingBankDegrees', 'ships.turningBankDegrees', 'ships.maximumBankDegrees', 'ships.rollRateDegreesPerSecond'],
  },
  { words: 'smoke oil carried and burnt', needed: 'first', paths: ['ships.smokeOilPounds', 'ships.smokeOilPoundsPerMinute'] },
  { words: 'how soon the smoke answers the switch', needed: 'first', paths: ['ships.valveOnSeconds', 'ships.valveOffSeconds', 'ships.reactionSeconds'] },
  { words: 'fuel carried, burnt and in reserve', needed: 'sheets', paths: ['ships.fuelGallons', 'ships.fuelGallonsPerHour', 'ships.fuelReserveMinutes'] },
];

/** Every path that a new job leaves to be entered; what stands there meanwhile is only what the drawing is made with. */
export const UNSAID_PATHS: readonly string[] = ASKED.flatMap(({ paths }) => paths);

/** Whether somebody has entered a field of the job, by its path: `ships.fuelGallons`, `readTime`. */
export function isEntered({ notEntered }: Pick<Job, 'notEntered'>, path: string): boolean {
  return !notEntered.includes(path);
}

/** The job with fields entered; the same object where they were. */
export function withEntered(job: Job, ...paths: readonly string[]): Job {
  return paths.some((path) => job.notEntered.includes(path)) ? { ...job, notEntered: job.notEntered.filter((path) => !paths.includes(path)) } : job;
}

/** Everything that nobody has entered yet, in the order in which a booking is taken. */
export function missingEntries(job: Job): MissingEntry[] {
  const asked = ASKED.filter(({ paths }) => paths.some((path) => !isEntered(job, path)));
  return [
    ...(job.text.trim() === '' && job.drawings.length === 0 ? [{ words: 'the words', needed: 'first' } as const] : []),
    ...asked.filter(({ needed }) => needed === 'first'),
    ...(job.site.name === '' ? [{ words: 'the site\u2019s name', needed: 'sheets' } as const] : []),
    ...(job.winds.length === 0 ? [{ words: 'winds aloft', needed: 'sheets' } as const] : []),
    ...asked.filter(({ needed }) => needed === 'sheets'),
    ...(job.frequencies.length === 0 ? [{ words: 'frequencies', needed: 'sheets' } as const] : []),
    ...(job.knockItOffWords === '' ? [{ words: 'the words that call it off', needed: 'sheets' } as const] : []),
  ].map(({ words, needed }) => ({ words, needed }));
}

/** What keeps a job from being placed, timed and flown, in a sentence; null when everything needed first was entered. */
export function missingFirstWords(job: Job): string | null {
  const first = missingEntries(job).filter(({ needed }) => needed === 'first');
  return first.length === 0 ? null : `Not entered yet: ${first.map(({ words }) => words).join(', ')}.`;
}
