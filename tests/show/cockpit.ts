import { formationJob, flyFormationInPages } from '../../e2e/flight/fly-formation.ts';
import { ordersFor, wordJob } from '../../e2e/flight/fly-word.ts';
import { flightSetupFromJob } from '../../src/core/guidance/flight-setup-from-job.ts';
import { flySorties } from '../flight/fly-sorties.ts';
import { flyWithLies } from '../flight/lying-clocks.ts';
import { ordinaryHands } from '../flight/ordinary-pilot.ts';
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
  /** Besides reading: at most so much of the planned time, smoke so far off its line, and speech such a share of the time. */
  readonly byEar?: { readonly timeShare: number; readonly smokeMetres: number; readonly speechPercent: number };
  /** How many of the words must be read exactly. */
  readonly least: number;
}

const CAMPAIGNS: readonly Campaign[] = [
  { name: '10 kt off the forecast', forecastErrorKnots: 10, seed: 31, least: 48 },
  { name: '20 kt off the forecast', forecastErrorKnots: 20, seed: 131, least: 45 },
  {
    name: 'ordinary pilot, 10 kt off',
    forecastErrorKnots: 10,
    seed: 31,
    least: 48,
    pilot: 'ordinary',
    world: (seed) => ordinaryHands(seed, ordersFor(wordJob('HI'), seed, 10).world),
  },
  {
    name: 'ordinary pilot, 20 kt off',
    forecastErrorKnots: 20,
    seed: 131,
    least: 46,
    pilot: 'ordinary',
    world: (seed) => ordinaryHands(seed, ordersFor(wordJob('HI'), seed, 20).world),
  },
  {
    name: 'by ear alone, 10 kt off',
    forecastErrorKnots: 10,
    seed: 31,
    least: 47,
    pilot: 'ear',
    byEar: { timeShare: 1.15, smokeMetres: 45, speechPercent: 35 },
    world: () => ({ reactionSeconds: 0 }),
  },
  { name: '10 kt off, fixes lost for 30 s twice', forecastErrorKnots: 10, seed: 231, lossAfterSeconds: { reposition: 200, stroke: 320 }, least: 45 },
];
/** So many words of each campaign, all of them by default; which parts, by their names and `clocks`; so many flights with lying clocks. */
const COUNT = Number(process.env['QUILLWIND_WORDS'] ?? 50);
const PARTS = process.env['QUILLWIND_PARTS']?.split(';') ?? null;
const LIES = Number(process.env['QUILLWIND_LIES'] ?? 1000);
const SORTIES = Number(process.env['QUILLWIND_SORTIES'] ?? 100);
const FORMATION_WORDS = ['RESPECT', 'SPRING', 'WELCOME', 'PARADE', 'FREEDOM', 'BIRTHDAY', 'QUALITY', 'CAKE'];

/**
 * Trustworthy cues: all the open words, flown in a browser by a simulated pilot who sees only what the cue contract
 * shows, in three kinds of weather and luck; then ships in formation, each with a page of its own and no link.
 */
export function showCockpit(): Promise<Shown> {
  return inFlightBrowser(async (opened) => {
    const figures: Figure[] = [];
    const readCounts: string[] = [];
    for (const campaign of CAMPAIGNS.filter(({ name }) => PARTS === null || PARTS.includes(name))) {
      const words = openWords().slice(0, COUNT);
      const flown = await flyWords(opened, words, campaign, ({ word, read, report }) => {
        if (word !== read)
          process.stdout.write(
            `      ${campaign.name}: ${word} read ${read || '-'} after ${report.atSeconds.toFixed(0)} s${report.finished ? '' : ', not finished'}\n`,
          );
      });
      const exact = flown.filter(({ word, read }) => read === word).length;
      figures.push(
        atLeast(`${campaign.name}: words read exactly`, exact, Math.floor((campaign.least / 50) * words.length), `of ${words.length}`, 0),
        ...smokeFigures(campaign.name, flown),
        ...(campaign.byEar === undefined ? [] : earFigures(campaign.name, flown, campaign.byEar)),
      );
      readCounts.push(`${exact} of ${words.length} (${campaign.name})`);
    }
    if (PARTS === null || PARTS.includes('clocks')) figures.push(...clockFigures(), ...(await sortieFigures()));
    if (PARTS === null) figures.push(...(await formationFigures(opened)), ...(await pageFigures()));
    return { figures, headline: `Words read exactly from below, flown by their cues in a browser: ${readCounts.join(', ')}.` };
  });
}

