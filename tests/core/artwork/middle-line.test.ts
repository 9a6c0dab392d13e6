import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { outlinesFromPathData } from '../../../src/core/artwork/artwork-outline.ts';
import { middleLine } from '../../../src/core/artwork/middle-line.ts';

interface Point {
  readonly x: number;
  readonly y: number;
}

/** The points of each line of path data, y down as it is written there. */
function linesOf(pathData: string | null): Point[][] {
  if (pathData === null) throw new Error('no line');
  const read = outlinesFromPathData(pathData);
  if (!read.ok) throw new Error(read.reason);
  return read.outlines.map(({ pieces }) => pieces.flatMap(({ xs, ys }) => xs.map((x, index) => ({ x, y: -(ys[index] ?? 0) }))));
}

const lengthOf = (line: readonly Point[]): number =>
  line.reduce((sum, { x, y }, index) => sum + (index === 0 ? 0 : Math.hypot(x - (line[index - 1]?.x ?? 0), y - (line[index - 1]?.y ?? 0))), 0);

function fromSegment({ x, y }: Point, from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const along = Math.min(1, Math.max(0, ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - from.x - along * dx, y - from.y - along * dy);
}

const fromLine = (point: Point, line: readonly Point[]): number => Math.min(...line.slice(1).map((to, index) => fromSegment(point, line[index] ?? to, to)));

/** A line drawn with a round pen: every piece a bar, every corner a disc, all turning the same way (nonzero rule). */
function thick(line: readonly Point[], width: number): string {
  const half = width / 2;
  const discs = line.map(({ x, y }) => `M${x + half} ${y}A${half} ${half} 0 1 1 ${x - half} ${y}A${half} ${half} 0 1 1 ${x + half} ${y}Z`);
  const bars = line.slice(1).map((to, index) => {
    const from = line[index] ?? to;
    const apart = Math.hypot(to.x - from.x, to.y - from.y);
    const [nx, ny] = [(-(to.y - from.y) / apart) * half, ((to.x - from.x) / apart) * half];
    return `M${from.x - nx} ${from.y - ny}L${to.x - nx} ${to.y - ny}L${to.x + nx} ${to.y + ny}L${from.x + nx} ${from.y + ny}Z`;
  });
  return [...discs, ...bars].join('');
}

/** Shapes whose medial axis is known (Blum, A transformation for extracting new descriptors of shape, 1967, from memory). */
describe('a shape drawn like a thick line', () => {
  test('that is a bar is one line through its middle from end to end', () => {
    const [line = [], ...more] = linesOf(middleLine('M0 0H100V10H0Z'));
    expect(more).toEqual([]);
    for (const { y } of line) expect(Math.abs(y - 5)).toBeLessThan(0.4);
    expect(Math.min(...line.map(({ x }) => x))).toBeCloseTo(0, 0);
    expect(Math.max(...line.map(({ x }) => x))).toBeCloseTo(100, 0);
  });

  test('that is a ring is one closed line half way between its edges', () => {
    const pathData = middleLine('M100 50A50 50 0 1 1 0 50A50 50 0 1 1 100 50ZM90 50A40 40 0 1 0 10 50A40 40 0 1 0 90 50Z');
    expect(pathData).toMatch(/Z$/);
    const [line = [], ...more] = linesOf(pathData);
    expect(more).toEqual([]);
    for (const { x, y } of line) expect(Math.abs(Math.hypot(x - 50, y - 50) - 45)).toBeLessThan(0.6);
  });

  test('that is a cross is two straight lines, not four', () => {
    const lines = linesOf(middleLine('M45 0H55V45H100V55H55V100H45V55H0V45H45Z'));
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(lengthOf(line)).toBeCloseTo(100, -0.5);
    for (const { x, y } of lines.flat()) expect(Math.min(Math.abs(x - 50), Math.abs(y - 50))).toBeLessThan(0.6);
  });

  test.each(['M0 0H48V-2H52V0H100V10H0Z', 'M0 0H3V-3H7V0H100V10H7V13H3V10H0Z'])('has no line for a bump on its edge: %s', (pathData) => {
    const [line = [], ...more] = linesOf(middleLine(pathData));
    expect(more).toEqual([]);
    expect(lengthOf(line)).toBeCloseTo(100, -0.5);
  });

  test('that ends aslant is led straight on to its end, not into its corner', () => {
    // A slanted bar cut off level, like the foot of an A.
    const [line = []] = linesOf(middleLine('M0 100L40 0H52L12 100Z'));
    for (const { x, y } of line) expect(Math.abs(x - (6 + 0.4 * (100 - y)))).toBeLessThan(1.2);
    expect(Math.max(...line.map(({ y }) => y))).toBeGreaterThan(99);
  });

  // A corner of 63 degrees is smoothed by up to 0.43 of the width.
  test('follows its line within half its width, whatever that is, and reaches all of it', () => {
    const point = fc.record({ turn: fc.double({ min: -1.1, max: 1.1, noNaN: true }), length: fc.double({ min: 60, max: 110, noNaN: true }) });
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 4 }), fc.double({ min: 6, max: 12, noNaN: true }), (steps, width) => {
        let [at, radians]: [Point, number] = [{ x: 0, y: 0 }, 0];
        const line = [at];
        for (const { turn, length } of steps) {
          radians += turn;
          at = { x: at.x + length * Math.cos(radians), y: at.y + length * Math.sin(radians) };
          line.push(at);
        }
        const far = line.some((one, index) =>
          line.slice(index + 2).some((other, more) => fromSegment(one, other, line[index + 1 + more] ?? other) < 2.5 * width),
        );
        fc.pre(!far);
        const drawn = linesOf(middleLine(thick(line, width)));
        expect(drawn).toHaveLength(1);
        for (const each of drawn.flat())
          expect(
            Math.min(fromLine(each, line), Math.abs(Math.hypot(each.x - at.x, each.y - at.y) - width / 2), Math.abs(Math.hypot(each.x, each.y) - width / 2)),
          ).toBeLessThan(0.5 * width);
        for (const each of line) expect(fromLine(each, drawn[0] ?? [])).toBeLessThan(0.5 * width);
      }),
      { numRuns: 40, endOnFailure: true },
    );
  });
});

describe('a shape that is no line keeps its edge', () => {
  const star = Array.from(
    { length: 10 },
    (_, index) => `${(index % 2 ? 20 : 50) * Math.sin((index * Math.PI) / 5)} ${(index % 2 ? 20 : 50) * Math.cos((index * Math.PI) / 5)}`,
  );
  test.each([
    ['a disc', 'M100 50A50 50 0 1 1 0 50A50 50 0 1 1 100 50Z'],
    ['a square', 'M0 0H100V100H0Z'],
    ['a star', `M${star.join('L')}Z`],
    ['nothing', ''],
    ['a point', 'M1 1Z'],
    ['what cannot be read', 'M0 0L1'],
  ])('%s', (_, pathData) => expect(middleLine(pathData)).toBeNull());

  test('whatever is typed, it never throws', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[MLHVCZA0-9 .-]{0,40}$/), (pathData) => void middleLine(pathData)),
      { numRuns: 300 },
    );
  });
});
