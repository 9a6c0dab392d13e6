import { flyAtDesk } from '../flight/fly-at-desk.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { flyFormation } from '../flight/formation-flight.ts';
import { measureSmoke } from '../flight/measure-smoke.ts';
import { ordinaryWorld, TEN_KNOTS } from '../flight/ordinary-world.ts';
import { openTextReader, type TextReader } from '../flight/read-text.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import { WORD_AIRSPEED, WORD_FACING_DEGREES, WORD_HEIGHT_METRES, wordSetup } from '../flight/word-setup.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { STATE } from '../../src/core/tracking/estimate.ts';
import type { Figure, Shown } from './figures.ts';
import { flyWords, openWords } from './flown-words.ts';
import { atLeast, atMost, reported } from './limits.ts';

const KNOTS = 3600 / 1852;
const BROWSER_WORDS = 10;
const FORMATION_WORDS = ['RESPECT', 'SPRING', 'WELCOME', 'PARADE', 'FREEDOM', 'BIRTHDAY', 'QUALITY', 'DOLPHIN'];

interface Campaign {
  readonly name: string;
  readonly forecastErrorMetresPerSecond: number;
  readonly lossSeconds: number;
  readonly least: number;
}

const CAMPAIGNS: readonly Campaign[] = [
  { name: '10 kt off the forecast', forecastErrorMetresPerSecond: TEN_KNOTS, lossSeconds: 0, least: 48 },
  { name: '20 kt off the forecast', forecastErrorMetresPerSecond: 2 * TEN_KNOTS, lossSeconds: 0, least: 45 },
  { name: '10 kt off, two losses of 30 s', forecastErrorMetresPerSecond: TEN_KNOTS, lossSeconds: 30, least: 45 },
];

interface Tally {
  read: number;
  wrongOns: number;
  crossTrackSquares: number;
  onSquares: number;
  offSquares: number;
  windErrors: number[];
  flights: number;
}

/**
 * Trustworthy cues: the open words flown at the desk by a simulated pilot who sees only the cues, in three kinds of
 * weather and luck; ten of them in the browser as well.
 */
export async function showCockpit(): Promise<Shown> {
  const reader = await openTextReader();
  const figures: Figure[] = [];
  const readCounts: string[] = [];
  for (const campaign of CAMPAIGNS) {
    const tally = await flyCampaign(campaign, reader);
    const rms = (squares: number): number => Math.sqrt(squares / tally.flights);
    figures.push(
      atLeast(`${campaign.name}: words read exactly`, tally.read, campaign.least, `of ${tally.flights}`, 0),
      atMost(`${campaign.name}: smoke ON with a fix 3 s old`, tally.wrongOns, 0, 'ticks', 0),
      reported(`${campaign.name}: smoke off its place in the word, rms`, `${rms(tally.crossTrackSquares).toFixed(1)} m`, 'aim 15 m'),
      reported(`${campaign.name}: smoke on and off too early or late, rms`, `${rms(tally.onSquares).toFixed(2)} s, ${rms(tally.offSquares).toFixed(2)} s`, 'aim 0.3 s'),
      reported(`${campaign.name}: wind error after two letters, median`, `${(median(tally.windErrors) * KNOTS).toFixed(2)} kt`, 'aim 1 kt'),
    );
    readCounts.push(`${tally.read} of ${tally.flights} (${campaign.name})`);
  }
  const together = FORMATION_WORDS.map((word, index) => ({ word, flight: flyFormation(word, index + 1, TEN_KNOTS) }));
  let readTogether = 0;
  for (const { word, flight } of together) {
    const picture = drawPolylines(seenFromBelow(flight.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES });
    const { text } = await reader.read(picture);
    if (text === word) readTogether += 1;
    else process.stdout.write(`      three ships: ${word} read ${text || '-'}\n`);
  }
  figures.push(
    atLeast('three ships, no link, clocks up to 1.9 s off: words read', readTogether, FORMATION_WORDS.length - 1, `of ${FORMATION_WORDS.length}`, 0),
    atLeast('three ships: nearest approach in truth', Math.min(...together.map(({ flight }) => flight.nearestMetres)), 300, 'm', 0),
  );
  await reader.close();
  const browser = await flyWords(openWords().slice(0, BROWSER_WORDS), { forecastErrorKnots: 10, seed: 31, lossAfterSeconds: { reposition: 200, stroke: 320 } }, ({ word, read }) => process.stdout.write(`      ${word} read ${read}\n`));
  figures.push(
    atLeast('in the browser, two losses of 30 s: words read', browser.filter(({ word, read }) => word === read).length, BROWSER_WORDS - 1, `of ${BROWSER_WORDS}`, 0),
    atMost('in the browser: smoke ON with a fix 3 s old', browser.reduce((sum, { report }) => sum + report.wrongOns, 0), 0, 'ticks', 0),
  );
  return { figures, headline: `Words read exactly from below: ${readCounts.join(', ')}.` };
}

