import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { letterPathLengthMetres, letterPoseAt, type LetterPoint } from '../../../src/core/letters/letter-path.ts';
import { HANDS } from '../../../src/core/letters/hand.ts';
import { type LaidOutLetter, type TextLayout, typeset, type TypesetOptions } from '../../../src/core/letters/typeset.ts';
import { processorMilliseconds } from '../../processor-time.ts';

const COMMON: TypesetOptions = { heightMetres: 1200, turnRadiusMetres: 293 };

function laidOut(text: string, options: Partial<TypesetOptions> = {}): TextLayout {
  const result = typeset(text, { ...COMMON, ...options });
  if (!result.ok) throw new Error(result.reason);
  return result.layout;
}

function points({ alternatives }: LaidOutLetter): LetterPoint[] {
  return alternatives.flatMap(({ strokes }) =>
    strokes.flatMap(({ path }) => {
      const lengthMetres = letterPathLengthMetres(path);
      const steps = Math.ceil(lengthMetres / 30);
      return Array.from({ length: steps + 1 }, (_, step) => letterPoseAt(path, (lengthMetres * step) / steps));
    }),
  );
}

function gapMetres(left: LaidOutLetter | undefined, right: LaidOutLetter | undefined): number {
  if (left === undefined || right === undefined) throw new Error('no such letter');
  const others = points(right);
  return Math.min(...points(left).map((p) => Math.min(...others.map((q) => Math.hypot(p.xMetres - q.xMetres, p.yMetres - q.yMetres)))));
}

const CHARACTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789!?.,'-&+#♥→★ÉÅŐÇ"];
const word = fc.array(fc.constantFrom(...CHARACTERS), { minLength: 2, maxLength: 6 }).map((characters) => characters.join(''));

