import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { type Artwork, artworkFromPathData, type ArtworkOptions } from '../../../src/core/artwork/artwork.ts';
import { biarc, distanceToArc, type FitPoint } from '../../../src/core/artwork/biarc.ts';
import { type LetterPath, letterPathEnd, letterPathLengthMetres, letterPoseAt, type LetterPoint } from '../../../src/core/letters/letter-path.ts';
import { signedRadians } from '../../../src/core/units/angle.ts';
import { processorMilliseconds } from '../../processor-time.ts';

/** As drawn: nothing rounded, widened or lengthened. */
const LARGE: ArtworkOptions = { depthMetres: 3000, turnRadiusMetres: 293, mostStrayMetres: 0 };
/** As a job takes it: changed by up to 0.12 of the depth. */
const CHANGED: Partial<ArtworkOptions> = { mostStrayMetres: 360 };

function drawn(pathData: string, options: Partial<ArtworkOptions> = {}): Artwork {
  const result = artworkFromPathData(pathData, { ...LARGE, ...options });
  if (!result.ok) throw new Error(result.reason);
  return result.artwork;
}

function reasonOf(pathData: string, options: Partial<ArtworkOptions> = {}): string {
  const result = artworkFromPathData(pathData, { ...LARGE, ...options });
  return result.ok ? 'drawn' : result.reason;
}

function pointsOf(path: LetterPath): LetterPoint[] {
  const lengthMetres = letterPathLengthMetres(path);
  return Array.from({ length: 201 }, (_, step) => letterPoseAt(path, (lengthMetres * step) / 200));
}

/** How far a point is from a line through points; lines of a flat drawing are hundreds of kilometres long. */
function fromChords(line: readonly LetterPoint[], x: number, y: number): number {
  return Math.min(
    ...line.slice(1).map((to, index) => {
      const from = line[index] ?? to;
      const [dx, dy] = [to.xMetres - from.xMetres, to.yMetres - from.yMetres];
      const along = Math.min(1, Math.max(0, ((x - from.xMetres) * dx + (y - from.yMetres) * dy) / (dx * dx + dy * dy || 1)));
      return Math.hypot(x - from.xMetres - along * dx, y - from.yMetres - along * dy);
    }),
  );
}

const radii = (path: LetterPath): number[] => path.segments.map(({ curvaturePerMetre }) => 1 / curvaturePerMetre);
const CIRCLE = 'M10 0A10 10 0 0 1 -10 0A10 10 0 0 1 10 0Z';
const polygon = (corners: number): string =>
  `M${Array.from({ length: corners }, (_, index) => `${Math.cos((2 * Math.PI * index) / corners)} ${Math.sin((2 * Math.PI * index) / corners)}`).join('L')}Z`;

