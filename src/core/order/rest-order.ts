import { restWays, type RestWays } from './rest-ways.ts';
import type { RestOrder, RestProblem, RestRule, RestStroke } from './rest-of-flight.ts';

/** Tables grow by two with each stroke: 12 take some tens of milliseconds. */
const MOST_STROKES = 12;
/** Less than this is lost in how ways are flown: at the desk 12 changes that promised 3 to 8 s cost 9 s each. */
const LEAST_SAVED_SECONDS = 8;

/**
 * The quickest order and directions of all strokes that are left, from where the ship is: exact, by dynamic programming over
 * sets of strokes (Held and Karp 1962), closed ones from six starts. Null for more than 12 strokes, and where it saves under 8 s.
 */
export function orderOfRest(problem: RestProblem): RestOrder | null {
  const { strokes, rule, lettersBegun } = problem;
  if (strokes.length === 0 || strokes.length > MOST_STROKES) return null;
  const rest = restWays(problem);
  const allows = ruleOf(strokes, rule, lettersBegun);
  const order = solvedInSets(rest, strokes.length, allows)((stroke) => allows(0, stroke));
  return order.savedSeconds >= LEAST_SAVED_SECONDS ? order : null;
}

/**
 * For each stroke that is left the quickest order that begins with it, in the strokes' given order. What follows the first is bound
 * as always. Exact up to 12 strokes; of more the others keep their order, and directions alone are chosen.
 */
export function ordersByFirst(problem: RestProblem): RestOrder[] {
  const { strokes, rule, lettersBegun } = problem;
  const rest = restWays(problem);
  const indexes = strokes.map((_, index) => index);
  if (strokes.length > MOST_STROKES) return indexes.map((first) => solvedInOrder(rest, [first, ...indexes.filter((index) => index !== first)]));
  const beginningWith = solvedInSets(rest, strokes.length, ruleOf(strokes, rule, lettersBegun));
  return indexes.map((first) => beginningWith((stroke) => stroke === first));
}

/** The quickest order of all that a rule allows, once it is said which strokes may be the first. */
function solvedInSets(rest: RestWays, count: number, allows: (set: number, stroke: number) => boolean): (mayBegin: (stroke: number) => boolean) => RestOrder {
  const { ways, between, first } = rest;
  const sets = 1 << count;
  // least[set * ways + way]: the quickest end of what is left once the strokes of a set are flown, the last of them by that way.
  const least = new Float64Array(sets * ways.length).fill(Infinity);
  const following = new Int16Array(sets * ways.length).fill(-1);
  least.fill(0, (sets - 1) * ways.length);
  for (let set = sets - 2; set > 0; set -= 1) {
    const nexts = ways.flatMap(({ stroke }, way) => (((set >> stroke) & 1) === 0 && allows(set, stroke) ? [way] : []));
    ways.forEach(({ stroke }, way) => {
      if (((set >> stroke) & 1) === 0) return;
      for (const next of nexts) {
        const to = ways[next]!;
        const seconds = between[way]![next]! + to.seconds + least[(set | (1 << to.stroke)) * ways.length + next]!;
        if (seconds >= least[set * ways.length + way]!) continue;
        least[set * ways.length + way] = seconds;
        following[set * ways.length + way] = next;
      }
    });
  }
  return (mayBegin) => {
    const whole = ways.map(({ stroke, seconds }, way) => (mayBegin(stroke) ? first[way]! + seconds + least[(1 << stroke) * ways.length + way]! : Infinity));
    const chosen = [whole.indexOf(Math.min(...whole))];
    for (let set = 1 << ways[chosen[0]!]!.stroke; set < sets - 1; set |= 1 << ways[chosen.at(-1)!]!.stroke) {
      chosen.push(following[set * ways.length + chosen.at(-1)!]!);
    }
    return rest.orderOf(chosen);
  };
}

/** Strokes one after another in a given order, each by its best way. */
function solvedInOrder(rest: RestWays, order: readonly number[]): RestOrder {
  const { ways, between, first } = rest;
  let after: { readonly chosen: readonly number[]; readonly seconds: number }[] = [{ chosen: [], seconds: 0 }];
  for (const stroke of order.toReversed()) {
    after = ways.flatMap((way, index) => {
      if (way.stroke !== stroke) return [];
      const led = after.map(({ chosen, seconds }) => ({ chosen: [index, ...chosen], seconds: way.seconds + seconds + (between[index]![chosen[0]!] ?? 0) }));
      return [led.reduce((best, one) => (one.seconds < best.seconds ? one : best))];
    });
  }
  return rest.orderOf(after.reduce((best, one) => (first[one.chosen[0]!]! + one.seconds < first[best.chosen[0]!]! + best.seconds ? one : best)).chosen);
}

/** Whether a stroke may follow a set of strokes. */
function ruleOf(strokes: readonly RestStroke[], rule: RestRule, lettersBegun: readonly number[]): (set: number, stroke: number) => boolean {
  if (rule === 'any') return () => true;
  const bound = strokes.map(({ letterIndex }) => !lettersBegun.includes(letterIndex));
  const setOf = (letterIndex: number): number => strokes.reduce((set, one, index) => (one.letterIndex === letterIndex ? set | (1 << index) : set), 0);
  // Letters are finished in the order in which their last strokes were to be flown.
  const turns = strokes.map(({ letterIndex }) => strokes.findLastIndex((one) => one.letterIndex === letterIndex));
  const before = strokes.map((_, index) =>
    strokes.reduce((set, _one, other) => (bound[other]! && turns[other]! < turns[index]! ? set | (1 << other) : set), 0),
  );
  const own = strokes.map(({ letterIndex }) => setOf(letterIndex));
  return (set, stroke) => {
    if (!bound[stroke]!) return true;
    const finishes = ((set | (1 << stroke)) & own[stroke]!) === own[stroke]!;
    return (rule === 'finished-in-turn' && !finishes) || (set & before[stroke]!) === before[stroke]!;
  };
}