describe('one line', () => {
  test('two stems stand 0.3 apart: HI is 1.0 heights wide', () => {
    expect(laidOut('HI').widthMetres).toBeCloseTo(1200, 6);
    expect(laidOut('HI').depthMetres).toBeCloseTo(1200, 6);
    expect(laidOut('HI', { spacingHeights: 0.5 }).widthMetres).toBeCloseTo(1440, 6);
  });

  test('is centred on the middle of the frame, letters counted without the spaces', () => {
    const { letters, widthMetres } = laidOut('  fly  joy ');
    expect(letters.map(({ letterIndex, character }) => `${letterIndex}${character}`).join(' ')).toBe('0F 1L 2Y 3J 4O 5Y');
    expect(letters[0]?.leftMetres).toBeCloseTo(-widthMetres / 2, 6);
    expect(letters.at(-1)?.rightMetres).toBeCloseTo(widthMetres / 2, 6);
    const y = letters.flatMap(points).map(({ yMetres }) => yMetres);
    expect([Math.min(...y), Math.max(...y)]).toEqual([expect.closeTo(-600, 0), expect.closeTo(600, 0)]);
  });

  test('letters that fall away from each other move together, stems do not', () => {
    const gap = (text: string): number => {
      const [left, right] = laidOut(text, { hand: 'capitals' }).letters;
      return (right?.leftMetres ?? NaN) - (left?.rightMetres ?? NaN);
    };
    expect(gap('HH')).toBeCloseTo(360, 0);
    expect(gap('OO')).toBeLessThan(gap('HH') - 10);
    expect(gap('AV')).toBeLessThan(gap('OO') - 50);
    expect(gap('LT')).toBeLessThan(gap('OO') - 50);
  });

  test('neighbours are never nearer than 0.15 nor farther than 0.7 heights, whatever is asked', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(word, fc.double({ min: 0, max: 2, noNaN: true }), fc.constantFrom(1, 1.3), (text, spacingHeights, depthStretch) => {
        const { letters } = laidOut(text, { spacingHeights, depthStretch });
        expect(letters).toHaveLength([...text].length);
        for (let index = 1; index < letters.length; index++) {
          expect(gapMetres(letters[index - 1], letters[index]) / 1200).toBeGreaterThan(0.15 - 0.02);
          const aside = (letters[index]?.leftMetres ?? NaN) - (letters[index - 1]?.rightMetres ?? NaN);
          expect(aside / 1200).toBeLessThan(0.7 + 0.001);
          expect(aside).toBeGreaterThan(-0.001);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('letters of the same depth asked far apart stand 0.7 apart where they are nearest', () => {
    for (const text of ['HH', 'OO', 'LT', 'AV', 'MW', '58']) {
      const { letters } = laidOut(text, { spacingHeights: 2 });
      expect(gapMetres(letters[0], letters[1]) / 1200, text).toBeLessThan(0.72);
    }
  });

  test('a wider gap never makes a narrower text, and letters keep their reading order', () => {
    fc.assert(
      fc.property(word, fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.3, noNaN: true }), (text, spacingHeights, more) => {
        const narrow = laidOut(text, { spacingHeights });
        const wide = laidOut(text, { spacingHeights: spacingHeights + more });
        expect(wide.widthMetres).toBeGreaterThanOrEqual(narrow.widthMetres - 1.5 * text.length);
        for (let index = 1; index < narrow.letters.length; index++) {
          expect(narrow.letters[index]?.leftMetres).toBeGreaterThan(narrow.letters[index - 1]?.leftMetres ?? Infinity);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('words part wider than letters', () => {
    const { letters } = laidOut('HI HI');
    expect((letters[2]?.leftMetres ?? 0) - (letters[1]?.rightMetres ?? 0)).toBeCloseTo(0.95 * 1200, 6);
  });

  test('scales with the height', () => {
    expect(laidOut('SKY', { heightMetres: 2400, turnRadiusMetres: 586 }).widthMetres).toBeCloseTo(2 * laidOut('SKY').widthMetres, 6);
  });
});

describe('two lines', () => {
  test('stand over each other, each centred', () => {
    const { letters, lineCount, depthMetres } = laidOut('HAH\r\nI');
    expect(lineCount).toBe(2);
    expect(depthMetres).toBeCloseTo(2.5 * 1200, 6);
    expect(letters.map(({ line }) => line)).toEqual([0, 0, 0, 1]);
    expect(letters[3]?.leftMetres).toBeCloseTo(0, 6);
    expect(Math.max(...points(letters[3] as LaidOutLetter).map(({ yMetres }) => yMetres))).toBeCloseTo(-300, 6);
    expect(Math.max(...points(letters[0] as LaidOutLetter).map(({ yMetres }) => yMetres))).toBeCloseTo(1500, 6);
  });

  test('an accent below pushes the lines apart', () => {
    expect(laidOut('HI\nÉH').depthMetres).toBeCloseTo((2.5 + 0.44) * 1200, 0);
  });
});

describe('alternatives', () => {
  const styles = (text: string, options: Partial<TypesetOptions> = {}): string[] =>
    laidOut(text, options).letters[0]?.alternatives.map(({ style }) => style) ?? [];

  test('are those of the hand', () => {
    expect(styles('E')).toEqual(['crisp', 'foot', 'rounded']);
    expect(styles('E', { hand: 'capitals' })).toEqual(['crisp']);
    expect(styles('E', { hand: 'round-capitals' })).toEqual(['foot', 'rounded']);
    expect(styles('T', { hand: 'round-capitals' })).toEqual(['crisp']);
    expect(styles('N', { hand: 'round-capitals' })).toEqual(['open']);
  });

  test('of letters smaller than their own curves are those for small letters, and only then', () => {
    for (const hand of HANDS) {
      expect(styles('S', { hand })).toEqual(['crisp']);
      expect(styles('S', { hand, heightMetres: 1000 })).toEqual(['slanted']);
    }
    expect(laidOut('SAIL', { heightMetres: 1000 }).flyable.smallestHeightMetres).toBeLessThan(900);
    expect(styles('S', { heightMetres: 800 })).toHaveLength(1);
  });

  test('never turn tighter than the ship where the letter’s own curves do not', { timeout: 60_000 }, () => {
    const longest = (text: string, turnRadiusMetres: number): number =>
      Math.max(
        ...laidOut(text, { turnRadiusMetres }).letters.flatMap(({ alternatives }) =>
          alternatives.flatMap(({ strokes }) => strokes.flatMap(({ path }) => path.segments.map(({ curvaturePerMetre }) => Math.abs(curvaturePerMetre)))),
        ),
      );
    fc.assert(
      fc.property(fc.double({ min: 100, max: 330, noNaN: true }), (turnRadiusMetres) => {
        expect(longest('AEDKLMNUWXYQP', turnRadiusMetres) * turnRadiusMetres).toBeLessThanOrEqual(1 + 1e-9);
      }),
    );
  });

  test('closed strokes are marked', () => {
    expect(laidOut('O').letters[0]?.alternatives[0]?.strokes.map(({ closed }) => closed)).toEqual([true]);
    expect(laidOut('H').letters[0]?.alternatives[0]?.strokes.map(({ closed }) => closed)).toEqual([false, false, false]);
  });
});

describe('limits', () => {
  test('name the character that sets the smallest height', () => {
    expect(laidOut('OSLO').flyable).toEqual({ smallestHeightMetres: expect.closeTo(293 / 0.33, 9), limitingCharacter: 'S' });
    expect(laidOut('OLLO').flyable).toEqual({ smallestHeightMetres: expect.closeTo(293 / 0.4, 9), limitingCharacter: 'O' });
    expect(laidOut('HI').flyable).toEqual({ smallestHeightMetres: 0, limitingCharacter: null });
  });

  test('hold when nobody can fly the letter: it is drawn, and flyable says so', () => {
    const { letters, flyable } = laidOut('S', { turnRadiusMetres: 500 });
    expect(letters[0]?.alternatives).toHaveLength(1);
    expect(flyable.smallestHeightMetres).toBeCloseTo(500 / 0.33, 9);
  });
});

describe('what cannot be laid out says why', () => {
  test.each([
    ['', {}, 'There is no text to write. Type a word.'],
    [' \n ', {}, 'There is no text to write. Type a word.'],
    ['A\nB\nC', {}, 'The text has 3 lines; at most two can be written.'],
    ['A'.repeat(41), {}, 'The text has 41 characters; at most 40 can be written. Shorten it.'],
    ['LAKE 漢', {}, 'There is no drawing for “漢”. Leave it out or write it otherwise.'],
    ['A\u20ddB', {}, 'There is no drawing for “A\u20dd”. The nearest that has one is “A”.'],
    ['HI', { heightMetres: 0 }, 'The letters need a height above zero.'],
    ['HI', { heightMetres: NaN }, 'The letters need a height above zero.'],
    ['HI', { turnRadiusMetres: Infinity }, 'The ship does not turn: the bank must be above 0 and under 90 degrees, and the speed above zero.'],
    ['HI', { turnRadiusMetres: 0 }, 'The ship does not turn: the bank must be above 0 and under 90 degrees, and the speed above zero.'],
    ['HI', { spacingHeights: NaN }, 'The gap between letters must be a number of letter heights, 0.15 to 0.7.'],
    ['HI', { depthStretch: 3 }, 'Letters can be drawn from 1 to 2 times as deep as high.'],
  ] as const)('%j %j', (text, options, reason) => expect(typeset(text, { ...COMMON, ...options })).toMatchObject({ ok: false, reason }));

  test('the character without a drawing is named', () => expect(typeset('LAKE 漢', COMMON)).toMatchObject({ character: '漢' }));

  test('nothing a person can type makes it throw', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(typeof typeset(text, COMMON).ok).toBe('boolean');
      }),
    );
  });

  test('a text of a megabyte is answered at once', () => {
    const started = processorMilliseconds();
    expect(typeset('A\u0301'.repeat(500_000), COMMON).ok).toBe(false);
    expect(processorMilliseconds() - started).toBeLessThan(2000);
  });
});

test('typed apostrophes, dashes and a heart with its variation selector are the drawn ones', () => {
  expect(
    laidOut('i’m a–b ♥\ufe0f')
      .letters.map(({ character }) => character)
      .join(''),
  ).toBe("I'MA-B♥");
});
