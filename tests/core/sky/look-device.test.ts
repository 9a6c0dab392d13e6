import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { lookChange, lookFromDevice } from '../../../src/core/sky/look-device.ts';
import { degreesFromRadians, positiveDegrees, radiansFromDegrees, signedDegrees } from '../../../src/core/units/angle.ts';

type Matrix = readonly [readonly number[], readonly number[], readonly number[]];

const product = (one: Matrix, other: Matrix): Matrix =>
  one.map((row) => [0, 1, 2].map((column) => row.reduce((sum, value, index) => sum + value * other[index]![column]!, 0))) as unknown as Matrix;

/** The three turns of the specification, one after the other, about axes that turn with the device: the long way round. */
function turned(alphaDegrees: number, betaDegrees: number, gammaDegrees: number): Matrix {
  const [a, b, g] = [alphaDegrees, betaDegrees, gammaDegrees].map(radiansFromDegrees) as [number, number, number];
  const z: Matrix = [
    [Math.cos(a), -Math.sin(a), 0],
    [Math.sin(a), Math.cos(a), 0],
    [0, 0, 1],
  ];
  const x: Matrix = [
    [1, 0, 0],
    [0, Math.cos(b), -Math.sin(b)],
    [0, Math.sin(b), Math.cos(b)],
  ];
  const y: Matrix = [
    [Math.cos(g), 0, Math.sin(g)],
    [0, 1, 0],
    [-Math.sin(g), 0, Math.cos(g)],
  ];
  return product(product(z, x), y);
}

const inDegrees = (direction: ReturnType<typeof lookFromDevice>): readonly [number, number] | null =>
  direction === null ? null : [degreesFromRadians(direction.azimuthRadians), degreesFromRadians(direction.elevationRadians)];

describe('where a device points', () => {
  it.each([
    { held: 'upright, facing north', angles: [0, 90, 0], azimuth: 0, elevation: 0 },
    { held: 'upright, facing east: alpha runs anticlockwise', angles: [270, 90, 0], azimuth: 90, elevation: 0 },
    { held: 'leaning back to look 35 degrees up, facing north', angles: [0, 125, 0], azimuth: 0, elevation: 35 },
    { held: 'on its side, facing north', angles: [90, 0, -90], azimuth: 0, elevation: 0 },
  ] as const)('is known by hand: $held', ({ angles: [alphaDegrees, betaDegrees, gammaDegrees], azimuth, elevation }) => {
    const found = inDegrees(lookFromDevice({ alphaDegrees, betaDegrees, gammaDegrees }));
    expect(found).not.toBeNull();
    expect(signedDegrees(found![0] - azimuth)).toBeCloseTo(0, 9);
    expect(found![1]).toBeCloseTo(elevation, 9);
  });

  it('agrees with the three turns done one by one (W3C Device Orientation, Z-X\u2032-Y\u2033)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (alphaDegrees, betaDegrees, gammaDegrees) => {
          const found = lookFromDevice({ alphaDegrees, betaDegrees, gammaDegrees });
          const matrix = turned(alphaDegrees, betaDegrees, gammaDegrees);
          const [east, north, up] = matrix.map((row) => -row[2]!) as [number, number, number];
          const elevation = (Math.atan2(up, Math.hypot(east, north)) * 180) / Math.PI;
          if (found === null) {
            expect(Math.abs(elevation)).toBeGreaterThan(84.999);
            return;
          }
          expect(degreesFromRadians(found.elevationRadians)).toBeCloseTo(elevation, 6);
          expect(signedDegrees(degreesFromRadians(found.azimuthRadians) - positiveDegrees((Math.atan2(east, north) * 180) / Math.PI))).toBeCloseTo(0, 6);
        },
      ),
    );
  });

  it('tells no azimuth of a device lying flat, whose back points down', () => {
    expect(lookFromDevice({ alphaDegrees: 12, betaDegrees: 0, gammaDegrees: 0 })).toBeNull();
  });

  it('refuses what is no angle', () => {
    expect(() => lookFromDevice({ alphaDegrees: NaN, betaDegrees: 0, gammaDegrees: 0 })).toThrow(RangeError);
  });
});

describe('how to move the eye', () => {
  const at = (azimuthDegrees: number, elevationDegrees: number) => ({
    azimuthRadians: radiansFromDegrees(azimuthDegrees),
    elevationRadians: radiansFromDegrees(elevationDegrees),
  });

  it('turns the short way through north', () => {
    const change = lookChange(at(350, 10), at(20, 40));
    expect(degreesFromRadians(change.rightRadians)).toBeCloseTo(30, 9);
    expect(degreesFromRadians(change.upRadians)).toBeCloseTo(30, 9);
  });

  it('knows that near the zenith a large turn is a small way', () => {
    expect(degreesFromRadians(lookChange(at(0, 89), at(180, 89)).apartRadians)).toBeCloseTo(2, 6);
  });

  it('is nothing towards where one looks already', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 359, noNaN: true }), fc.double({ min: -89, max: 89, noNaN: true }), (azimuth, elevation) => {
        expect(lookChange(at(azimuth, elevation), at(azimuth, elevation)).apartRadians).toBe(0);
      }),
    );
  });
});
