import { fc } from '../../property.ts';
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { glyphAlternatives } from '../../../src/core/letters/alphabet.ts';
import { TIGHTEST_RADIUS_HEIGHTS } from '../../../src/core/letters/character-drawing.ts';
import { smallestHeight, smallestHeightMetres } from '../../../src/core/letters/flyable-height.ts';
import type { Glyph, GlyphStroke } from '../../../src/core/letters/glyph.ts';
import { letterPathFromGlyph } from '../../../src/core/letters/glyph-path.ts';
import { letterPathEnd, letterPathLengthMetres, type LetterPose } from '../../../src/core/letters/letter-path.ts';
import { outlinePoints } from '../../../src/core/letters/outline.ts';
import { signedRadians } from '../../../src/core/units/angle.ts';

const PLAIN = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789!?.,'-&+#♥→★"];
const SIGNS = [...':"()/=*%$€@¡¿ÆŒÞ☺⚡♪○'];
const ACCENTED = [...'ÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝŸČŠŽĚŘĄĘŁŃŚŹŻŐŰĂȘȚĐĪŌŪĞİ'];
const ALL = [...PLAIN, ...ACCENTED, ...SIGNS];

const end = (stroke: GlyphStroke): LetterPose => letterPathEnd(letterPathFromGlyph(stroke, 1, 0, 0));
const tightest = (glyph: Glyph): number =>
  Math.min(...glyph.strokes.flatMap(({ segments }) => segments.map(({ curvaturePerHeight }) => 1 / Math.abs(curvaturePerHeight))));

describe('what there is', () => {
  test.each(ALL)('%s is drawn, crisp first', (character) => {
    expect(glyphAlternatives(character, 0.244)[0]).toMatchObject({ character, style: 'crisp' });
  });

  test('characters without a drawing give none', () => {
    for (const character of ['', '漢', 'я', '☂', 'A\u20dd', 'toString', '__proto__', '\n', ' ', 'AB']) expect(glyphAlternatives(character, 0.25)).toEqual([]);
  });

  test('small letters and decomposed accents are drawn as the composed capital', () => {
    expect(glyphAlternatives('e\u0301', 0.25)).toEqual(glyphAlternatives('É', 0.25));
    expect(glyphAlternatives('É', 0.25)[0]?.strokes).toHaveLength(5);
  });

  test('a turn radius that is none is the caller’s mistake', () => {
    for (const radius of [0, -1, NaN, Infinity]) expect(() => glyphAlternatives('A', radius)).toThrow(RangeError);
    expect(() => glyphAlternatives('A', 0.25, 0.9)).toThrow('depthStretch 0.9');
  });
});