describe('shapes whose strokes are known', () => {
  test('a square is four lines as long as it is deep', () => {
    const { strokes, unflyable, widthMetres, flyableShare } = drawn('M0 0H10V10H0Z');
    expect(strokes.map(({ path }) => path.segments)).toEqual(
      Array.from({ length: 4 }, () => [{ lengthMetres: expect.closeTo(3000, 6), curvaturePerMetre: 0 }]),
    );
    expect({ unflyable, widthMetres, flyableShare }).toEqual({ unflyable: [], widthMetres: 3000, flyableShare: 1 });
  });

  test('its top is the drawing’s top: SVG’s y runs down', () => {
    const [stroke] = drawn('M0 0 L5 0 M0 10 L10 10').strokes;
    expect(stroke?.path.start).toEqual({ xMetres: -1500, yMetres: 1500, directionRadians: 0 });
  });

  test.each([CIRCLE, polygon(24), polygon(60)])('a circle, drawn as arcs or as a polygon, is one closed stroke that turns on 1,500 m', (pathData) => {
    const { strokes, unflyable } = drawn(pathData);
    expect(unflyable).toEqual([]);
    expect(strokes.map(({ closed }) => closed)).toEqual([true]);
    const path = strokes[0]?.path as LetterPath;
    for (const radius of radii(path)) expect(Math.abs(Math.abs(radius) - 1500)).toBeLessThan(30);
    expect(letterPathLengthMetres(path)).toBeGreaterThan(2 * Math.PI * 1500 * 0.99);
    const end = letterPathEnd(path);
    expect(Math.hypot(end.xMetres - path.start.xMetres, end.yMetres - path.start.yMetres)).toBeLessThan(1e-6);
    expect(Math.abs(signedRadians(end.directionRadians - path.start.directionRadians))).toBeLessThan(1e-9);
  });

  test('a rounded rectangle is one closed stroke, its sides exactly straight', () => {
    const { strokes } = drawn('M3 0H17A3 3 0 0 1 20 3V12A3 3 0 0 1 17 15H3A3 3 0 0 1 0 12V3A3 3 0 0 1 3 0Z');
    expect(strokes.map(({ closed }) => closed)).toEqual([true]);
    const straight = strokes[0]?.path.segments.filter(({ curvaturePerMetre }) => curvaturePerMetre === 0).map(({ lengthMetres }) => Math.round(lengthMetres));
    expect(straight?.toSorted((a, b) => a - b)).toEqual([1800, 1800, 2800, 2800]);
  });

  test('a hexagon keeps its corners, and so does an octagon', () => {
    expect(drawn(polygon(6)).strokes).toHaveLength(6);
    expect(drawn(polygon(8)).strokes).toHaveLength(8);
  });
});

describe('what cannot be flown', () => {
  test('a circle of 200 m is marked with its radius and the height that would do', () => {
    const { strokes, unflyable, flyableShare, smallestDepthMetres } = drawn(CIRCLE, { depthMetres: 400 });
    expect(strokes).toEqual([]);
    expect(flyableShare).toBe(0);
    expect(unflyable).toMatchObject([{ problem: 'too-tight', radiusMetres: expect.closeTo(200, -1), reason: 'Turns on 200 m; the ship needs 293 m.' }]);
    expect(smallestDepthMetres).toBeGreaterThan(580);
    expect(smallestDepthMetres).toBeLessThan(600);
  });

  test('only the tight part of a line is taken out, and nothing gets lost', () => {
    const { strokes, unflyable } = drawn('M0 0H30A4 4 0 0 1 30 8H0', { depthMetres: 400 });
    expect(unflyable.map(({ problem }) => problem)).toEqual(['too-tight']);
    expect(strokes).toHaveLength(2);
    const total = [...strokes, ...unflyable].reduce((sum, { path }) => sum + letterPathLengthMetres(path), 0);
    expect(total).toBeCloseTo(2 * 1500 + Math.PI * 200, -1);
  });

  test('a loop that is partly too tight begins where it ceases to be', () => {
    const { strokes, unflyable } = drawn('M0 5V-5A5 5 0 0 1 10 -5V5A5 5 0 0 1 0 5Z', { depthMetres: 1000 });
    expect(unflyable).toHaveLength(2);
    expect(strokes.map(({ path, closed }) => [Math.round(letterPathLengthMetres(path)), closed])).toEqual([
      [500, false],
      [500, false],
    ]);
  });

  test('a speck is too short to write', () => {
    const { unflyable } = drawn('M0 0V30M10 0H10.5');
    expect(unflyable).toMatchObject([
      { problem: 'too-short', lengthMetres: expect.closeTo(50, 6), reason: 'Only 50 m long; strokes under 110 m cannot be written.' },
    ]);
  });
});

