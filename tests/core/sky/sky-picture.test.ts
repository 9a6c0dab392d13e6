import { describe, expect, test } from 'vitest';
import { sunAt } from '../../../src/core/earth/sun.ts';
import { type Camera, type ImagePoint, imageOf } from '../../../src/core/sky/camera.ts';
import { cameraAround, drawSky, horizonPixels, seenSmoke, type SkyMoment, type SkySink, uprightPixels } from '../../../src/core/sky/sky-picture.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import { type Trail, trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { contrastFromDepth, opticalDepthFromBelow, plumeSpread } from '../../../src/core/sky/plume.ts';
import { plannedText } from './planned.ts';

interface Drawn {
  readonly line: readonly ImagePoint[];
  readonly widthPixels: number;
  readonly opacity: number;
}

function recorded(trails: readonly Trail[], moment: SkyMoment): Drawn[] {
  const drawn: Drawn[] = [];
  const sink: SkySink = { smoke: (line, widthPixels, opacity) => void drawn.push({ line, widthPixels, opacity }) };
  drawSky(trails, moment, sink);
  return drawn;
}

const CAMERA: Camera = { azimuthRadians: 0, elevationRadians: 0.6, fieldRadians: 1.4, widthPixels: 1_000, heightPixels: 700 };
const MOMENT: SkyMoment = {
  atSeconds: 600,
  eye: { eastMetres: 0, northMetres: 0, upMetres: 0 },
  camera: CAMERA,
  wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
  shear: { eastPerSecond: 0, northPerSecond: 0 },
  layerAboveSiteMetres: 3_000,
  visibilityMetres: null,
  smoke: SMOKE_RANGE.likely,
};
const frame = { facingRadians: 0, middle: { airEastMetres: 0, airNorthMetres: 4_300 } };

describe('the sky as the crowd sees it', () => {
  const plan = plannedText('L', { frame, oilKilogramsPerSecond: 0.34 });
  const trails = trailsFromPlan(plan, 60);
  const middleX = (drawn: readonly Drawn[]): number => {
    const all = drawn.flatMap((each) => each.line);
    return all.reduce((sum, point) => sum + point.xPixels, 0) / all.length;
  };

  test('an L reads as an L: its foot low, running right from the stem', () => {
    const points = recorded(trails, MOMENT).flatMap((each) => each.line);
    const lowest = Math.max(...points.map((point) => point.yPixels));
    const highest = Math.min(...points.map((point) => point.yPixels));
    const low = points.filter((point) => point.yPixels > lowest - 0.2 * (lowest - highest)).map((point) => point.xPixels);
    const high = points.filter((point) => point.yPixels < highest + 0.5 * (lowest - highest)).map((point) => point.xPixels);
    const left = Math.min(...points.map((point) => point.xPixels));
    const right = Math.max(...points.map((point) => point.xPixels));
    expect(Math.max(...low)).toBeCloseTo(right, 6);
    expect(Math.max(...high)).toBeLessThan(left + 0.4 * (right - left));
  });

  test('every line lies where perspective puts its smoke', () => {
    const [trail] = trails;
    const point = trail?.points[0];
    if (trail === undefined || point === undefined) throw new Error('no smoke');
    const expected = imageOf(seenSmoke(point, 0, MOMENT), CAMERA);
    const first = recorded(trails, MOMENT)[0]?.line[0];
    expect(first?.xPixels).toBeCloseTo(expected?.xPixels ?? NaN, 9);
    expect(first?.yPixels).toBeCloseTo(expected?.yPixels ?? NaN, 9);
  });

  test('only what is laid is drawn, up to the aircraft', () => {
    expect(recorded(trails, { ...MOMENT, atSeconds: 0 })).toEqual([]);
    const early = recorded(trails, { ...MOMENT, atSeconds: 3 });
    const [a, b] = [early[0]?.line[0], early.at(-1)?.line.at(-1)];
    if (a === undefined || b === undefined) throw new Error('nothing drawn');
    const [trail] = trails;
    const start = trail?.points[0];
    if (trail === undefined || start === undefined) throw new Error('no smoke');
    const leg = plan.ships[0]?.legs[0];
    const flown = 3 * plan.trueAirspeedMetresPerSecond;
    const end = {
      airEastMetres: start.airEastMetres + flown * Math.cos(leg?.path.start.directionRadians ?? NaN),
      airNorthMetres: start.airNorthMetres + flown * Math.sin(leg?.path.start.directionRadians ?? NaN),
    };
    const expected = imageOf(seenSmoke(end, 0, { ...MOMENT, atSeconds: 3 }), CAMERA);
    expect(b.xPixels).toBeCloseTo(expected?.xPixels ?? NaN, 3);
    expect(b.yPixels).toBeCloseTo(expected?.yPixels ?? NaN, 3);
  });

  test('what has just been laid is narrow, however late in the text', () => {
    const second = trailsFromPlan(plannedText('T', { frame, oilKilogramsPerSecond: 0.34 }), 60)[1];
    const start = second?.points[0]?.laidAtSeconds;
    if (second === undefined || start === undefined) throw new Error('one stroke only');
    const moment = { ...MOMENT, atSeconds: start + 0.6 };
    const fresh = recorded([second], moment);
    const place = seenSmoke(second.points[0] ?? { airEastMetres: 0, airNorthMetres: 0 }, 0, moment);
    // Less than a second old it is as wide as it is laid: 5 m, seen on the slant.
    const pixels = ((500 / Math.tan(0.7)) * 5) / place.rangeMetres;
    expect(fresh[0]?.widthPixels).toBeLessThan(5 * 1.2 * pixels);
  });

  test('it drifts with the wind, spreads and fades', () => {
    const wind = { eastMetresPerSecond: 3, northMetresPerSecond: 0 };
    expect(middleX(recorded(trails, { ...MOMENT, wind }))).toBeGreaterThan(middleX(recorded(trails, MOMENT)) + 50);
    const young = recorded(trails, { ...MOMENT, atSeconds: plan.durationSeconds + 10 });
    const old = recorded(trails, { ...MOMENT, atSeconds: plan.durationSeconds + 900 });
    const widest = (drawn: readonly Drawn[]): number => Math.max(...drawn.map((each) => each.widthPixels));
    const densest = (drawn: readonly Drawn[]): number => Math.max(...drawn.map((each) => each.opacity));
    expect(widest(old)).toBeGreaterThan(1.5 * widest(young));
    expect(densest(old)).toBeLessThan(0.7 * densest(young));
  });

  test('haze takes contrast', () => {
    const sum = (drawn: readonly Drawn[]): number => drawn.reduce((total, each) => total + each.opacity, 0);
    expect(sum(recorded(trails, { ...MOMENT, visibilityMetres: 5_500 }))).toBeLessThan(0.4 * sum(recorded(trails, MOMENT)));
  });

  test('nothing is drawn of what lies behind the eye, or without oil', () => {
    expect(recorded(trails, { ...MOMENT, camera: { ...CAMERA, azimuthRadians: Math.PI, elevationRadians: 0 } })).toEqual([]);
    expect(
      recorded(
        trails.map((trail) => ({ ...trail, kilogramsPerMetre: 0 })),
        MOMENT,
      ),
    ).toEqual([]);
  });
});

