import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import {
  contrastFromDepth,
  contrastThroughAir,
  levelRangeMetres,
  opticalDepthFromBelow,
  plumeSpread,
  shearAcross,
  slantView,
  type SmokeAir,
  trailKilogramsPerMetre,
} from '../../../src/core/sky/plume.ts';
import plume from '../../reference/plume.json' with { type: 'json' };

const AIR: SmokeAir = { horizontalSquareMetresPerSecond: 5, verticalSquareMetresPerSecond: 0.15, initialHorizontalMetres: 5, initialVerticalMetres: 5 };
const LOAD = { kilogramsPerMetre: 0.0025, extinctionSquareMetresPerKilogram: 6_800 };
const BELOW = { east: 0, north: 0, up: 1 };

describe('spread (Konopka 1995, Schumann et al. 1995 and 2012)', () => {
  test.each(plume.growth.rows)('D_h $D_h, D_v $D_v, shear $shear_per_s, $t_s s', (row) => {
    const found = plumeSpread(row.t_s, row.shear_per_s, {
      horizontalSquareMetresPerSecond: row.D_h,
      verticalSquareMetresPerSecond: row.D_v,
      initialHorizontalMetres: row.sigma_h0_m,
      initialVerticalMetres: row.sigma_v0_m,
    });
    expect(row.sigma_s0_m2).toBe(0);
    expect(Math.abs(found.horizontalMetres - row.sigma_h_m)).toBeLessThan(1e-6);
    expect(Math.abs(found.verticalMetres - row.sigma_v_m)).toBeLessThan(1e-6);
    expect(Math.abs(found.covarianceSquareMetres - row.sigma_s_m2)).toBeLessThan(1e-6);
  });

  test('every row was there', () => expect(plume.growth.rows).toHaveLength(24));

  test('an ensemble of drifting particles spreads alike', () => {
    // Its own road to the same numbers: random walks in a shear, 20,000 of them, a fixed seed.
    let seed = 12_345;
    const uniform = (): number => (seed = (seed * 48_271) % 2_147_483_647) / 2_147_483_647;
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const shear = 0.02;
    const step = 5;
    let [across, upward, both] = [0, 0, 0];
    const count = 20_000;
    for (let particle = 0; particle < count; particle += 1) {
      let y = 5 * normal();
      let z = 5 * normal();
      for (let at = 0; at < 300; at += step) {
        const z1 = z + normal() * Math.sqrt(2 * 0.15 * step);
        y += ((z + z1) / 2) * shear * step + normal() * Math.sqrt(2 * 5 * step);
        z = z1;
      }
      across += y * y;
      upward += z * z;
      both += y * z;
    }
    const found = plumeSpread(300, shear, AIR);
    expect(Math.abs(across / count / found.horizontalMetres ** 2 - 1)).toBeLessThan(0.04);
    expect(Math.abs(upward / count / found.verticalMetres ** 2 - 1)).toBeLessThan(0.04);
    expect(Math.abs(both / count / found.covarianceSquareMetres - 1)).toBeLessThan(0.08);
  });

  test('only ever grows, and more shear never makes it narrower', () => {
    const ages = fc.double({ min: 0, max: 7_200, noNaN: true });
    const shears = fc.double({ min: 0, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(ages, ages, shears, shears, (one, other, low, high) => {
        const early = plumeSpread(Math.min(one, other), Math.min(low, high), AIR);
        const late = plumeSpread(Math.max(one, other), Math.max(low, high), AIR);
        expect(late.horizontalMetres).toBeGreaterThanOrEqual(early.horizontalMetres);
        expect(late.verticalMetres).toBeGreaterThanOrEqual(early.verticalMetres);
        // A covariance no distribution can have would break the slanted view.
        expect(Math.abs(late.covarianceSquareMetres)).toBeLessThanOrEqual(late.horizontalMetres * late.verticalMetres + 1e-9);
      }),
    );
  });

  test('refuses what has no meaning', () => {
    expect(() => plumeSpread(-1, 0, AIR)).toThrow(/ageSeconds.*-1/);
    expect(() => plumeSpread(1, NaN, AIR)).toThrow(/shearAcrossPerSecond/);
    expect(() => plumeSpread(1, 0, { ...AIR, horizontalSquareMetresPerSecond: -5 })).toThrow(/-5/);
  });
});

describe('shear across a trail', () => {
  const north = { eastPerSecond: 0, northPerSecond: 0.01 };
  test('lies wholly across a trail flown east, not at all across one flown north', () => {
    expect(shearAcross(north, 0)).toBeCloseTo(0.01, 15);
    expect(shearAcross(north, Math.PI / 2)).toBeCloseTo(0, 15);
    expect(shearAcross(north, Math.PI)).toBeCloseTo(-0.01, 15);
    // Towards the east it lies to the right of a trail flown north.
    expect(shearAcross({ eastPerSecond: 0.01, northPerSecond: 0 }, Math.PI / 2)).toBeCloseTo(-0.01, 15);
    expect(shearAcross({ eastPerSecond: 0.01, northPerSecond: 0.01 }, Math.PI / 4)).toBeCloseTo(0, 15);
  });
  test('a trail along the shear does not widen by it', () => {
    const along = plumeSpread(1_200, shearAcross(north, Math.PI / 2), AIR);
    const across = plumeSpread(1_200, shearAcross(north, 0), AIR);
    expect(along.horizontalMetres).toBeCloseTo(plumeSpread(1_200, 0, AIR).horizontalMetres, 9);
    expect(across.horizontalMetres).toBeGreaterThan(1.3 * along.horizontalMetres);
  });
});

describe('two strokes become one (Sparrow 1916)', () => {
  test.each(plume.sparrow.rows)('%d spreads apart, the middle shows %d of the peak', (separation, dip) => {
    const at = (x: number): number => Math.exp(-((x - (separation ?? 0) / 2) ** 2) / 2) + Math.exp(-((x + (separation ?? 0) / 2) ** 2) / 2);
    const peak = Math.max(...Array.from({ length: 4_001 }, (_, index) => at(index / 1_000)));
    expect(at(0) / peak).toBeCloseTo(dip ?? NaN, 4);
  });
  test('every row was there', () => expect(plume.sparrow.rows).toHaveLength(6));
});

describe('what shows', () => {
  test('optical depth of the worked trail', () => {
    const spread = { horizontalMetres: 50, verticalMetres: 10, covarianceSquareMetres: 0 };
    expect(opticalDepthFromBelow(LOAD, spread)).toBeCloseTo(0.13564, 5);
    expect(trailKilogramsPerMetre(9 / 60, 60)).toBeCloseTo(0.0025, 12);
  });

  test('the smoke in a cross section is all there: depth summed across it is load times extinction', () => {
    const spread = plumeSpread(600, 0.005, AIR);
    const middle = opticalDepthFromBelow(LOAD, spread);
    let sum = 0;
    for (let x = -1_000; x <= 1_000; x += 1) sum += middle * Math.exp(-0.5 * (x / spread.horizontalMetres) ** 2);
    expect(sum).toBeCloseTo(0.0025 * 6_800, 6);
  });

  test('contrast', () => {
    expect(contrastFromDepth(0)).toBe(0);
    expect(contrastFromDepth(1)).toBeCloseTo(0.632_12, 5);
    expect(contrastFromDepth(1e-12) / 1e-12).toBeCloseTo(1, 9);
    expect(contrastFromDepth(Infinity)).toBe(1);
  });

  test('through air: 0.02 is left at the visibility (Koschmieder), 0.05 at 1 / 1.305865 of it (WMO-No. 8)', () => {
    expect(contrastThroughAir(1, 30_000, 30_000)).toBeCloseTo(0.02, 12);
    expect(contrastThroughAir(1, 30_000 / plume.visibility.ratio, 30_000)).toBeCloseTo(0.05, 6);
    expect(contrastThroughAir(0.3, 30_000, null)).toBe(0.3);
    expect(() => contrastThroughAir(1, 1, 0)).toThrow(/visibilityMetres/);
  });

  test('haze lies low: the particles above the ground of the standard airs of 23 and 5 km of visibility (AFCRL-72-0497)', () => {
    const { levelsMetres, airs } = plume.haze;
    // Between two levels of the table their number falls evenly by the same share.
    const column = (perCubicCentimetre: readonly number[], upTo: number): number =>
      levelsMetres.reduce((sum, level, at) => {
        const [below, above] = [perCubicCentimetre[at - 1] ?? 0, perCubicCentimetre[at] ?? 0];
        return at === 0 || level > upTo ? sum : sum + ((level - (levelsMetres[at - 1] ?? 0)) * (below - above)) / Math.log(below / above);
      }, 0) / (perCubicCentimetre[0] ?? 0);
    for (const height of [1_000, 2_000, 3_000, 4_000]) {
      expect(levelRangeMetres(height, height) / column(airs.visibility23Kilometres, height)).toBeCloseTo(1, 1.7);
      expect(levelRangeMetres(height, height) / column(airs.visibility5Kilometres, height)).toBeGreaterThan(1);
      expect(levelRangeMetres(height, height) / column(airs.visibility5Kilometres, height)).toBeLessThan(1.19);
    }
    // Twice as far at the same height: twice as much of every part of the air.
    expect(levelRangeMetres(8_000, 2_000)).toBeCloseTo(4 * levelRangeMetres(2_000, 2_000), 9);
    expect(levelRangeMetres(5_000, 0)).toBe(5_000);
    expect(levelRangeMetres(5_000, 1e-6)).toBeCloseTo(5_000, 3);
  });
});

describe('slanted view', () => {
  const spread = plumeSpread(600, 0.01, AIR);

  test('from straight below it is the view from below, whichever way the trail runs', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 6.28, noNaN: true }), (direction) => {
        const found = slantView(LOAD, spread, direction, BELOW);
        expect(found.spreadMetres).toBeCloseTo(spread.horizontalMetres, 9);
        expect(found.opticalDepth).toBeCloseTo(opticalDepthFromBelow(LOAD, spread), 12);
      }),
    );
  });

  test('level and square to the trail it shows the height of the smoke', () => {
    const found = slantView(LOAD, spread, 0, { east: 0, north: 1, up: 0 });
    expect(found.spreadMetres).toBeCloseTo(spread.verticalMetres, 9);
  });

  test('summed over the cross section seen, the smoke is all there at any slant square to the trail', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 3, noNaN: true }), (elevation) => {
        const { spreadMetres, opticalDepth } = slantView(LOAD, spread, 0, { east: 0, north: Math.cos(elevation), up: Math.sin(elevation) });
        expect(opticalDepth * Math.sqrt(2 * Math.PI) * spreadMetres).toBeCloseTo(0.0025 * 6_800, 6);
      }),
    );
  });

  test('a sheared plume is thinner seen along its lean than across it', () => {
    // Upper smoke lies to the left of a trail flown east, to the north: an eye looking north and up sees it edge on.
    const along = slantView(LOAD, spread, 0, { east: 0, north: Math.SQRT1_2, up: Math.SQRT1_2 });
    const across = slantView(LOAD, spread, 0, { east: 0, north: -Math.SQRT1_2, up: Math.SQRT1_2 });
    expect(along.spreadMetres).toBeLessThan(across.spreadMetres);
  });

  test('along the trail it is deep, and finite', () => {
    const found = slantView(LOAD, spread, 0, { east: 1, north: 0, up: 0 });
    expect(found.opticalDepth).toBeGreaterThan(opticalDepthFromBelow(LOAD, spread));
    expect(Number.isFinite(found.opticalDepth)).toBe(true);
  });
});