describe('every drawing', () => {
  const radius = fc.double({ min: 0.02, max: 0.6, noNaN: true });
  const stretch = fc.constantFrom(1, 1, 1.2, 1.41, 2);

  test('is made of lines and arcs no tighter than 0.25 heights, and rounded corners no tighter than the ship turns', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ALL), radius, stretch, (character, turnRadiusHeights, depthStretch) => {
        const [crisp, ...others] = glyphAlternatives(character, turnRadiusHeights, depthStretch);
        if (crisp === undefined) throw new Error(character);
        expect(tightest(crisp)).toBeGreaterThanOrEqual(TIGHTEST_RADIUS_HEIGHTS - 1e-12);
        // Whatever is tighter than the ship turns is tighter in the crisp drawing already.
        for (const other of others) expect(tightest(other)).toBeGreaterThanOrEqual(Math.min(tightest(crisp), Math.max(0.25, turnRadiusHeights)) - 1e-12);
        for (const { strokes } of [crisp, ...others]) {
          expect(strokes.length).toBeGreaterThan(0);
          for (const { segments } of strokes) {
            expect(segments.length).toBeGreaterThan(0);
            for (const { lengthHeights, curvaturePerHeight } of segments) {
              expect(lengthHeights).toBeGreaterThan(0);
              expect(lengthHeights * Math.abs(curvaturePerHeight)).toBeLessThanOrEqual(2 * Math.PI + 1e-12);
            }
          }
        }
      }),
    );
  });

  test('closes to 1e-9 where it says so, and nowhere else', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ALL), radius, stretch, (character, turnRadiusHeights, depthStretch) => {
        for (const stroke of glyphAlternatives(character, turnRadiusHeights, depthStretch).flatMap(({ strokes }) => strokes)) {
          const last = end(stroke);
          const apart = Math.hypot(last.xMetres - stroke.start.xHeights, last.yMetres - stroke.start.yHeights);
          const turned = Math.abs(signedRadians(last.directionRadians - stroke.start.directionRadians));
          expect(apart < 1e-9 && turned < 1e-9).toBe(stroke.closed);
        }
      }),
    );
  });

  test('shares its width with the other drawings of its character, and fills it', () => {
    for (const character of ALL) {
      const glyphs = glyphAlternatives(character, 0.25);
      expect(new Set(glyphs.map(({ widthHeights }) => widthHeights)).size).toBe(1);
      expect(new Set(glyphs.map(({ style }) => style)).size).toBe(glyphs.length);
    }
    for (const character of PLAIN) {
      for (const [turn, glyph] of [0.25, 0.3, 0.4, 0.6].flatMap((radii) => glyphAlternatives(character, radii).map((each) => [radii, each] as const))) {
        const x = outlinePoints([glyph]).map(({ xHeights }) => xHeights);
        // The flag of 1 and the tail of Q may stand out by 0.14; letters grow wider with the ship's turn, at most by half.
        expect(Math.min(...x)).toBeGreaterThan(-0.17);
        if (turn > 0.25) continue;
        expect(Math.min(...x)).toBeLessThan(0.09);
        expect(Math.abs(Math.max(...x) - glyph.widthHeights)).toBeLessThan(0.15);
      }
    }
  });

  test('of a capital or digit runs from the baseline to the top', () => {
    for (const character of 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789') {
      for (const depthStretch of [1, 1.3]) {
        for (const glyph of [0.25, 0.33, 0.5].flatMap((turn) => glyphAlternatives(character, turn, depthStretch))) {
          const y = outlinePoints([glyph]).map(({ yHeights }) => yHeights);
          expect(Math.min(...y)).toBeCloseTo(character === 'Q' && glyph.style === 'crisp' ? -0.06 * depthStretch : 0, 2);
          expect(Math.max(...y)).toBeCloseTo(depthStretch, 2);
        }
      }
    }
  });
});

/** US Navy training manual Illustrator Draftsman, "Letter strokes": uprights and slants towards oneself, level strokes from left to right. */
test('straight strokes of crisp drawings run downwards or to the right, as a draughtsman letters them', () => {
  for (const character of ALL) {
    for (const { start, segments } of glyphAlternatives(character, 0.25)[0]?.strokes ?? []) {
      // A star is drawn without lifting the pen.
      if (character === '★' || segments.length > 1 || segments[0]?.curvaturePerHeight !== 0) continue;
      const down = -Math.sin(start.directionRadians);
      expect(down > 1e-9 || Math.cos(start.directionRadians) > 1e-9, character).toBe(true);
    }
  }
});

/** The same manual, uprights before level strokes; Engineering Aid, "Straight-line capitals": the bar of T and the outer strokes of N first. */
test('crisp strokes come in a draughtsman’s order', () => {
  const upright = ({ start, segments }: GlyphStroke): boolean =>
    segments.length === 1 && segments[0]?.curvaturePerHeight === 0 && Math.abs(Math.cos(start.directionRadians)) < 1e-9;
  const level = ({ start, segments }: GlyphStroke): boolean =>
    segments.length === 1 && segments[0]?.curvaturePerHeight === 0 && Math.abs(Math.sin(start.directionRadians)) < 1e-9;
  const crisp = (character: string): readonly GlyphStroke[] => glyphAlternatives(character, 0.25)[0]?.strokes ?? [];
  for (const character of 'EFHL') expect(crisp(character).findLastIndex(upright)).toBeLessThan(crisp(character).findIndex(level));
  expect(crisp('T').map(level)).toEqual([true, false]);
  for (const character of 'NM')
    expect(crisp(character).map(upright)).toEqual([
      true,
      true,
      ...crisp(character)
        .slice(2)
        .map(() => false),
    ]);
});