describe('the profile of one line', () => {
  // Straight overhead, one straight stroke: its spread and depth are those of the plume from below.
  const stroke: Trail = {
    shipIndex: 0,
    letterIndex: 0,
    character: 'I',
    points: [
      { airEastMetres: -200, airNorthMetres: 0, laidAtSeconds: 0 },
      { airEastMetres: 200, airNorthMetres: 0, laidAtSeconds: 0 },
    ],
    kilogramsPerMetre: 0.006,
    heightStepMetres: 0,
  };
  const camera: Camera = { azimuthRadians: 0, elevationRadians: Math.PI / 2, fieldRadians: 1, widthPixels: 1_000, heightPixels: 1_000 };
  const drawn = recorded([stroke], { ...MOMENT, camera });
  const spread = plumeSpread(600, 0, SMOKE_RANGE.likely.air);
  const pixelsPerMetre = 500 / Math.tan(0.5) / 3_000;

  test('wide and faint to narrow and dense, as wide as the plume', () => {
    expect(drawn).toHaveLength(4);
    expect(drawn[0]?.widthPixels).toBeCloseTo(5 * spread.horizontalMetres * pixelsPerMetre, 3);
    expect(drawn.map((each) => each.widthPixels)).toEqual(drawn.map((each) => each.widthPixels).sort((one, other) => other - one));
  });

  test("laid over each other they come to the contrast of the plume's middle, within 6 %", () => {
    const through = drawn.reduce((clear, each) => clear * (1 - each.opacity), 1);
    const load = { kilogramsPerMetre: 0.006, extinctionSquareMetresPerKilogram: 6_800 };
    const contrast = contrastFromDepth(opticalDepthFromBelow(load, spread));
    expect(Math.abs((1 - through) / contrast - 1)).toBeLessThan(0.06);
    // Band by band the profile stays a normal curve: the whole smoke is there within 5 %.
    let sum = 0;
    for (let x = 0; x < 3; x += 0.01) {
      const clear = drawn
        .filter((each) => each.widthPixels / 2 > x * spread.horizontalMetres * pixelsPerMetre)
        .reduce((left, each) => left * (1 - each.opacity), 1);
      sum += 0.01 * -Math.log(clear);
    }
    expect(Math.abs(sum / (opticalDepthFromBelow(load, spread) * Math.sqrt(Math.PI / 2)) - 1)).toBeLessThan(0.05);
  });
});

describe('camera, horizon and scale', () => {
  test('a camera holds what it should, with the horizon', () => {
    const directions = [
      { azimuthRadians: 6.1, elevationRadians: 0.5 },
      { azimuthRadians: 0.3, elevationRadians: 0.9 },
    ];
    const camera = cameraAround(directions, 900, 600, true);
    for (const direction of directions) {
      const image = imageOf(direction, camera);
      expect(image?.xPixels).toBeGreaterThan(0);
      expect(image?.xPixels).toBeLessThan(900);
      expect(image?.yPixels).toBeGreaterThan(0);
      expect(image?.yPixels).toBeLessThan(600);
    }
    const horizon = horizonPixels(camera);
    expect(horizon).toBeGreaterThan(300);
    expect(horizon).toBeLessThan(600);
    expect(() => cameraAround([], 1, 1, false)).toThrow(RangeError);
  });

  test('the horizon is level and the sun above it is above it', () => {
    const level = { ...CAMERA, elevationRadians: 0 };
    expect(horizonPixels(level)).toBeCloseTo(350, 9);
    const sun = sunAt({ latitudeDegrees: 44, longitudeDegrees: -74 }, Date.UTC(2027, 5, 19, 17));
    const image = imageOf(sun, { ...level, azimuthRadians: sun.azimuthRadians, fieldRadians: 2.8 });
    expect(image?.yPixels).toBeLessThan(350);
    expect(horizonPixels({ ...CAMERA, elevationRadians: Math.PI / 2 })).toBeNull();
  });

  test('a person of 1.7 m at 60 m is 1.62 degrees high', () => {
    expect(uprightPixels(1.7, 60, { ...CAMERA, fieldRadians: Math.PI / 2 })).toBeCloseTo((500 * 1.7) / 60, 9);
  });
});
