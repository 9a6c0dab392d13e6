import { artworkFromPathData } from '../../../src/core/artwork/artwork.ts';
import { jobDrawing } from '../../../src/core/artwork/job-drawing.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job, JobDrawing } from '../../../src/core/job/job.ts';
import { HANDS } from '../../../src/core/letters/hand.ts';
import { uniformFrom } from '../../flight/random.ts';

const CHARACTERS = [...'AAABCDEEEFGHIIJKLLMNNOOPQRRSSTTUVWXYZ0123456789-!?&+'];
const SIGNS = [...'♥★→☺'];
const NAMES = ['Lead', 'Two', 'Three'] as const;
/** A ring, a bolt, and an arrow of lines, drawn for the tests. */
const PATHS = ['M10 0A10 10 0 0 1 -10 0A10 10 0 0 1 10 0Z', 'M2 -7L-4 1L3 0L-2 7', 'M-10 0L10 0M4 -6L10 0L4 6'] as const;

/** A job as a display pilot might book it: one to three ships of one kind, a text, a drawing beside some; all from the seed. */
export function randomJob(seed: number): Job {
  const uniform = uniformFrom(seed * 2_654_435_761);
  const between = (low: number, high: number): number => low + (high - low) * uniform();
  const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(uniform() * items.length)]!;
  const trueAirspeedKnots = Math.round(between(75, 150));
  const bank = Math.round(between(30, 55));
  const count = 1 + Math.floor(uniform() * 3);
  const length = 1 + Math.floor(uniform() ** 1.5 * 9);
  const word = Array.from({ length }, () => (uniform() < 0.04 ? pick(SIGNS) : pick(CHARACTERS))).join('');
  const text = length > 5 && uniform() < 0.3 ? `${word.slice(0, 3)} ${word.slice(3)}` : word;
  const hand = pick(HANDS);
  const drawing = uniform() < 0.15 ? drawingOf(pick(PATHS), pick(['before', 'after', 'above', 'below'] as const), between(1500, 3000)) : null;
  const ship = {
    ...DEMO_JOB.ships[0]!,
    trueAirspeedKnots,
    writingBankDegrees: bank,
    turningBankDegrees: Math.min(60, bank + Math.round(between(0, 8))),
    maximumBankDegrees: 65,
    rollRateDegreesPerSecond: Math.round(between(25, 60)),
  };
  return {
    ...DEMO_JOB,
    text,
    drawings: drawing === null ? [] : [drawing],
    facingDegreesTrue: Math.round(between(0, 359)),
    viewElevationDegrees: Math.round(between(25, 60)),
    layer: { altitudeFeet: Math.round(between(6000, 13_000)), temperatureCelsius: null },
    letters: { heightFeet: Math.round(between(3000, 7000)), spacingHeights: 0.3, depthStretch: 1 },
    winds: [2000, 8000, 14_000].map((altitudeFeet) => ({
      altitudeFeet,
      fromDegreesTrue: Math.round(between(0, 359)),
      speedKnots: Math.round(between(0, 30)),
      temperatureCelsius: 5,
    })),
    ships: NAMES.slice(0, count).map((name) => ({ ...ship, name })),
    options: {
      ...DEMO_JOB.options,
      hand,
      letterOrder: uniform() < 0.5 ? 'reading' : 'free',
      runInSeconds: Math.round(between(3, 6)),
      separationFeet: Math.round(between(500, 1500)),
      heightStepFeet: uniform() < 0.2 ? 200 : 0,
      longestUnfinishedSeconds: Math.round(between(120, 600)),
      sunOffNose: uniform() < 0.2,
    },
  };
}

function drawingOf(pathData: string, place: JobDrawing['place'], depthMetres: number): JobDrawing | null {
  const read = artworkFromPathData(pathData, { depthMetres, turnRadiusMetres: 300 });
  if (!read.ok) return null;
  const made = jobDrawing(read.artwork, 'drawing', place);
  return 'reason' in made ? null : made;
}
