import { letterDepth, letterSmokes, letterSpreadMetres } from '../../src/core/sky/letter-smoke.ts';
import { contrastFromDepth } from '../../src/core/sky/plume.ts';
import { READING_LIMITS } from '../../src/core/sky/reading-window.ts';
import { SMOKE_RANGE } from '../../src/core/sky/smoke-range.ts';
import { trailsFromPlan } from '../../src/core/sky/trail.ts';
import { plannedText } from '../core/sky/planned.ts';
import { leadOf } from '../core/sky/reader-stops.ts';
import type { TextReader } from '../flight/read-text.ts';
import type { Figure } from './figures.ts';
import { reported } from './limits.ts';

const WORDS = ['OPEN', 'FLORA', 'GROW'];
/** Well inside what spread alone allows, so that only the contrast fails. */
const SPREAD_PER_HEIGHT = 0.1;
const CONTRASTS = [0.14, 0.1, 0.085, 0.07, 0.06, 0.05, 0.04, 0.03, 0.02];
/** A sky without cloud whose brightness still differs from patch to patch by this; an assumption, no source. */
const PATCHES = 0.02;

/** Down to which contrast of its faintest letter a word is read, in an even sky and in a patchy one. */
export async function contrastFigures(reader: TextReader): Promise<Figure[]> {
  const [even, patchy] = [await leastContrast(reader, 0), await leastContrast(reader, PATCHES)];
  return [
    reported(`contrast: ${WORDS.length} words read down to, even sky with a grain of 0.02`, even.toFixed(3)),
    {
      name: `contrast: the same, patches of ${PATCHES} as well`,
      value: patchy.toFixed(3),
      limit: `${READING_LIMITS.contrast} within a third, as the window takes it`,
      ok: Math.abs(patchy / READING_LIMITS.contrast - 1) <= 1 / 3,
    },
  ];
}

/** The geometric mean over the words of the least contrast at which each is still the reader's answer. */
async function leastContrast(reader: TextReader, patches: number): Promise<number> {
  let logarithms = 0;
  for (const [index, word] of WORDS.entries()) {
    const plan = plannedText(word, { oilKilogramsPerSecond: 0.34 });
    const trails = trailsFromPlan(plan, 40);
    const shear = { eastPerSecond: 0, northPerSecond: 0 };
    const { letterHeightMetres } = plan;
    const letters = letterSmokes(trails, letterHeightMetres, shear);
    const { likely } = SMOKE_RANGE;
    let atSeconds = plan.durationSeconds + 5;
    while (Math.max(...letters.map((letter) => letterSpreadMetres(letter, likely, atSeconds))) < SPREAD_PER_HEIGHT * letterHeightMetres) atSeconds += 5;
    const depth = Math.min(...letters.map((letter) => letterDepth(letter, likely, atSeconds)));
    let least = CONTRASTS[0] ?? 1;
    for (const contrast of CONTRASTS) {
      // Thinner smoke of the same width.
      const smoke = { ...likely, extinctionSquareMetresPerKilogram: (likely.extinctionSquareMetresPerKilogram * -Math.log1p(-contrast)) / depth };
      const lead = await leadOf(word, trails, { letterHeightMetres, frame: plan.frame, shear, smoke, atSeconds, patches, seed: 1_000 * (index + 1) }, reader);
      if (lead < 0) break;
      least = contrast;
    }
    process.stdout.write(
      `      ${word.padEnd(8)} patches ${patches.toFixed(2)}  read down to a contrast of ${least} (${contrastFromDepth(depth).toFixed(2)} with all its oil)\n`,
    );
    logarithms += Math.log(least);
  }
  return Math.exp(logarithms / WORDS.length);
}
