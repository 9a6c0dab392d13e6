import { wordJob } from '../../e2e/flight/fly-word.ts';
import { flyChosen, flyLate, flyTouched } from '../flight/fly-reordered.ts';
import type { Figure } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** So many words, all by default; each is touched after its first, second, third and fourth stroke. */
const WORDS = ['HELLO', 'BRAVE', 'SMILE', 'PROUD', 'QUICK', 'ALIVE'].slice(0, Number(process.env['QUILLWIND_TOUCHED'] ?? 6));
const RULES = [
  { name: 'letter by letter', letterOrder: 'reading', progress: 'into-wind' },
  { name: 'any order', letterOrder: 'free', progress: 'free' },
] as const;

/** Flights at the desk with a redo or a skip in them, what is left ordered anew or flown on as it stood. */
export function restFigures(): Figure[] {
  let slowestMilliseconds = 0;
  const figures = RULES.flatMap(({ name, letterOrder, progress }) =>
    (['strokeRedone', 'strokeSkipped'] as const).flatMap((touch): Figure[] => {
      const flown = WORDS.flatMap((word, index) =>
        [1, 2, 3, 4].flatMap((afterStrokes) => {
          const job = { ...wordJob(word), options: { ...wordJob(word).options, letterOrder, progress } };
          const anew = flyTouched(job, index + 1, touch, afterStrokes, true);
          slowestMilliseconds = Math.max(slowestMilliseconds, anew.searchMilliseconds);
          return anew.promisedSeconds === 0 ? [null] : [{ anew, asItStood: flyTouched(job, index + 1, touch, afterStrokes, false) }];
        }),
      );
      const changed = flown.filter((one) => one !== null);
      const mean = (what: (one: (typeof changed)[number]) => number): number => changed.reduce((sum, one) => sum + what(one), 0) / Math.max(1, changed.length);
      const touched = `${touch === 'strokeRedone' ? 'redo' : 'skip'}, ${name}`;
      return [
        reported(
          `${touched}: of ${flown.length} flights, what was left was ordered anew in`,
          `${changed.length}, promising ${mean(({ anew }) => anew.promisedSeconds).toFixed(0)} s each`,
        ),
        atLeast(
          `${touched}: seconds saved in each of these`,
          mean(({ anew, asItStood }) => asItStood.afterTouchSeconds - anew.afterTouchSeconds),
          0,
          's',
          1,
        ),
        atLeast(
          `${touched}: of these, all that was left was flown`,
          changed.filter(({ anew }) => anew.finalState.phase === 'finished').length,
          changed.length,
          '',
          0,
        ),
      ];
    }),
  );
  return [
    ...figures,
    ...RULES.flatMap(({ name, ...rule }) => [...lateFigures(name, rule), ...choiceFigures(name, rule)]),
    atMost('the search for what is left, the slowest of these flights', slowestMilliseconds, 200, 'ms', 0),
  ];
}

/** So long after the flight begins the first smoke is due: sooner than a ship can come to it. */
const DUE_SECONDS = 60;

/** Flights at the desk that miss their timed start, ordered anew for it or not. */
function lateFigures(name: string, rule: Omit<(typeof RULES)[number], 'name'>): Figure[] {
  const flown = WORDS.map((word, index) => {
    const job = { ...wordJob(word), options: { ...wordJob(word).options, ...rule } };
    return { anew: flyLate(job, index + 1, DUE_SECONDS, true), asItStood: flyLate(job, index + 1, DUE_SECONDS, false) };
  });
  const changed = flown.filter(({ anew }) => anew.promisedSeconds > 0);
  const saved = changed.reduce((sum, { anew, asItStood }) => sum + asItStood.endedLateSeconds - anew.endedLateSeconds, 0) / Math.max(1, changed.length);
  return [
    reported(`late start, ${name}: of ${flown.length} flights, ordered anew in`, String(changed.length)),
    atLeast(`late start, ${name}: seconds saved in each of these`, saved, 0, 's', 1),
    atLeast(`late start, ${name}: words flown to their end`, flown.filter(({ anew }) => anew.finalState.phase === 'finished').length, flown.length, '', 0),
  ];
}

/** Flights at the desk whose pilot has another stroke come next, after the first, second and third: what that costs against what was told. */
function choiceFigures(name: string, rule: Omit<(typeof RULES)[number], 'name'>): Figure[] {
  const flown = WORDS.flatMap((word, index) =>
    [1, 2, 3].map((afterStrokes) => {
      const job = { ...wordJob(word), options: { ...wordJob(word).options, ...rule } };
      const chosen = flyChosen(job, index + 1, afterStrokes, true);
      const left = flyChosen(job, index + 1, afterStrokes, false);
      return { chosen, beyondSeconds: chosen.afterChoiceSeconds - left.afterChoiceSeconds - chosen.promisedSeconds };
    }),
  );
  const off = flown.map(({ beyondSeconds }) => Math.abs(beyondSeconds)).toSorted((one, other) => one - other);
  const mean = (what: (one: (typeof flown)[number]) => number): string => (flown.reduce((sum, one) => sum + what(one), 0) / flown.length).toFixed(1);
  return [
    reported(
      `another stroke chosen, ${name}: told and flown, seconds longer each`,
      `${mean(({ chosen }) => chosen.promisedSeconds)}, ${mean(({ chosen, beyondSeconds }) => chosen.promisedSeconds + beyondSeconds)}`,
    ),
    reported(`another stroke chosen, ${name}: seconds off what was told, median and most`, `${off[off.length >> 1]!.toFixed(0)}, ${off.at(-1)!.toFixed(0)}`),
    atLeast(
      `another stroke chosen, ${name}: words flown to their end`,
      flown.filter(({ chosen }) => chosen.finalState.phase === 'finished').length,
      flown.length,
      '',
      0,
    ),
  ];
}
