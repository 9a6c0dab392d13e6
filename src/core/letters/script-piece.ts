import { type BeltSketch, movedBelt } from './belt.ts';
import { charactersOf } from './drawable-text.ts';
import type { ScriptLetter } from './script-letters.ts';

/**
 * A word's small letters cut where the smoke goes off between two of them.
 *
 * `anna` is `a`, `n`, `na`: the smoke stays on from the second n into the ring of the a.
 */
export function scriptPieces(word: readonly string[], letterOf: (character: string) => ScriptLetter | null): string[] {
  return word.reduce<string[]>((pieces, character, index) => {
    const before = letterOf(word[index - 1] ?? '');
    const joins = before !== null && before.footHeights !== null && letterOf(character)?.entersHeights != null;
    return joins ? [...pieces.slice(0, -1), `${pieces.at(-1) ?? ''}${character}`] : [...pieces, character];
  }, []);
}

/**
 * A piece's strokes and where the next piece begins, in letter heights from its own left; null without a drawing.
 */
export function scriptPiece(
  piece: string,
  letterOf: (character: string) => ScriptLetter | null,
): { readonly sketches: readonly BeltSketch[]; readonly advanceHeights: number } | null {
  const sketches: BeltSketch[] = [];
  let footHeights: number | null = null;
  let xHeights = 0;
  let advanceHeights = 0;
  for (const character of charactersOf(piece)) {
    const letter = letterOf(character);
    if (letter === null) return null;
    if (footHeights !== null) xHeights = footHeights + (letter.entersHeights ?? 0);
    const [first, ...others] = letter.strokes.map((sketch) => movedBelt(sketch, xHeights));
    const before = footHeights === null ? undefined : sketches.pop();
    if (first !== undefined) sketches.push(before === undefined ? first : joinedBelt(before, first), ...others);
    sketches.unshift(...(letter.marks ?? []).map((sketch) => movedBelt(sketch, xHeights)));
    footHeights = letter.footHeights === null ? null : xHeights + letter.footHeights;
    advanceHeights = xHeights + letter.advanceHeights;
  }
  return { sketches, advanceHeights };
}

/** One belt that goes on from the first's last pulley to the second's first curve or, without one, its end. */
function joinedBelt(first: BeltSketch, second: BeltSketch): BeltSketch {
  const pulleys = second.begins.kind === 'point' ? second.pulleys.slice(1) : second.pulleys;
  return { pulleys: [...first.pulleys, ...pulleys], begins: first.begins, ends: second.ends };
}