async function flyCampaign(campaign: Campaign, reader: TextReader): Promise<Tally> {
  const tally: Tally = { read: 0, wrongOns: 0, crossTrackSquares: 0, onSquares: 0, offSquares: 0, windErrors: [], flights: 0 };
  for (const [index, word] of openWords().entries()) {
    const { setup } = wordSetup(word);
    const lossFrom = { reposition: Infinity, stroke: Infinity };
    const world = ordinaryWorld(index + 1, campaign.forecastErrorMetresPerSecond, {
      fixLosses: (smokeOn, atSeconds) => {
        if (campaign.lossSeconds === 0) return false;
        if (lossFrom.reposition === Infinity && atSeconds > 150 && !smokeOn) lossFrom.reposition = atSeconds;
        if (lossFrom.stroke === Infinity && atSeconds > lossFrom.reposition + 60 && smokeOn) lossFrom.stroke = atSeconds + 5;
        return Object.values(lossFrom).some((from) => atSeconds >= from && atSeconds < from + campaign.lossSeconds);
      },
    });
    let windError: number | null = null;
    const flight = flyAtDesk(setup, world, {
      watch: (state, simulation) => {
        const cues = cuesFrom(state);
        if (cues.smoke === 'on' && (cues.fixAgeSeconds === null || cues.fixAgeSeconds >= 3)) tally.wrongOns += 1;
        if (windError !== null || state.phase !== 'onStroke') return;
        const letters = new Set(setup.strokes.slice(0, state.strokeIndex).map(({ letterIndex }) => letterIndex));
        const { estimate } = state.flight.tracker;
        if (letters.size < 2 || letters.has(setup.strokes[state.strokeIndex]!.letterIndex) || estimate === null) return;
        windError = Math.hypot(estimate.mean[STATE.windEast]! - simulation.windEast, estimate.mean[STATE.windNorth]! - simulation.windNorth);
      },
    });
    const errors = measureSmoke(flight.simulation.trails, setup.strokes.map(({ path }) => path), WORD_AIRSPEED);
    const picture = drawPolylines(seenFromBelow(flight.simulation.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES });
    const { text } = await reader.read(picture);
    if (text !== word) process.stdout.write(`      ${campaign.name}: ${word} read ${text || '-'}\n`);
    tally.flights += 1;
    tally.read += text === word ? 1 : 0;
    tally.crossTrackSquares += errors.crossTrackRmsMetres ** 2;
    tally.onSquares += middleSquare(errors.onErrorsSeconds);
    tally.offSquares += middleSquare(errors.offErrorsSeconds);
    if (windError !== null) tally.windErrors.push(windError);
  }
  return tally;
}

/** A stroke broken off and taken up again counts in the middle of the squares, not with the length of its gap. */
function middleSquare(seconds: readonly number[]): number {
  return median(seconds.map((one) => one * one));
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}
