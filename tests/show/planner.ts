import { windVectorFrom } from '../../src/core/earth/wind-vector.ts';
import { planGeoJson } from '../../src/core/plan/plan-geojson.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { mixedCharacters } from '../../src/core/plan/letters-alike.ts';
import { planText } from '../../src/core/plan/plan-text.ts';
import { statuteMilesFromMetres } from '../../src/core/units/quantity.ts';
import { FREEST, measure, measureDubins, type Measured, median, provenGap } from '../bench/planner-measures.ts';
import { drawnText, optionsFor } from '../core/order/drawn-text.ts';
import { closestApproach } from '../core/plan/separation-checker.ts';
import words from '../reference/words-open.json' with { type: 'json' };
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';
import { jobFigures } from './planner-jobs.ts';
import { joinedFigures } from './planner-joined.ts';
import { restFigures } from './planner-rest.ts';

/** Words of three to five letters as crowds are greeted with, letters about as common as in English. */
const GREETINGS = [
  'HELLO',
  'HAPPY',
  'LOVE',
  'MARRY',
  'PEACE',
  'ENJOY',
  'EAT',
  'FREE',
  'WIN',
  'VOTE',
  'LAKE',
  'PARTY',
  'HOPE',
  'MERRY',
  'YES',
  'JOY',
  'SKY',
  'OPEN',
];

/** Texts of 14 and of 20 letters, put together from the open words. */
const FOURTEEN = ['JASMINE FREEDOM', 'KINDNESS SPRING', 'BIRTHDAY PARADE', 'QUALITY RAINBOW', 'DOLPHIN DIAMOND', 'RESPECT WELCOME'];
const TWENTY = ['BIRTHDAY KINDNESS OPEN', 'RAINBOW WELCOME SPRING', 'QUALITY FREEDOM COFFEE'];
/** Words of five letters and more for the formation. */
const FORMATION = ['BRAVE', 'QUICK', 'ALIVE', 'PROUD', 'ZEBRA', 'WONDER', 'PICNIC', 'RAINBOW', 'KINDNESS'];
/** Work for the proofs: the planner's own bound, given the time it takes. Some ten seconds for 14 letters. */
const PROOF_LABELS = 6_000_000;

function sizeFigures(name: string, measured: readonly Measured[], wallSeconds: number, gapPercent: number): Figure[] {
  const gaps = measured.map((one) => (one.gap === 0 ? 0 : provenGap(one, PROOF_LABELS)));
  return [
    atMost(`${name}: gap to the proven optimum, median`, 100 * median(gaps), gapPercent, '%', 2),
    atMost(`${name}: time to plan, median`, median(measured.map((one) => one.wallSeconds)), wallSeconds, 's', 2),
    reported(`${name}: gap the plan shows by itself, worst`, `${(100 * Math.max(...measured.map(({ gap }) => gap))).toFixed(2)} %`),
  ];
}

function nearestMetres(plan: Plan): number {
  const wind = windVectorFrom({ fromRadians: 4.2, speedMetresPerSecond: 9 });
  const site = { latitudeDegrees: 46.5, longitudeDegrees: 8.6, elevationMetres: 400 };
  return closestApproach(
    planGeoJson(plan, {
      site,
      layerHeightMetres: 3400,
      wind,
      datumMilliseconds: 0,
      shipNames: [],
      readMilliseconds: 0,
      viewElevationRadians: 0.6,
      hand: 'quickest',
    }),
    10,
  ).metres;
}

