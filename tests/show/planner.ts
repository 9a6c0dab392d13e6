import { windVectorFrom } from '../../src/core/earth/wind-vector.ts';
import { planGeoJson } from '../../src/core/planning/plan-geojson.ts';
import type { Plan } from '../../src/core/planning/plan.ts';
import { planText } from '../../src/core/planning/plan-text.ts';
import { statuteMilesFromMetres } from '../../src/core/units/quantity.ts';
import { FREEST, measure, measureDubins, type Measured, median, provenGap } from '../bench/planner-measures.ts';
import { drawnText, optionsFor } from '../core/planning/drawn-text.ts';
import { closestApproach } from '../core/planning/separation-checker.ts';
import words from '../reference/words-open.json' with { type: 'json' };
import type { Figure, Shown } from './figures.ts';

/** Texts of 14 and of 20 letters, put together from the open words. */
const FOURTEEN = ['JASMINE FREEDOM', 'KINDNESS SPRING', 'BIRTHDAY PARADE', 'QUALITY RAINBOW', 'DOLPHIN DIAMOND', 'RESPECT WELCOME'];
const TWENTY = ['BIRTHDAY KINDNESS OPEN', 'RAINBOW WELCOME SPRING', 'QUALITY FREEDOM COFFEE'];
/** Words of five letters and more for the formation. */
const FORMATION = ['BRAVE', 'QUICK', 'ALIVE', 'PROUD', 'ZEBRA', 'WONDER', 'PICNIC', 'RAINBOW', 'KINDNESS'];
/** Work for the proofs: the planner's own bound, given the time it takes. Some ten seconds for 14 letters. */
const PROOF_LABELS = 6_000_000;

const percent = (fraction: number, digits = 2): string => `${(100 * fraction).toFixed(digits)} %`;
const seconds = (value: number): string => `${value.toFixed(2)} s`;

function least(name: string, value: number, limit: number, textOf: (value: number) => string): Figure {
  return { name, value: textOf(value), limit: `at least ${textOf(limit)}`, ok: value >= limit };
}
function most(name: string, value: number, limit: number, textOf: (value: number) => string): Figure {
  return { name, value: textOf(value), limit: `at most ${textOf(limit)}`, ok: value <= limit };
}

function sizeFigures(name: string, measured: readonly Measured[], wallLimit: number, gapLimit: number): Figure[] {
  const gaps = measured.map((one) => (one.gap === 0 ? 0 : provenGap(one, PROOF_LABELS)));
  return [
    most(`${name}: gap to the proven optimum, median`, median(gaps), gapLimit, percent),
    most(`${name}: time to plan, median`, median(measured.map((one) => one.wallSeconds)), wallLimit, seconds),
  ];
}

function nearestMetres(plan: Plan): number {
  const wind = windVectorFrom({ fromRadians: 4.2, speedMetresPerSecond: 9 });
  const site = { latitudeDegrees: 46.5, longitudeDegrees: 8.6, elevationMetres: 400 };
  return closestApproach(planGeoJson(plan, { site, layerHeightMetres: 3400, wind, datumMilliseconds: 0, shipNames: [] }), 10).metres;
}

/** The planner's promises, measured: 120 mph, 45 degrees, letters of 1,200 m, run-in 4 s, rolls of 30 degrees a second. */
export async function showPlanner(): Promise<Shown> {
  measure('WARM');
  const short = words.words.filter((word) => word.length <= 5).map((word) => measure(word));
  const fourteen = FOURTEEN.map((text) => measure(text));
  const twenty = TWENTY.map((text) => measure(text));
  const formations = FORMATION.map((text) => {
    const alone = measure(text).plan;
    const three = planText(drawnText(text).letters, optionsFor(text, { ...FREEST, ships: 3 }));
    if (!three.ok) throw new Error(`${text}: ${three.problem.kind}`);
    return { sooner: alone.durationSeconds / three.plan.durationSeconds, nearest: nearestMetres(three.plan) };
  });
  const dubins = measureDubins();
  const miles = short.filter(({ text }) => text.length >= 4).map(({ plain }) => statuteMilesFromMetres(plain.ships[0]!.distanceMetres));
  const shareShort = median(short.map(({ shareOfPlain }) => shareOfPlain));
  const figures: Figure[] = [
    most('3 to 5 letters: share of plain letter order, median', shareShort, 0.6, (value) => value.toFixed(3)),
    most('14 letters: share of plain letter order, median', median(fourteen.map(({ shareOfPlain }) => shareOfPlain)), 0.68, (value) => value.toFixed(3)),
    most('3 to 5 letters: gap the plan itself proves, worst', Math.max(...short.map(({ gap }) => gap)), 0, percent),
    ...sizeFigures('3 to 5 letters', short, 0.3, 0),
    ...sizeFigures('14 letters', fourteen, 1, 0.005),
    ...sizeFigures('20 letters', twenty, 3, 0.015),
    least('three ships, 5 letters and more: times sooner, least', Math.min(...formations.map(({ sooner }) => sooner)), 2.95, (value) => value.toFixed(2)),
    least('three ships slipping 10 s: nearest by the checker', Math.min(...formations.map(({ nearest }) => nearest)), 299.5, (value) => `${value.toFixed(1)} m`),
    most(`turn-limited paths: worst of ${dubins.count} reference lengths`, dubins.worstMetres, 1e-6, (value) => `${value.toExponential(1)} m`),
    least('turn-limited length: times faster than a textbook version', dubins.textbookSeconds / dubins.lengthSeconds, 1, (value) => value.toFixed(2)),
    {
      name: 'plain letter order, 4 and 5 letters: statute miles, median',
      value: median(miles).toFixed(1),
      limit: '15 to 24 (common practice, no source)',
      ok: median(miles) >= 15 && median(miles) <= 24,
    },
  ];
  return { figures, headline: `A word of 3 to 5 letters takes ${percent(shareShort, 0)} of plain letter order, proven the least its drawings allow.` };
}
