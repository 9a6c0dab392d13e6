import { planJobSteps } from '../../src/core/plan/plan-job.ts';
import { formationJob } from '../flight/ships-from-anywhere.ts';
import { flySorties } from '../flight/fly-sorties.ts';
import type { MeasuredSortie } from '../flight/measure-sortie.ts';
import type { Figure, Shown } from './figures.ts';
import { linkedFigures } from './formation-linked.ts';
import { pageFigures } from './formation-pages.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** So many flights at the desk, from a seed on; QUILLWIND_SORTIES asks for fewer, QUILLWIND_FROM for others. */
const SORTIES = Number(process.env['QUILLWIND_SORTIES'] ?? 500);
const FIRST_SEED = Number(process.env['QUILLWIND_FROM'] ?? 0);
const ORDINARY_SORTIES = 50;
const LATE_HACK_SORTIES = 40;
/** So many words in the browser; QUILLWIND_PAGES asks for fewer, 0 for none. */
const PAGES = Number(process.env['QUILLWIND_PAGES'] ?? 20);
/** Of `desk;ordinary;hacks;pages;linked;plans`, all by default. */
const PARTS = process.env['QUILLWIND_PARTS']?.split(';') ?? null;
const isAsked = (part: string): boolean => PARTS === null || PARTS.includes(part);
const LEAST_METRES = 300;
const LEAVING_SECONDS = 4;
const FIVE_LETTERS = ['BRAVE', 'QUICK', 'ALIVE', 'PROUD', 'ZEBRA'];

const share = (part: number, whole: number): number => (whole === 0 ? 0 : (100 * part) / whole);

/** Two and three ships from anywhere within 8 km, 1 to 10 minutes before the datum: a third with a fault; and by ordinary pilots. */
export async function showFormation(): Promise<Shown> {
  const figures: Figure[] = [];
  const headlines: string[] = [];
  if (isAsked('desk')) {
    const flown = await flySorties(SORTIES, 'obedient', FIRST_SEED);
    const under = nearPairs(flown);
    const left = flown.flatMap(({ leftBySeconds }) => leftBySeconds);
    figures.push(
      ...apartFigures(`of ${flown.length} flights`, flown),
      ...writtenFigures(
        'without a fault',
        flown.filter(({ fault }) => fault === null),
        97,
      ),
      atLeast(
        `of ${left.length} circles left on time, within ${LEAVING_SECONDS} s of the plan`,
        share(left.filter((seconds) => Math.abs(seconds) <= LEAVING_SECONDS).length, left.length),
        95,
        '%',
        1,
      ),
    );
    headlines.push(
      `${flown.length} flights of two and three ships from anywhere, a third with a fault: ${under.length} brought two ships under ${LEAST_METRES} m at one height.`,
    );
  }
  if (isAsked('ordinary')) {
    const flown = await flySorties(Math.min(SORTIES, ORDINARY_SORTIES), 'ordinary pilots', FIRST_SEED);
    figures.push(...apartFigures(`by ordinary pilots, of ${flown.length} flights`, flown), ...writtenFigures('by ordinary pilots', flown));
    headlines.push(`By ordinary pilots ${flown.filter(({ whole }) => whole).length} of ${flown.length} are written whole.`);
  }
  if (isAsked('hacks')) figures.push(...(await lateHackFigures()));
  if (isAsked('pages') && PAGES > 0) figures.push(...(await pageFigures(PAGES)));
  if (isAsked('linked')) figures.push(...(await linkedFigures()));
  if (isAsked('plans')) {
    const timed = FIVE_LETTERS.map(planTimes);
    const worst = (secondsOf: (times: PlanTimes) => number): number => Math.max(...timed.map(secondsOf));
    figures.push(
      atMost(
        'three ships over five letters: time to plan, windows and all, worst',
        worst(({ wholeSeconds }) => wholeSeconds),
        1,
        's',
        2,
      ),
      atMost(
        'of it, after the ships are arranged: the search for windows of lateness, and little else, worst',
        worst(({ windowsSeconds }) => windowsSeconds),
        0.5,
        's',
        2,
      ),
    );
  }
  return { figures, headline: headlines.join(' ') };
}