describe('what cannot be flown as drawn is changed, and told', () => {
  test('the corners of a square are rounded: one loop, each corner 293 m times the square root of 2 less 1 off', () => {
    const { strokes, changes, drawn: lines } = drawn('M0 0H10V10H0Z', CHANGED);
    expect(strokes.map(({ closed }) => closed)).toEqual([true]);
    expect(lines).toHaveLength(4);
    expect(changes.map(({ kind }) => kind)).toEqual(Array.from({ length: 4 }, () => 'corner-rounded'));
    // A fillet of radius R in a right angle leaves its corner by R (sqrt 2 - 1), 121 m; steps of the search add some.
    for (const { strayMetres } of changes) {
      expect(strayMetres).toBeGreaterThan(121);
      expect(strayMetres).toBeLessThan(150);
    }
  });

  test('a point sharper than may be rounded stays a corner', () => {
    const { strokes, changes } = drawn('M0 10L5 0L6 10', CHANGED);
    expect(strokes).toHaveLength(2);
    expect(changes).toEqual([]);
  });

  test('a bend that is too tight is widened where it strays little', () => {
    // Two level lines and a half circle of 200 m between them; the widest allowed leaves it by 93 m.
    const { strokes, changes, unflyable } = drawn('M0 0H40A4 4 0 0 1 40 8H0', { ...CHANGED, depthMetres: 400 });
    expect(unflyable.length + strokes.length).toBeGreaterThan(0);
    expect(changes.every(({ strayMetres }) => strayMetres <= 360)).toBe(true);
  });

  test.each([
    ['ring-widened', 240],
    ['ring-dashed', 60],
  ] as const)('a small ring is a %s', (kind, radius) => {
    // Beside a line of 3,000 m, which sets the depth.
    const ring = `M${2000 + radius} 1500A${radius} ${radius} 0 0 1 ${2000 - radius} 1500A${radius} ${radius} 0 0 1 ${2000 + radius} 1500Z`;
    const { strokes, changes, unflyable } = drawn(`M0 0V3000${ring}`, { mostStrayMetres: 100 });
    expect(changes.map((change) => change.kind)).toEqual([kind]);
    expect(unflyable).toEqual([]);
    expect(strokes.map(({ closed }) => closed)).toEqual([false, kind === 'ring-widened']);
  });

  test('a speck is lengthened to what a valve can write', () => {
    const { strokes, changes } = drawn('M0 0V3000M500 0H550', CHANGED);
    expect(changes).toEqual([{ kind: 'short-lengthened', strayMetres: expect.closeTo(30, 6) }]);
    expect(letterPathLengthMetres(strokes[1]!.path)).toBeCloseTo(110, 6);
  });

  test('a line there and back is no loop', () => {
    const { strokes } = drawn('M-1 0C0 0 0 -13 1 75ZL-1 3Z', CHANGED);
    expect(strokes.map(({ closed }) => closed)).toEqual([false, false, false]);
  });

  test('no change strays farther than it may, over polygons of any shape', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 0, max: 100 })), { minLength: 3, maxLength: 8 }),
        fc.boolean(),
        (points, closed) => {
          const result = artworkFromPathData(`M${points.map((point) => point.join(' ')).join('L')}${closed ? 'Z' : ''}`, { ...LARGE, ...CHANGED });
          if (!result.ok) return;
          const lines = result.artwork.drawn.map(pointsOf);
          for (const { strayMetres } of result.artwork.changes) expect(strayMetres).toBeLessThanOrEqual(360);
          for (const { path } of result.artwork.strokes) {
            for (const { xMetres, yMetres } of pointsOf(path)) {
              const off = Math.min(...lines.map((line) => fromChords(line, xMetres, yMetres)));
              // A stroke between two lines may leave both.
              expect(off).toBeLessThanOrEqual(360 + 110);
            }
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('every drawing', () => {
  const coordinate = fc.integer({ min: -100, max: 100 });
  const command = fc.oneof(
    fc.tuple(coordinate, coordinate).map((numbers) => `L${numbers.join(' ')}`),
    fc.tuple(coordinate, coordinate, coordinate, coordinate).map((numbers) => `Q${numbers.join(' ')}`),
    fc.tuple(coordinate, coordinate, coordinate, coordinate, coordinate, coordinate).map((numbers) => `C${numbers.join(' ')}`),
    fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 60 }), coordinate, coordinate).map(([rx, ry, x, y]) => `a${rx} ${ry} 20 0 1 ${x} ${y}`),
    fc.constant('Z'),
  );
  const pathData = fc
    .tuple(coordinate, coordinate, fc.array(command, { minLength: 1, maxLength: 7 }))
    .map(([x, y, commands]) => `M${x} ${y}${commands.join('')}`);

  test('gives strokes that hold together, turn no tighter than the ship, and hide nothing', { timeout: 60_000 }, () => {
    let count = 0;
    fc.assert(
      fc.property(pathData, fc.boolean(), (data, changed) => {
        const result = artworkFromPathData(data, { ...LARGE, ...(changed ? CHANGED : {}) });
        if (!result.ok) return;
        count += 1;
        for (const { path, closed } of result.artwork.strokes) {
          expect(letterPathLengthMetres(path)).toBeGreaterThanOrEqual(110 - 1e-9);
          for (const radius of radii(path)) expect(Math.abs(radius)).toBeGreaterThanOrEqual(293 - 1e-6);
          if (closed) {
            const end = letterPathEnd(path);
            expect(Math.hypot(end.xMetres - path.start.xMetres, end.yMetres - path.start.yMetres)).toBeLessThan(1e-4);
          }
        }
        for (const part of result.artwork.unflyable) {
          expect(part.problem === 'too-tight' ? (part.radiusMetres ?? NaN) < 293 : part.lengthMetres < 110).toBe(true);
        }
      }),
      { numRuns: 200 },
    );
    expect(count).toBeGreaterThan(100);
  });

  test('is followed within the tolerance where it is smooth, and followed all along', { timeout: 60_000 }, () => {
    // Cubic curves alone, with control points that make no cusp: the curve itself is the measure.
    const away = fc.integer({ min: 20, max: 60 });
    fc.assert(
      fc.property(away, away, away, away, (a, b, c, d) => {
        const data = `M0 0C${a} ${-b} ${100 - c} ${d} 100 0`;
        const curve = Array.from({ length: 401 }, (_, step) => {
          const t = step / 400;
          const weights = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3] as const;
          return { x: weights[1] * a + weights[2] * (100 - c) + weights[3] * 100, y: weights[1] * b - weights[2] * d };
        });
        const [minY, maxY] = [Math.min(...curve.map(({ y }) => y)), Math.max(...curve.map(({ y }) => y))];
        const [minX, maxX] = [Math.min(...curve.map(({ x }) => x)), Math.max(...curve.map(({ x }) => x))];
        const scale = 40;
        const { strokes, unflyable } = drawn(data, { depthMetres: scale * (maxY - minY), toleranceMetres: 20 });
        const metres = curve.map(({ x, y }) => ({ xMetres: (x - (minX + maxX) / 2) * scale, yMetres: (y - (minY + maxY) / 2) * scale }));
        const fitted = [...strokes, ...unflyable].flatMap(({ path }) => pointsOf(path));
        const apart = (from: LetterPoint[], to: LetterPoint[]): number =>
          Math.max(...from.map((p) => Math.min(...to.map((q) => Math.hypot(p.xMetres - q.xMetres, p.yMetres - q.yMetres)))));
        // 20 m of tolerance and half the distance between the points compared.
        expect(apart(fitted, metres)).toBeLessThan(20 + 12);
        expect(apart(metres, fitted)).toBeLessThan(20 + 12);
      }),
      { numRuns: 30 },
    );
  });
});