/** What the ear alone costs: time, smoke off its line, and how much of the time is speech. */
function earFigures(name: string, flown: readonly FlownWord[], limits: NonNullable<Campaign['byEar']>): Figure[] {
  const sum = (what: (one: FlownWord) => number): number => flown.reduce((all, one) => all + what(one), 0);
  const plans = flown.map(({ word }) => planJob(wordJob(word)));
  const planned = plans.reduce((all, plan) => all + (plan.ok ? plan.value.plan.durationSeconds : 0), 0);
  const written = sum(({ report }) => report.atSeconds - (report.trails[0]?.[0]?.atSeconds ?? 0));
  const squares = sum(({ word, report }) => smokeOf(word, report.trails).crossTrackRmsMetres ** 2);
  return [
    atMost(`${name}: time from first smoke to last over that planned`, written / planned, limits.timeShare, '', 2),
    atMost(`${name}: smoke off its place, rms`, Math.sqrt(squares / flown.length), limits.smokeMetres, 'm', 0),
    atMost(
      `${name}: speech, share of the time`,
      (100 * sum(({ report }) => report.spokenSeconds)) / sum(({ report }) => report.atSeconds),
      limits.speechPercent,
      '%',
      0,
    ),
    reported(`${name}: announcements a minute`, `${((60 * sum(({ report }) => report.announcements)) / sum(({ report }) => report.atSeconds)).toFixed(1)}`),
  ];
}

/** Flights at the desk with one to three faults of clocks and receivers each. */
function clockFigures(): Figure[] {
  const job = wordJob('HI');
  const planned = planJob(job);
  if (!planned.ok) throw new Error('HI has no plan');
  const made = flightSetupFromJob(job, planned.value.plan, 0, { kind: 'first-smoke' }, Date.parse(job.readTime), null);
  if (!made.ok) throw new Error(made.reason);
  const flown = Array.from({ length: LIES }, (_, index) => flyWithLies(made.setup, index));
  for (const { seed, worstMetres, faults } of flown.filter((one) => one.worstMetres > 150)) {
    process.stdout.write(`      seed ${seed}: smoke ${worstMetres.toFixed(0)} m from where the aircraft was: ${faults.join(', ')}\n`);
  }
  const named = flown.reduce((sum, one) => sum + one.named, 0);
  const toName = flown.reduce((sum, one) => sum + one.toName, 0);
  return [
    atMost(
      `${LIES} flights with clocks and receivers that lie: smoke cued over 150 m from where it belongs`,
      flown.filter((one) => one.worstMetres > 150).length,
      0,
      'flights',
      0,
    ),
    atMost(
      'the same: smoke ON with a place in doubt',
      flown.reduce((sum, one) => sum + one.doubtedOns, 0),
      0,
      'ticks',
      0,
    ),
    reported('the same: refused aloud, since positions come later than any smoke is cued by', `${flown.filter(({ tooLate }) => tooLate).length} flights`),
    atMost('the same: others not finished within 1,500 s', flown.filter(({ tooLate, finished }) => !tooLate && !finished).length, 0, 'flights', 0),
    atLeast(`the same: of ${toName} faults that blanked the cue, named`, (100 * named) / Math.max(1, toName), 95, '%', 1),
  ];
}

/** Formations with one device's clock set by 30 s, 2 s or 10 min in the minute before the datum. */
async function sortieFigures(): Promise<Figure[]> {
  const flown = await flySorties(SORTIES, 'clock set');
  return [
    atLeast(
      `${SORTIES} sorties with one clock set before the datum: nearest any two ships came`,
      Math.min(...flown.map(({ nearestMetres }) => nearestMetres)),
      300,
      'm',
      0,
    ),
    atMost(
      'the same: strokes begun outside a proven window',
      flown.reduce((sum, one) => sum + one.strokesOutsideWindows, 0),
      0,
      '',
      0,
    ),
  ];
}

function smokeOf(word: string, trails: FlownWord['report']['trails']): ReturnType<typeof measureSmoke> {
  const job = wordJob(word);
  const planned = planJob(job);
  if (!planned.ok) throw new Error(`${word} has no plan`);
  const paths = planned.value.plan.ships[0]!.legs.flatMap((leg) => (leg.kind === 'smoke' ? [leg.path] : []));
  return measureSmoke(trails, paths, metresPerSecondFromKnots(job.ships[0]!.trueAirspeedKnots));
}

function smokeFigures(name: string, flown: readonly FlownWord[]): Figure[] {
  const errors = flown.map(({ word, report }) => smokeOf(word, report.trails));
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
