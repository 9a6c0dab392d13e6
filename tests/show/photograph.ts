import { layPhotograph } from '../photograph/lay-photograph.ts';
import { belowPng } from '../photograph/below-png.ts';
import { DIFFUSIVITY, fromStraightBelow, type PhotographedWord, photographedWord } from '../photograph/photographed-word.ts';
import { rectifiedPng } from '../photograph/rectified-png.ts';
import { smokeSigma, takePhotograph } from '../photograph/render-photograph.ts';
import { spreadingFrom } from '../../src/core/photograph/spreading.ts';
import { strokeWidths, type WidthSeen } from '../../src/core/photograph/stroke-widths.ts';
import { windFromPictures } from '../../src/core/photograph/wind-told.ts';
import { openTextReader } from '../flight/read-text.ts';
import words from '../reference/words-open.json' with { type: 'json' };
import type { Shown } from './figures.ts';
import { atLeast, atMost, between, reported } from './limits.ts';

const WORDS = 20;
const AGES_SECONDS = [20, 300, 600];
const SKIES = ['clear', 'cloud', 'sun'] as const;
const WIDTH_PIXELS = 1400;
const STRANGERS = 20;

/** The photograph: 180 pictures by a renderer that shares no code, laid from a first placing 15 % of the word's height wrong. */
export async function showPhotograph(): Promise<Shown> {
  const reader = await openTextReader();
  const list = words.words.filter((_, index) => index % 2 === 0).slice(0, WORDS);
  let pictures = 0;
  let right = 0;
  let readable = 0;
  let read = 0;
  const widthShares: number[] = [];
  const spreads: { readonly value: number; readonly sigma: number }[] = [];
  const drifts: { readonly errorKnots: number; readonly sigmas: number }[] = [];
  const seconds: number[] = [];
  for (const [wordIndex, word] of list.entries()) {
    for (const sky of SKIES) {
      const widths: WidthSeen[] = [];
      const seen = [];
      for (const [ageIndex, afterSeconds] of AGES_SECONDS.entries()) {
        const seed = 1 + wordIndex * 31 + SKIES.indexOf(sky) * 7 + ageIndex;
        // One sky, one air: the wind's error of a word is the same at all ages.
        const truth = photographedWord({ word, afterSeconds, seed, airSeed: 1 + wordIndex, sky, widthPixels: WIDTH_PIXELS });
        const taken = await truth.take();
        pictures += 1;
        const startedAt = performance.now();
        const { laid, samples, picture, errorHeights } = layPhotograph(truth, taken, truth, 0.15, seed);
        seconds.push((performance.now() - startedAt) / 1000);
        if (!laid.ok || errorHeights > 0.03) {
          process.stdout.write(`      ${word}, ${sky}, ${afterSeconds} s: ${laid.ok ? `off ${errorHeights.toFixed(3)}` : laid.reason}\n`);
          continue;
        }
        right += 1;
        const own = strokeWidths(picture, samples, laid.aligned);
        widths.push(...own);
        widthShares.push(...own.map(({ sigmaMetres, ageSeconds }) => sigmaMetres / smokeSigma(truth.order, ageSeconds)));
        seen.push({ truth, atSeconds: truth.atSeconds, pose: laid.aligned.pose, sigma: laid.aligned.sigma });
        if ((await reader.read(await belowPng(fromStraightBelow(truth, 700)))).text !== word) continue;
        readable += 1;
        if ((await reader.read(rectifiedPng(picture, laid.aligned.pose, samples, truth.planned.plan))).text === word) read += 1;
      }
      const spreading = spreadingFrom(widths);
      if (spreading !== null) spreads.push({ value: spreading.horizontalSquareMetresPerSecond, sigma: spreading.sigmaSquareMetresPerSecond });
      const [first, last] = [seen[0], seen.at(-1)];
      const wind = first === undefined || last === undefined || first === last ? null : windFromPictures(first, last);
      if (wind !== null && first !== undefined && last !== undefined) drifts.push(...driftErrors(wind, first.truth, last.truth));
    }
  }
  const strangers = await strangersTaken(list);
  await reader.close();
  const share = (values: readonly number[], holds: (value: number) => boolean): number => (100 * values.filter(holds).length) / Math.max(1, values.length);
  const inside = [...spreads.map(({ value, sigma }) => (value - DIFFUSIVITY) / sigma), ...drifts.map(({ sigmas }) => sigmas)];
  return {
    figures: [
      reported('pictures', `${pictures}: ${WORDS} words, three skies, three ages, ${WIDTH_PIXELS} pixels wide`),
      atLeast('laid right, strokes at most 0.03 letter heights off', right, Math.ceil((170 / 180) * pictures), `of ${pictures}`, 0),
      atLeast(
        'widths within 20 % of the truth',
        share(widthShares, (value) => Math.abs(value - 1) <= 0.2),
        90,
        '%',
        1,
      ),
      atLeast(
        'spreading from three ages within 25 %',
        share(
          spreads.map(({ value }) => value / DIFFUSIVITY),
          (value) => Math.abs(value - 1) <= 0.25,
        ),
        90,
        '%',
        1,
      ),
      atLeast(
        'drift from two pictures within 1 kt, of each part',
        share(
          drifts.map(({ errorKnots }) => errorKnots),
          (value) => Math.abs(value) <= 1,
        ),
        90,
        '%',
        1,
      ),
      between(
        'truth inside two of the stated sigma, spreading and drift',
        share(inside, (value) => Math.abs(value) <= 2),
        90,
        99,
        '%',
        1,
      ),
      atLeast('rectified pictures read exactly, of those whose smoke is read from straight below', (100 * read) / Math.max(1, readable), 95, '%', 1),
      atMost(`pictures without the word taken, of ${strangers.shown}`, strangers.taken, 0, '', 0),
      reported(
        'time to lay one, median',
        `${seconds.toSorted((one, other) => one - other)[seconds.length >> 1]!.toFixed(2)} s of CPU at this desk, after decoding`,
      ),
    ],
    headline: `${right} of ${pictures} photographs are laid right; ${read} of ${readable} read as from straight below.`,
  };
}

