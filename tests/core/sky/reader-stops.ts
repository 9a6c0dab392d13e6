import type { ShearVector } from '../../../src/core/earth/wind-profile.ts';
import { letterSmokes, letterSpreadMetres } from '../../../src/core/sky/letter-smoke.ts';
import { readingWindow } from '../../../src/core/sky/reading-window.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import { type Trail, trailsFromPlan } from '../../../src/core/sky/trail.ts';
import type { TextReader } from '../../flight/read-text.ts';
import { type AgedPicture, pngFromSeen, seeAgedSmoke } from './aged-smoke.ts';
import { plannedText } from './planned.ts';

/** Where the app says that a word stops reading, and where the reader does; seconds since the first smoke. */
export interface ReaderStop {
  readonly word: string;
  readonly shearPerSecond: number;
  readonly predictedSeconds: number;
  /** The letter that goes first, and by what. */
  readonly predictedEnd: string;
  /** Null when it never read the word, even fresh. */
  readonly stoppedSeconds: number | null;
}

/**
 * A reader looks again: three pictures, each a little nearer or farther, moved by a part of a pixel and with a grain of
 * its own, and of each its greys and three tracings. One look fails or reads by an accident of a letter; twelve agree.
 */
const PICTURES = [
  { letterHeightPixels: 46, offsetPixels: [0.2, 0.7] },
  { letterHeightPixels: 54, offsetPixels: [0.5, 0.1] },
  { letterHeightPixels: 62, offsetPixels: [0.6, 0.9] },
] as const;
const TRACINGS = [undefined, 0.4, 0.5, 0.6] as const;
/** An answer counts when it is given most often, and by at least this many of the twelve looks. */
const LEAST_VOTES = 3;

/** Spreads over letter height at which the word is looked at: each 5.5 % wider than the one before. */
const FIRST_SPREAD = 0.09;
const LAST_SPREAD = 0.3;
const SPREAD_STEP = 1.055;
/** Ages running at which the word was not the answer, after which nobody looks again. */
const GIVEN_UP = 3;
/** Of the shear, anticlockwise from east: across some strokes and along others. */
const SHEAR_DIRECTION_RADIANS = 0.7;
const OIL_KILOGRAMS_PER_SECOND = 0.34;

/**
 * Writes a word by its plan, lets its smoke age in a shear and has it read until it has not been the answer three ages
 * running. The reader's answer at an age is the one that most of its looks give; the stop is the last age at which that
 * is the word, carried on to where its lead over the next answer would be gone.
 */
export async function readerStop(word: string, shearPerSecond: number, reader: TextReader): Promise<ReaderStop> {
  const plan = plannedText(word, { oilKilogramsPerSecond: OIL_KILOGRAMS_PER_SECOND });
  const trails = trailsFromPlan(plan, 40);
  const shear: ShearVector = {
    eastPerSecond: shearPerSecond * Math.cos(SHEAR_DIRECTION_RADIANS),
    northPerSecond: shearPerSecond * Math.sin(SHEAR_DIRECTION_RADIANS),
  };
  const { letterHeightMetres } = plan;
  const { until, first } = readingWindow(trails, {
    letterHeightMetres,
    wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    shear,
    layerAboveSiteMetres: 2_700,
    visibilityMetres: null,
    facingRadians: plan.frame.facingRadians,
  });
  const letters = letterSmokes(trails, letterHeightMetres, shear);
  const spreadAt = (at: number): number => Math.max(...letters.map((letter) => letterSpreadMetres(letter, SMOKE_RANGE.likely, at))) / letterHeightMetres;
  const looked: { readonly atSeconds: number; readonly lead: number }[] = [];
  let atSeconds = plan.durationSeconds + 5;
  for (let spread = FIRST_SPREAD; spread < LAST_SPREAD && looked.slice(-GIVEN_UP).filter(({ lead }) => lead < 0).length < GIVEN_UP; spread *= SPREAD_STEP) {
    if (spreadAt(atSeconds) > spread) continue;
    while (spreadAt(atSeconds) < spread) atSeconds += 5;
    const picture = { letterHeightMetres, frame: plan.frame, shear, smoke: SMOKE_RANGE.likely, atSeconds, seed: 100 * looked.length };
    looked.push({ atSeconds, lead: await leadOf(word, trails, picture, reader) });
  }
  return {
    word,
    shearPerSecond,
    predictedSeconds: until.likelySeconds,
    predictedEnd: first === null ? 'still reading' : `${first.character} ${first.endedBy}`,
    stoppedSeconds: lastLead(looked),
  };
}

/** By how many of its looks the word leads over the next answer, or over what counts as an answer; negative when it does not. */
export async function leadOf(word: string, trails: readonly Trail[], picture: AgedPicture & { readonly seed: number }, reader: TextReader): Promise<number> {
  const votes = new Map<string, number>();
  for (const [index, look] of PICTURES.entries()) {
    const seen = seeAgedSmoke(trails, { ...picture, ...look, seed: picture.seed + index + 1 });
    for (const traced of TRACINGS) {
      const text = (await reader.read(pngFromSeen(seen, traced))).text.replaceAll(' ', '');
      votes.set(text, (votes.get(text) ?? 0) + 1);
    }
  }
  // No answer is no vote.
  const next = Math.max(LEAST_VOTES - 0.5, ...[...votes].filter(([text]) => text !== word && text !== '').map(([, count]) => count));
  return (votes.get(word) ?? 0) - next;
}

function lastLead(looked: readonly { readonly atSeconds: number; readonly lead: number }[]): number | null {
  const index = looked.findLastIndex(({ lead }) => lead >= 0);
  const last = looked[index];
  if (last === undefined) return null;
  const after = looked[index + 1];
  return after === undefined ? last.atSeconds : last.atSeconds * (after.atSeconds / last.atSeconds) ** (last.lead / (last.lead - after.lead));
}
