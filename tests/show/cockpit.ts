import { formationJob, flyFormationInPages } from '../../e2e/flight/fly-formation.ts';
import { wordJob } from '../../e2e/flight/fly-word.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { metresFromFeet, metresPerSecondFromKnots } from '../../src/core/units/quantity.ts';
import { measureFlightMemory } from '../bench/cockpit-memory.ts';
import { measureFixToCue } from '../bench/cockpit.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { measureSmoke } from '../flight/measure-smoke.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import type { Figure, Shown } from './figures.ts';
import { type FlightBrowser, type FlownWord, type FlownWordsOptions, flyWords, inFlightBrowser, openWords } from './flown-words.ts';
import { atLeast, atMost, reported } from './limits.ts';

interface Campaign extends FlownWordsOptions {
  readonly name: string;
  /** How many of the words must be read exactly. */
  readonly least: number;
}

const CAMPAIGNS: readonly Campaign[] = [
  { name: '10 kt off the forecast', forecastErrorKnots: 10, seed: 31, least: 48 },
  { name: '20 kt off the forecast', forecastErrorKnots: 20, seed: 131, least: 45 },
  { name: '10 kt off, fixes lost for 30 s twice', forecastErrorKnots: 10, seed: 231, lossAfterSeconds: { reposition: 200, stroke: 320 }, least: 45 },
];
const FORMATION_WORDS = ['RESPECT', 'SPRING', 'WELCOME', 'PARADE', 'FREEDOM', 'BIRTHDAY', 'QUALITY', 'CAKE'];

/**
 * Trustworthy cues: all the open words, flown in a browser by a simulated pilot who sees only what the cue contract
 * shows, in three kinds of weather and luck; then ships in formation, each with a page of its own and no link.
 */
export function showCockpit(): Promise<Shown> {
  return inFlightBrowser(async (opened) => {
    const figures: Figure[] = [];
    const readCounts: string[] = [];
    for (const campaign of CAMPAIGNS) {
      const words = openWords();
      const flown = await flyWords(opened, words, campaign, ({ word, read, report }) => {
        if (word !== read)
          process.stdout.write(
            `      ${campaign.name}: ${word} read ${read || '-'} after ${report.atSeconds.toFixed(0)} s${report.finished ? '' : ', not finished'}\n`,
          );
      });
      const exact = flown.filter(({ word, read }) => read === word).length;
      figures.push(atLeast(`${campaign.name}: words read exactly`, exact, campaign.least, `of ${words.length}`, 0), ...smokeFigures(campaign.name, flown));
      readCounts.push(`${exact} of ${words.length} (${campaign.name})`);
    }
    figures.push(...(await formationFigures(opened)), ...(await pageFigures()));
    return { figures, headline: `Words read exactly from below, flown by their cues in a browser: ${readCounts.join(', ')}.` };
  });
}

function smokeFigures(name: string, flown: readonly FlownWord[]): Figure[] {
  const errors = flown.map(({ word, report }) => {
    const job = wordJob(word);
    const planned = planJob(job);
    if (!planned.ok) throw new Error(`${word} has no plan`);
    const paths = planned.value.plan.ships[0]!.legs.flatMap((leg) => (leg.kind === 'smoke' ? [leg.path] : []));
    return measureSmoke(report.trails, paths, metresPerSecondFromKnots(job.ships[0]!.trueAirspeedKnots));
  });
  const rms = (squares: readonly number[]): number => Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
  const middle = (seconds: readonly number[]): number => median(seconds.map((one) => one * one));
  const afterTwoLetters = flown.flatMap(({ report }) =>
    report.letters.filter(({ letter }, index, all) => index === 0 || letter !== all[index - 1]!.letter).slice(2, 3),
  );
  return [
    atMost(
      `${name}: smoke ON with a fix 3 s old`,
      flown.reduce((sum, { report }) => sum + report.wrongOns, 0),
      0,
      'ticks',
      0,
    ),
    atMost(`${name}: flights not finished`, flown.filter(({ report }) => !report.finished).length, 0, 'flights', 0),
    reported(
      `${name}: smoke off its place in the word, rms`,
      `${rms(errors.map(({ crossTrackRmsMetres }) => crossTrackRmsMetres ** 2)).toFixed(1)} m`,
      'aim 15 m',
    ),
    reported(
      `${name}: smoke on and off too early or late, rms`,
      `${rms(errors.map(({ onErrorsSeconds }) => middle(onErrorsSeconds))).toFixed(2)} s, ${rms(errors.map(({ offErrorsSeconds }) => middle(offErrorsSeconds))).toFixed(2)} s`,
      'aim 0.3 s',
    ),
    reported(
      `${name}: wind error after two letters, median of ${afterTwoLetters.length}`,
      `${median(afterTwoLetters.map(({ windErrorKnots }) => windErrorKnots)).toFixed(2)} kt`,
      'aim 1 kt',
    ),
  ];
}

async function formationFigures({ browser, reader, scripts }: FlightBrowser): Promise<Figure[]> {
  let read = 0;
  let nearestMetres = Infinity;
  let wrongOns = 0;
  let leastMetres = 0;
  for (const [index, word] of FORMATION_WORDS.entries()) {
    const job = formationJob(word);
    leastMetres = metresFromFeet(job.options.separationFeet);
    const flight = await flyFormationInPages(browser, scripts, job, index + 1, 10);
    const trails = flight.reports.flatMap((report) => report.trails);
    const { text } = await reader.read(
      drawPolylines(seenFromBelow(trails, job.facingDegreesTrue), { letterHeightMetres: metresFromFeet(job.letters.heightFeet) }),
    );
    process.stdout.write(`      three ships: ${word} read ${text || '-'}, nearest ${flight.nearestMetres.toFixed(0)} m\n`);
    if (text === word) read += 1;
    nearestMetres = Math.min(nearestMetres, flight.nearestMetres);
    wrongOns += flight.reports.reduce((sum, report) => sum + report.wrongOns, 0);
  }
  return [
    atLeast('three pages, no link, hands up to 2 s apart: words read', read, FORMATION_WORDS.length - 1, `of ${FORMATION_WORDS.length}`, 0),
    atLeast('three pages: nearest any two truly came', nearestMetres, leastMetres, 'm', 0),
    atMost('three pages: smoke ON with a fix 3 s old', wrongOns, 0, 'ticks', 0),
  ];
}

async function pageFigures(): Promise<Figure[]> {
  const { 1: plain, 4: slow } = await measureFixToCue();
  const { atMinutes, heapMegabytes } = await measureFlightMemory();
  const grown = heapMegabytes.at(-1)! - heapMegabytes[0]!;
  return [
    atMost('from a fix to its cue in the document, median', plain.median, 8, 'ms', 1),
    atMost('the same, 99th percentile, the processor four times slower', slow.high, 16, 'ms', 1),
    atMost(`heap grown between ${atMinutes[0]} and ${atMinutes.at(-1)} minutes in the air`, grown, 1, 'MB', 2),
  ];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}