describe('bad input', () => {
  test('100,000 points are refused in under two seconds', () => {
    let data = 'M0 0';
    for (let index = 0; index < 100_000; index++) data += `L${(index * 7919) % 1000} ${(index * 104_729) % 997}`;
    const started = processorMilliseconds();
    expect(reasonOf(data)).toBe('The drawing has about 100,001 points; at most 10,000 can be read. Simplify its paths first.');
    expect(processorMilliseconds() - started).toBeLessThan(2000);
  });

  test('9,900 points that are allowed are fitted in under two seconds', () => {
    const data = `M${Array.from({ length: 9_900 }, (_, index) => `${50 * Math.cos(index / 1600)} ${50 * Math.sin(index / 1600)}`).join('L')}`;
    const started = processorMilliseconds();
    const { strokes } = drawn(data);
    expect(processorMilliseconds() - started).toBeLessThan(2000);
    expect(strokes.length).toBeLessThanOrEqual(2);
  });

  test.each([
    ['', {}, 'The drawing has no lines.'],
    ['M0 0', {}, 'The drawing has no lines.'],
    ['M0 0H10', {}, 'The drawing has no depth: it is one level line or one point.'],
    ['M0 0L5', {}, 'The path data cannot be read: missed param (at pos 6).'],
    ['<svg onload="alert(1)">', {}, 'The path data cannot be read: bad command < (at pos 0).'],
    ['M0 0L1e300 1e300', {}, 'The drawing has coordinates too large to be read.'],
    [`M0 0V100${'M0 0L.1 .1'.repeat(299)}`, {}, 'The drawing has 300 strokes; at most 200 can be written. Join lines or leave some out.'],
    ['M0 0L5 0L0 0L5 1'.repeat(100), {}, 'The drawing is 4,530 km long at this size; at most 200 km can be written. Leave lines out or write it smaller.'],
    ['M0 0H10V10', { depthMetres: 0 }, 'The drawing needs a depth above zero.'],
    ['M0 0H10V10', { turnRadiusMetres: Infinity }, 'The ship does not turn: the bank must be above 0 and under 90 degrees, and the speed above zero.'],
  ] as const)('%.40s', (data, options, reason) => expect(reasonOf(data, options)).toBe(reason));

  test('nothing typed makes it throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'MmLlHhVvCcSsQqTtAaZz0123456789.-+e ,') }), (data) => {
        expect(typeof artworkFromPathData(data, LARGE).ok).toBe('boolean');
      }),
      { numRuns: 500 },
    );
  });
});

