import { type ReaderStop, readerStop } from '../core/sky/reader-stops.ts';
import { openTextReader } from '../flight/read-text.ts';
import { contrastFigures } from './place-contrast.ts';
import type { Figure } from './figures.ts';
import { atMost, reported } from './limits.ts';

/** Twenty words that had no part in setting any limit, and that were not looked at while the limits were set. */
const WORDS = [
  'NATURE',
  'NIGHT',
  'NOVA',
  'OCEAN',
  'ORANGE',
  'PEACE',
  'PEARL',
  'PILOT',
  'PLANET',
  'QUEEN',
  'QUIET',
  'RIVER',
  'ROYAL',
  'SAIL',
  'SMILE',
  'SNOW',
  'SPARK',
  'STAR',
  'SUMMER',
  'TIGER',
];
const SHEARS_PER_SECOND = [0, 0.005, 0.01];
const WITHIN = 0.25;

/**
 * The predicted end of reading against where the reader stops: over all words in each shear, and word by word, which is
 * only reported, since the reader has its likes: of two words as wide and as faint it goes on guessing the one that
 * looks like no other (FREEDOM) and gives up the one that does (HERO, read HERD). At each age the reader looks twelve times
 * (three pictures differing a little in scale, place and grain; of each the greys and three tracings) and its answer
 * is the one most looks give, three at least; it stops at the last age at which that answer is the word.
 */
export async function readingFigures(): Promise<Figure[]> {
  const reader = await openTextReader();
  const stops: ReaderStop[] = [];
  const contrasts: Figure[] = [];
  try {
    for (const word of WORDS) {
      for (const shear of SHEARS_PER_SECOND) {
        const stop = await readerStop(word, shear, reader);
        stops.push(stop);
        process.stdout.write(
          `      ${word.padEnd(8)} shear ${shear.toFixed(3)}  predicted ${stop.predictedSeconds.toFixed(0).padStart(5)} s  stopped ${stop.stoppedSeconds?.toFixed(0).padStart(5) ?? 'never read'} s  first goes ${stop.predictedEnd}\n`,
        );
      }
    }
    contrasts.push(...(await contrastFigures(reader)));
  } finally {
    await reader.close();
  }
  const errors = stops.map(({ predictedSeconds, stoppedSeconds }) => (stoppedSeconds === null ? Infinity : Math.abs(predictedSeconds / stoppedSeconds - 1)));
  const sorted = errors.toSorted((one, other) => one - other);
  const ratioOf = (shear: number): number => {
    const ratios = stops.filter((stop) => stop.shearPerSecond === shear && stop.stoppedSeconds !== null);
    return ratios.reduce((sum, { predictedSeconds, stoppedSeconds }) => sum + predictedSeconds / (stoppedSeconds ?? NaN), 0) / ratios.length;
  };
  const share = errors.filter((error) => error <= WITHIN).length;
  return [
    ...SHEARS_PER_SECOND.map((shear): Figure => {
      const ratio = ratioOf(shear);
      return {
        name: `end of reading, ${WORDS.length} words, shear ${shear} per second: predicted over read, mean`,
        value: ratio.toFixed(2),
        limit: '0.75 to 1.25',
        ok: Math.abs(ratio - 1) <= WITHIN,
      };
    }),
    atMost('end of reading: error, median of all cases', 100 * (sorted[Math.floor(sorted.length / 2)] ?? Infinity), 100 * WITHIN, '%', 0),
    reported('end of reading: words within 25 % on their own', `${share} of ${errors.length}`),
    ...contrasts,
    reported('end of reading: worst case', `${(100 * (sorted.at(-1) ?? Infinity)).toFixed(0)} %`),
  ];
}
