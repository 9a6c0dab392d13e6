import { formationJob } from '../flight/ships-from-anywhere.ts';
import { flySorties } from '../flight/fly-sorties.ts';
import type { Figure, Shown } from './figures.ts';
import { pageFigures } from './formation-pages.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** So many flights at the desk; QUILLWIND_SORTIES asks for fewer. */
const SORTIES = 500;
/** So many words in the browser; QUILLWIND_PAGES asks for fewer, 0 for none. */
const PAGES = 20;
const LEAST_METRES = 300;
const LEAVING_SECONDS = 4;
const FIVE_LETTERS = ['BRAVE', 'QUICK', 'ALIVE', 'PROUD', 'ZEBRA'];

const share = (part: number, whole: number): number => (whole === 0 ? 0 : (100 * part) / whole);

/** Two and three ships from anywhere within 8 km, 1 to 10 minutes before the datum, a third of them with a fault, at the desk. */
export async function showFormation(): Promise<Shown> {
  const count = Number(process.env['QUILLWIND_SORTIES'] ?? SORTIES);
  const pages = Number(process.env['QUILLWIND_PAGES'] ?? PAGES);
  const flown = await flySorties(count);
  const under = flown.filter(({ nearestMetres }) => nearestMetres < LEAST_METRES);
  const clean = flown.filter(({ fault }) => fault === null);
  const good = clean.filter(({ whole, durationShare }) => whole && durationShare <= 1.1);
  const left = flown.flatMap(({ leftBySeconds }) => leftBySeconds);
  const strokes = flown.reduce((sum, one) => sum + one.strokes, 0);
  const outside = flown.reduce((sum, one) => sum + one.strokesOutsideWindows, 0);
  for (const { seed, text, ships, fault, nearestMetres, nearestAtSeconds } of under) {
    console.log(`seed ${seed}: ${text}, ${ships} ships, ${fault ?? 'no fault'}: ${nearestMetres.toFixed(0)} m at ${nearestAtSeconds.toFixed(0)} s`);
  }
  const figures: Figure[] = [
    atMost(`of ${count} flights, with two ships under ${LEAST_METRES} m and within 300 ft of height`, under.length, 0, '', 0),
    reported('nearest of all', `${Math.min(...flown.map(({ nearestMetres }) => nearestMetres)).toFixed(0)} m`),
    atMost(`of ${strokes} strokes, begun outside a proven window`, outside, 0, '', 0),
    atLeast(`of ${clean.length} flights without a fault, whole and at most 10 % later than planned`, share(good.length, clean.length), 97, '%', 1),
    reported('of them, written whole', `${share(clean.filter(({ whole }) => whole).length, clean.length).toFixed(1)} %`),
    reported('of them, on the datum called first', `${share(clean.filter(({ hacks }) => hacks === 0).length, clean.length).toFixed(1)} %`),
    atLeast(
      `of ${left.length} circles left on time, within ${LEAVING_SECONDS} s of the plan`,
      share(left.filter((seconds) => Math.abs(seconds) <= LEAVING_SECONDS).length, left.length),
      95,
      '%',
      1,
    ),
    ...(pages > 0 ? await pageFigures(pages) : []),
    atMost('three ships over five letters: time to plan, windows and all, worst', worstPlanSeconds(), 1, 's', 2),
  ];
  return {
    figures,
    headline: `${count} flights of two and three ships from anywhere, a third with a fault: ${under.length} brought two ships under ${LEAST_METRES} m at one height.`,
  };
}

function worstPlanSeconds(): number {
  return Math.max(
    ...FIVE_LETTERS.map((text) => {
      const before = performance.now();
      formationJob(text, 3);
      return (performance.now() - before) / 1000;
    }),
  );
}
