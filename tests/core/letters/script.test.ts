import { describe, expect, it } from 'vitest';
import { joinedPieces } from '../../../src/core/letters/script-glyph.ts';
import { letterPathEnd } from '../../../src/core/letters/letter-path.ts';
import { type TextLayout, typeset } from '../../../src/core/letters/typeset.ts';

const SHIP = { heightMetres: 1200, turnRadiusMetres: 293, hand: 'joined' } as const;

function joined(text: string): TextLayout {
  const result = typeset(text, SHIP);
  if (!result.ok) throw new Error(result.reason);
  return result.layout;
}
const strokesOf = (text: string) => joined(text).letters.flatMap(({ alternatives }) => alternatives[0]!.strokes);

describe('the joined hand', () => {
  it('keeps each word’s capital and cuts the rest where the smoke goes off', () => {
    expect(joinedPieces('ANNA')).toEqual(['A', 'n', 'na']);
    expect(joinedPieces('HELP ME')).toEqual(['H', 'e', 'l', 'p', ' ', 'M', 'e']);
    expect(joined('ANNA').letters.map(({ character }) => character)).toEqual(['A', 'n', 'na']);
  });

  it('writes from one letter into the next in one stroke', () => {
    // n: stem, and arch that goes on round the ring of the a; then the a's stem.
    expect(joined('ANNA').letters.at(-1)!.alternatives[0]!.strokes).toHaveLength(3);
    expect(strokesOf('ANNA')).toHaveLength(2 + 2 + 3);
  });

  it('leaves sky from a foot to the letter after it, where no smoke goes on', () => {
    const [, first, last] = joined('ANNA').letters;
    const foot = letterPathEnd(first!.alternatives[0]!.strokes.at(-1)!.path);
    const stem = last!.alternatives[0]!.strokes[0]!.path.start;
    expect(foot.yMetres).toBeCloseTo(letterPathEnd(last!.alternatives[0]!.strokes.at(-1)!.path).yMetres, 3);
    expect(stem.xMetres - foot.xMetres).toBeCloseTo(0.18 * SHIP.heightMetres, 3);
  });

  it('has every letter of the alphabet, for every ship that the capitals take, no curve tighter than the ship', () => {
    for (const radius of [150, 293, 380]) {
      for (const text of ['XABCDEFGHIJKLM', 'XNOPQRSTUVWXYZ']) {
        const result = typeset(text, { ...SHIP, turnRadiusMetres: radius });
        if (!result.ok) throw new Error(result.reason);
        const small = result.layout.letters.slice(1);
        expect(small.map(({ character }) => character).join('')).toBe(text.slice(1).toLowerCase());
        const tightest = Math.max(
          ...small.flatMap(({ alternatives }) => alternatives[0]!.strokes.flatMap(({ path }) => path.segments.map((one) => Math.abs(one.curvaturePerMetre)))),
        );
        expect(1 / tightest).toBeGreaterThan(radius - 1e-6);
      }
    }
  });

  it('writes accents over its small letters, and what it has no letter for as ever', () => {
    const [, , tilde] = joined('JOÃO').letters;
    expect(tilde!.character).toBe('ão');
    expect(strokesOf('JOÃO')).toHaveLength(strokesOf('JOAO').length + 1);
    expect(joined('NO. 7').letters.map(({ character }) => character)).toEqual(['N', 'o', '.', '7']);
    expect(typeset('AB漢', SHIP)).toMatchObject({ ok: false, character: '漢' });
  });
});