function driftErrors(
  wind: NonNullable<ReturnType<typeof windFromPictures>>,
  first: PhotographedWord,
  last: PhotographedWord,
): { errorKnots: number; sigmas: number }[] {
  const seconds = last.atSeconds - first.atSeconds;
  const truth = { east: (last.driftEastMetres - first.driftEastMetres) / seconds, north: (last.driftNorthMetres - first.driftNorthMetres) / seconds };
  const knots = (metresPerSecond: number): number => (metresPerSecond * 3600) / 1852;
  return [
    { errorKnots: knots(wind.eastMetresPerSecond - truth.east), sigmas: (wind.eastMetresPerSecond - truth.east) / wind.eastSigma },
    { errorKnots: knots(wind.northMetresPerSecond - truth.north), sigmas: (wind.northMetresPerSecond - truth.north) / wind.northSigma },
  ];
}

/** Another word of the same length, thin cloud without smoke, and a wall: none of them is the word. */
async function strangersTaken(list: readonly string[]): Promise<{ taken: number; shown: number }> {
  let taken = 0;
  let shown = 0;
  const judge = (truth: PhotographedWord, photograph: Awaited<ReturnType<PhotographedWord['take']>>, word: PhotographedWord, seed: number): void => {
    shown += 1;
    if (layPhotograph(truth, photograph, word, 0.15, seed).laid.ok) taken += 1;
  };
  for (let index = 0; index < STRANGERS; index += 1) {
    const word = list[index % list.length]!;
    const alike = words.words.filter((each) => each.length === word.length && each !== word);
    const truth = photographedWord({ word, afterSeconds: 60, seed: 500 + index, sky: index % 2 === 0 ? 'clear' : 'cloud', widthPixels: 1000 });
    const other = photographedWord({ word: alike[index % alike.length] ?? 'YES', afterSeconds: 60, seed: 500 + index, sky: 'clear', widthPixels: 1000 });
    judge(truth, await truth.take(), other, index);
    judge(truth, await takePhotograph({ ...truth.order, smoke: [], cloud: 0.2 + 0.05 * index }), truth, index);
    judge(truth, wall(truth.order.widthPixels, truth.order.heightPixels, index), truth, index);
  }
  return { taken, shown };
}

/** A wall of bricks, with its joints brighter than the bricks, and a plaster of noise. */
function wall(widthPixels: number, heightPixels: number, seed: number): { jpeg: Buffer; rgba: Uint8ClampedArray; widthPixels: number; heightPixels: number } {
  const rgba = new Uint8ClampedArray(4 * widthPixels * heightPixels);
  const [across, down] = [90 + 7 * (seed % 5), 34 + 3 * (seed % 4)];
  for (let y = 0; y < heightPixels; y += 1) {
    const course = Math.floor(y / down);
    for (let x = 0; x < widthPixels; x += 1) {
      const joint = y % down < 5 || (x + (course % 2) * (across / 2)) % across < 5;
      const grain = 20 * (Math.abs(Math.sin(x * 12.9898 + y * 78.233 + seed)) - 0.5);
      rgba.fill((joint ? 190 : 110) + grain, 4 * (y * widthPixels + x), 4 * (y * widthPixels + x) + 3);
      rgba[4 * (y * widthPixels + x) + 3] = 255;
    }
  }
  return { jpeg: Buffer.alloc(0), rgba, widthPixels, heightPixels };
}
