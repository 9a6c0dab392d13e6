import type { DrawnLetter } from '../letters/drawn-letter.ts';
import type { Plan } from './plan.ts';
import type { PlanProgress, PlanResult } from './plan-result.ts';

/** Plans letters as they are offered, in steps. */
export type LetterPlanner = (letters: readonly DrawnLetter[]) => Generator<PlanProgress, PlanResult>;

/** Each character's one style, for those that are held to one. */
type StyleOf = ReadonlyMap<string, string>;

/** Texts of so many letters get the best choice of styles, longer ones the styles most used when free. */
const MOST_LETTERS_CHOSEN = 7;
/** Plans made at most in choosing. */
const MOST_PLANS = 14;
/** The share of the progress that the first plan stands for. */
const FIRST_SHARE = 0.6;

/**
 * The quickest plan in which equal letters are drawn alike, in steps.
 *
 * The first plan is free in every letter; where it draws a character in two ways, that character's styles are tried
 * one after the other (branch and bound: a plan with fewer choices is never quicker). What is returned keeps the free
 * plan's bound, or a better one where all choices were looked at.
 */
export function* planLettersAlike(letters: readonly DrawnLetter[], planned: LetterPlanner): Generator<PlanProgress, PlanResult> {
  const free = yield* scaled(planned(letters), 0, FIRST_SHARE);
  if (!free.ok) return free;
  const [mixed] = mixedCharacters(free.plan);
  if (mixed === undefined) return free;

  let best: Plan | null = null;
  const consider = (plan: Plan): void => {
    if (best === null || cost(plan) < cost(best)) best = plan;
  };
  const fixed = yield* scaled(planned(heldTo(letters, mostUsed(free.plan))), FIRST_SHARE, 0.8);
  if (fixed.ok) consider(fixed.plan);

  let lowerBoundSeconds = free.plan.lowerBoundSeconds;
  if (letters.length <= MOST_LETTERS_CHOSEN || best === null) {
    const open: { readonly styleOf: StyleOf; readonly mixed: string; readonly boundSeconds: number }[] = [
      { styleOf: new Map(), mixed, boundSeconds: free.plan.lowerBoundSeconds },
    ];
    let closedBoundSeconds = Infinity;
    let plans = 0;
    while (open.length > 0 && (plans < MOST_PLANS || best === null)) {
      open.sort((one, other) => other.boundSeconds - one.boundSeconds);
      const { styleOf, mixed: character } = open.pop()!;
      for (const style of stylesOf(letters, character)) {
        const choice = new Map(styleOf).set(character, style);
        const result = yield* scaled(planned(heldTo(letters, choice)), 0.8, 1);
        plans += 1;
        if (!result.ok) continue;
        const [still] = mixedCharacters(result.plan);
        if (still === undefined) {
          consider(result.plan);
          closedBoundSeconds = Math.min(closedBoundSeconds, result.plan.lowerBoundSeconds);
        } else open.push({ styleOf: choice, mixed: still, boundSeconds: result.plan.lowerBoundSeconds });
      }
    }
    lowerBoundSeconds = Math.max(lowerBoundSeconds, Math.min(closedBoundSeconds, ...open.map(({ boundSeconds }) => boundSeconds)));
  }
  const found: Plan | null = best;
  return found === null ? free : { ok: true, plan: { ...(found as Plan), lowerBoundSeconds: Math.min(lowerBoundSeconds, cost(found)) } };
}

const cost = ({ durationSeconds, penaltySeconds }: Plan): number => durationSeconds + penaltySeconds;

/** Characters that the plan draws in more than one way. */
export function mixedCharacters(plan: Plan): string[] {
  return [...styleCounts(plan)].flatMap(([character, counts]) => (counts.size > 1 ? [character] : []));
}

/** How often each character is drawn in each style, over its letters. */
function styleCounts({ ships }: Plan): Map<string, Map<string, number>> {
  const styleOfLetter = new Map<number, { character: string; style: string }>();
  for (const { legs } of ships)
    for (const leg of legs)
      if (leg.kind === 'smoke' && leg.character !== '') styleOfLetter.set(leg.letterIndex, { character: leg.character, style: leg.style });
  const counts = new Map<string, Map<string, number>>();
  for (const { character, style } of styleOfLetter.values()) {
    const styles = counts.get(character) ?? new Map<string, number>();
    counts.set(character, styles.set(style, (styles.get(style) ?? 0) + 1));
  }
  return counts;
}

function mostUsed(plan: Plan): StyleOf {
  return new Map([...styleCounts(plan)].map(([character, styles]) => [character, [...styles].sort((one, other) => other[1] - one[1])[0]![0]]));
}

function heldTo(letters: readonly DrawnLetter[], styleOf: StyleOf): DrawnLetter[] {
  return letters.map((letter) => {
    const style = styleOf.get(letter.character);
    return style === undefined ? letter : { ...letter, alternatives: letter.alternatives.filter((alternative) => alternative.style === style) };
  });
}

function stylesOf(letters: readonly DrawnLetter[], character: string): string[] {
  return letters.find((letter) => letter.character === character)?.alternatives.map(({ style }) => style) ?? [];
}

function* scaled(steps: Generator<PlanProgress, PlanResult>, from: number, to: number): Generator<PlanProgress, PlanResult> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    yield { fraction: from + (to - from) * step.value.fraction };
  }
}