/** The planner's promises, measured: 120 mph, 45 degrees, letters of 1,200 m, run-in 4 s, rolls of 30 degrees a second. */
export async function showPlanner(): Promise<Shown> {
  if (process.env['QUILLWIND_PARTS'] === 'rest')
    return { figures: restFigures(), headline: 'What is left after a redo or a skip, or all of it for a late start, ordered anew in the air.' };
  if (process.env['QUILLWIND_PARTS'] === 'joined') return { figures: await joinedFigures(), headline: 'The joined hand, flown.' };
  if (process.env['QUILLWIND_PARTS'] === 'jobs') return { figures: jobFigures(), headline: 'Random jobs, planned, exported and judged by the export alone.' };
  measure('WARM');
  const greetings = GREETINGS.map((text) => measure(text));
  const short = words.words.filter((word) => word.length <= 5).map((word) => measure(word));
  const fourteen = FOURTEEN.map((text) => measure(text));
  const twenty = TWENTY.map((text) => measure(text));
  const formations = FORMATION.map((text) => {
    const alone = measure(text).plan;
    const three = planText(drawnText(text, 1200, 'round-capitals').letters, optionsFor(text, { ...FREEST, ships: 3 }));
    if (!three.ok) throw new Error(`${text}: ${three.problem.kind}`);
    return { sooner: alone.durationSeconds / three.plan.durationSeconds, nearest: nearestMetres(three.plan) };
  });
  const dubins = measureDubins();
  const miles = short.filter(({ text }) => text.length >= 4).map(({ plain }) => statuteMilesFromMetres(plain.ships[0]!.distanceMetres));
  const share = (name: string, measured: readonly Measured[], limit: number): Figure =>
    atMost(`${name}: of the time of plain letter order, median`, median(measured.map(({ shareOfPlain }) => shareOfPlain)), limit, '', 3);
  const milesMedian = median(miles);
  const shareOpen = share(`${short.length} open words of 3 to 5 letters, round capitals`, short, 0.62);
  const shareGreetings = median(greetings.map(({ shareOfPlain }) => shareOfPlain));
  return {
    figures: [
      shareOpen,
      reported(`${GREETINGS.length} greetings of 3 to 5 letters, round capitals: the same`, shareGreetings.toFixed(3)),
      reported('120 mph, 45 degrees, 1,200 m, run-in 4 s, roll 30 degrees a second', 'free order'),
      share(
        `${GREETINGS.length} greetings, quickest hand`,
        GREETINGS.map((text) => measure(text, FREEST, 'quickest')),
        0.56,
      ),
      share(
        '14 letters, quickest hand',
        FOURTEEN.map((text) => measure(text, FREEST, 'quickest')),
        0.55,
      ),
      atMost(
        'texts in which equal letters are drawn differently',
        [...greetings, ...short, ...fourteen, ...twenty].filter(({ plan }) => mixedCharacters(plan).length > 0).length,
        0,
        '',
        0,
      ),
      ...sizeFigures('3 to 5 letters', short, 0.3, 0),
      share('14 letters, round capitals', fourteen, 0.6),
      ...sizeFigures('14 letters', fourteen, 1, 0.5),
      ...sizeFigures('20 letters', twenty, 3, 1.5),
      atLeast('three ships, 5 letters and more: times sooner, least', Math.min(...formations.map(({ sooner }) => sooner)), 2.95, '', 2),
      // Half a metre for the lines between vertices half a second apart.
      atLeast('three ships slipping 10 s: nearest by the checker', Math.min(...formations.map(({ nearest }) => nearest)), 299.5, 'm', 1),
      atMost(`turn-limited paths: worst of ${dubins.count} reference lengths`, dubins.worstMetres * 1e9, 1000, 'nanometres', 3),
      atLeast('turn-limited length: times as fast as a textbook version', dubins.textbookSeconds / dubins.lengthSeconds, 1, '', 2),
      ...restFigures(),
      ...(await joinedFigures()),
      ...jobFigures(),
      {
        name: 'plain letter order, open words of 4 and 5 letters: median',
        value: `${milesMedian.toFixed(1)} statute miles`,
        limit: '15 to 24, common practice, no source',
        ok: milesMedian >= 15 && milesMedian <= 24,
      },
    ],
    headline: `A word of 3 to 5 letters takes ${shareOpen.value} of the time of plain letter order, the proven least for its drawings.`,
  };
}
