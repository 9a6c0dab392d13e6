import type { ShearVector } from '../../../src/core/earth/wind-profile.ts';
import { letterSmokes, letterSpreadMetres } from '../../../src/core/sky/letter-smoke.ts';
import { readingWindow } from '../../../src/core/sky/reading-window.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import { trailsFromPlan } from '../../../src/core/sky/trail.ts';
import type { TextReader } from '../../flight/read-text.ts';
import { drawAgedSmoke } from './aged-smoke.ts';
import { plannedText } from './planned.ts';

/** Where the app says that a word stops reading, and where the reader does; seconds since the first smoke. */
export interface ReaderStop {
  readonly word: string;
  readonly shearPerSecond: number;
  readonly predictedSeconds: number;
  /** Null when it never read the word, even fresh. */
  readonly stoppedSeconds: number | null;
}

/** A reader looks again: greys and tracings, larger and smaller. It is never told the word. */
const LOOKS = [
  { letterHeightPixels: 48, seed: 1 },
  { letterHeightPixels: 64, seed: 2 },
  { letterHeightPixels: 64, seed: 3, traced: 0.5 },
  { letterHeightPixels: 48, seed: 4, traced: 0.6 },
  { letterHeightPixels: 64, seed: 5, traced: 0.6 },
  { letterHeightPixels: 48, seed: 6, traced: 0.5 },
] as const;

/** Spreads over letter height at which the word is looked at: each 5.5 % wider than the one before. */
const FIRST_SPREAD = 0.09;
const LAST_SPREAD = 0.26;
const SPREAD_STEP = 1.055;
/** Of the shear, anticlockwise from east: across some strokes and along others. */
const SHEAR_DIRECTION_RADIANS = 0.7;
const OIL_KILOGRAMS_PER_SECOND = 0.34;

/**
 * Writes a word by its plan, lets its smoke age in a shear and looks at it until it has been unreadable twice running;
 * the stop lies half way (by ratio) between the last time it read and the next look.
 */
export async function readerStop(word: string, shearPerSecond: number, reader: TextReader): Promise<ReaderStop> {
  const plan = plannedText(word, { oilKilogramsPerSecond: OIL_KILOGRAMS_PER_SECOND });
  const trails = trailsFromPlan(plan, 40);
  const shear: ShearVector = {
    eastPerSecond: shearPerSecond * Math.cos(SHEAR_DIRECTION_RADIANS),
    northPerSecond: shearPerSecond * Math.sin(SHEAR_DIRECTION_RADIANS),
  };
  const { letterHeightMetres } = plan;
  const predicted = readingWindow(trails, {
    letterHeightMetres,
    wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    shear,
    layerAboveSiteMetres: 2_700,
    visibilityMetres: null,
  });
  const letters = letterSmokes(trails, letterHeightMetres, shear);
  const spreadAt = (at: number): number => Math.max(...letters.map((letter) => letterSpreadMetres(letter, SMOKE_RANGE.likely, at))) / letterHeightMetres;
  let atSeconds = plan.durationSeconds + 5;
  let readSeconds: number | null = null;
  let nextSeconds: number | null = null;
  let failures = 0;
  for (let spread = FIRST_SPREAD; spread < LAST_SPREAD && failures < 2; spread *= SPREAD_STEP) {
    if (spreadAt(atSeconds) > spread) continue;
    while (spreadAt(atSeconds) < spread) atSeconds += 5;
    if (await reads(word, (look) => drawAgedSmoke(trails, { letterHeightMetres, frame: plan.frame, shear, smoke: SMOKE_RANGE.likely, atSeconds, ...look }), reader)) {
      readSeconds = atSeconds;
      nextSeconds = null;
      failures = 0;
    } else {
      nextSeconds ??= atSeconds;
      failures += 1;
    }
  }
  return {
    word,
    shearPerSecond,
    predictedSeconds: predicted.until.likelySeconds,
    stoppedSeconds: readSeconds === null ? null : Math.sqrt(readSeconds * (nextSeconds ?? readSeconds)),
  };
}

async function reads(word: string, draw: (look: (typeof LOOKS)[number]) => Buffer, reader: TextReader): Promise<boolean> {
  for (const look of LOOKS) {
    const { text } = await reader.read(draw(look));
    if (text.replaceAll(' ', '') === word) return true;
  }
  return false;
}