describe('the limits', () => {
  test('S needs 1,172 m at a radius of 293 m, I any height; the limiting stroke is named', () => {
    const [letterS] = glyphAlternatives('S', 0.244);
    const [letterI] = glyphAlternatives('I', 0.244);
    const [five] = glyphAlternatives('5', 0.244);
    if (letterS === undefined || letterI === undefined || five === undefined) throw new Error('missing');
    expect(smallestHeightMetres(letterS, 293)).toBeCloseTo(1172, 9);
    expect(smallestHeight(letterI, 293)).toEqual({ heightMetres: 0, strokeIndex: null, radiusHeights: null });
    expect(smallestHeight(five, 293)).toMatchObject({ strokeIndex: 2, radiusHeights: 0.3 });
    expect(() => smallestHeight(letterI, 0)).toThrow(RangeError);
  });

  test('every character can be written at 1,200 m by a ship that turns on 293 m', () => {
    for (const character of ALL) {
      for (const glyph of glyphAlternatives(character, 293 / 1200)) expect(smallestHeightMetres(glyph, 293)).toBeLessThanOrEqual(1200);
    }
  });

  test('rounded styles give way one by one as the ship turns wider, crisp stays', () => {
    const styles = (radius: number): string[] => glyphAlternatives('E', radius).map(({ style }) => style);
    expect(styles(0.25)).toEqual(['crisp', 'foot', 'rounded']);
    expect(styles(0.55)).toEqual(['crisp', 'foot']);
    expect(styles(1.1)).toEqual(['crisp']);
  });
});

describe('pairs that readers confuse', () => {
  // Somewhere the two drawings must part by more than a stroke is wide, whichever edge or middle they are laid on.
  test.each(['OQ', 'OD', 'O0', 'Q0', 'D0', 'I1', 'S5', 'Z2', 'B8', 'UV', 'GC', 'G6', 'C6', 'E6', 'HN', '17'])('%s are drawn apart', (pair) => {
    const [first, second] = [...pair];
    for (const a of glyphAlternatives(first ?? '', 0.25)) {
      for (const b of glyphAlternatives(second ?? '', 0.25)) {
        for (const share of [0, 0.5, 1]) expect(partedHeights(a, b, share)).toBeGreaterThan(0.1);
      }
    }
  });

  /** The Hausdorff distance of two drawings laid on each other at a share of their widths. */
  function partedHeights(a: Glyph, b: Glyph, share: number): number {
    const first = outlinePoints([a]);
    const second = outlinePoints([b]).map((point) => ({ ...point, xHeights: point.xHeights + share * (a.widthHeights - b.widthHeights) }));
    const farthest = (from: typeof first, to: typeof first): number =>
      Math.max(...from.map((p) => Math.min(...to.map((q) => Math.hypot(p.xHeights - q.xHeights, p.yHeights - q.yHeights)))));
    return Math.max(farthest(first, second), farthest(second, first));
  }
});

/** Rewritten only on purpose: `REWRITE_GOLDEN=alphabet npx vitest run tests/core/letters/alphabet.test.ts`. */
test('the drawings are those of the golden file', () => {
  const file = new URL('alphabet.golden.txt', import.meta.url);
  const drawings = ALL.flatMap((character) => glyphAlternatives(character, 0.25).map(summary)).join('\n') + '\n';
  if (process.env['REWRITE_GOLDEN'] === 'alphabet' && process.env['CI'] === undefined) writeFileSync(file, drawings);
  expect(drawings).toBe(readFileSync(file, 'utf8'));
});

/** Character, style, width; then per stroke its start, end, length and, where it turns, tightest radius. */
function summary(glyph: Glyph): string {
  const strokes = glyph.strokes.map((stroke) => {
    const last = end(stroke);
    const lengthHeights = letterPathLengthMetres(letterPathFromGlyph(stroke, 1, 0, 0));
    const radius = tightest({ ...glyph, strokes: [stroke] });
    const place = (x: number, y: number): string => `${(x + 0).toFixed(2)},${(y + 0).toFixed(2)}`.replaceAll('-0.00', '0.00');
    const way = stroke.closed ? 'round from' : `to ${place(last.xMetres, last.yMetres)} from`;
    return `${way} ${place(stroke.start.xHeights, stroke.start.yHeights)} long ${lengthHeights.toFixed(3)}${Number.isFinite(radius) ? ` turns ${radius.toFixed(2)}` : ''}`;
  });
  return `${glyph.character} ${glyph.style} ${glyph.widthHeights}: ${strokes.join('; ')}`;
}