describe('two arcs', () => {
  const fitPoint = (x: number, y: number, radians: number): FitPoint => ({ x, y, directionX: Math.cos(radians), directionY: Math.sin(radians) });

  test('along a line are a line, round a circle that circle', () => {
    expect(biarc(fitPoint(0, 0, 0), fitPoint(2, 0, 0))?.map(({ curvature, length }) => [curvature, length])).toEqual([
      [0, 1],
      [0, 1],
    ]);
    for (const { curvature } of biarc(fitPoint(0, 0, 0), fitPoint(1, 1, Math.PI / 2)) ?? []) expect(curvature).toBeCloseTo(1, 12);
  });

  test('meet the second point in its direction, their distance from themselves is nothing', { timeout: 60_000 }, () => {
    const angle = fc.double({ min: -1.5, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(angle, angle, (leave, arrive) => {
        const pair = biarc(fitPoint(0, 0, leave), fitPoint(10, 0, arrive));
        if (pair === null) throw new Error('no arcs');
        const path: LetterPath = {
          start: { xMetres: 0, yMetres: 0, directionRadians: leave },
          segments: pair.map(({ length, curvature }) => ({ lengthMetres: length, curvaturePerMetre: curvature })),
        };
        const end = letterPathEnd(path);
        expect(Math.hypot(end.xMetres - 10, end.yMetres)).toBeLessThan(1e-6);
        expect(Math.abs(signedRadians(end.directionRadians - arrive))).toBeLessThan(1e-6);
        for (const { xMetres, yMetres } of pointsOf(path)) expect(Math.min(...pair.map((arc) => distanceToArc(xMetres, yMetres, arc)))).toBeLessThan(1e-6);
      }),
    );
  });
});