/** One hack pressed 25 s late: what nobody knows without a link is told with one, and the ship waits on its circle. */
async function lateHackFigures(): Promise<Figure[]> {
  const count = Math.min(SORTIES, LATE_HACK_SORTIES);
  const nearest = (flown: readonly MeasuredSortie[]): string => `${Math.min(...flown.map(({ nearestMetres }) => nearestMetres)).toFixed(0)} m`;
  const unknown = await flySorties(count, 'late hack', FIRST_SEED);
  const heard = await flySorties(count, 'late hack heard', FIRST_SEED);
  const answered = await flySorties(count, 'late hack answered', FIRST_SEED);
  return [
    reported(
      `of ${count} flights with one hack 25 s late and no link, which nobody knows: with two ships under ${LEAST_METRES} m`,
      `${nearPairs(unknown).length} (nearest ${nearest(unknown)})`,
    ),
    atMost('the same with the link, nobody answers: with two ships under it', nearPairs(heard).length, 0, '', 0),
    reported('the same: nearest of all', nearest(heard)),
    atMost('the same, the lead’s time taken after 15 s: with two ships under it', nearPairs(answered).length, 0, '', 0),
    reported('the same: nearest of all', nearest(answered)),
    atLeast('the same: written whole', share(answered.filter(({ whole }) => whole).length, count), 97, '%', 1),
  ];
}

const nearPairs = (flown: readonly MeasuredSortie[]): MeasuredSortie[] => flown.filter(({ nearestMetres }) => nearestMetres < LEAST_METRES);

/** How near any two ships came, and whether each stroke began where it was proven. */
function apartFigures(name: string, flown: readonly MeasuredSortie[]): Figure[] {
  const under = nearPairs(flown);
  for (const { seed, text, ships, fault, nearestMetres, nearestAtSeconds } of under) {
    console.log(`seed ${seed}: ${text}, ${ships} ships, ${fault ?? 'no fault'}: ${nearestMetres.toFixed(0)} m at ${nearestAtSeconds.toFixed(0)} s`);
  }
  const strokes = flown.reduce((sum, one) => sum + one.strokes, 0);
  const outside = flown.reduce((sum, one) => sum + one.strokesOutsideWindows, 0);
  return [
    atMost(`${name}, with two ships under ${LEAST_METRES} m and within 300 ft of height`, under.length, 0, '', 0),
    reported(`${name}: nearest of all`, `${Math.min(...flown.map(({ nearestMetres }) => nearestMetres)).toFixed(0)} m`),
    atMost(`${name}: of ${strokes} strokes, begun outside a proven window`, outside, 0, '', 0),
  ];
}

/** Ordinary pilots are promised to stay apart, not to be in time. */
function writtenFigures(name: string, flown: readonly MeasuredSortie[], leastPercent?: number): Figure[] {
  const good = flown.filter(({ whole, durationShare }) => whole && durationShare <= 1.1);
  const inTime = `of ${flown.length} flights ${name}, whole and at most 10 % later than planned`;
  const percent = share(good.length, flown.length);
  return [
    leastPercent === undefined ? reported(inTime, `${percent.toFixed(1)} %`) : atLeast(inTime, percent, leastPercent, '%', 1),
    reported('of them, written whole', `${share(flown.filter(({ whole }) => whole).length, flown.length).toFixed(1)} %`),
    reported('of them, on the datum called first', `${share(flown.filter(({ hacks }) => hacks === 0).length, flown.length).toFixed(1)} %`),
  ];
}

interface PlanTimes {
  readonly wholeSeconds: number;
  readonly windowsSeconds: number;
}

/** How long a plan of three ships takes, and its last step, which begins when the best arrangement is known. */
function planTimes(text: string): PlanTimes {
  const made = formationJob(text, 3);
  if (made === null) throw new Error(`no plan of three ships for ${text}`);
  const steps = planJobSteps(made.job);
  const begunAt = performance.now();
  for (let stepAt = begunAt; ; stepAt = performance.now()) {
    const { done } = steps.next();
    const now = performance.now();
    if (done) return { wholeSeconds: (now - begunAt) / 1000, windowsSeconds: (now - stepAt) / 1000 };
  }
}
