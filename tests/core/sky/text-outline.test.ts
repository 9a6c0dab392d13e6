import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { separationRadians } from '../../../src/core/earth/sun.ts';
import { CALM } from '../../../src/core/earth/wind-vector.ts';
import { layerPoint, seenFrom } from '../../../src/core/sky/perspective.ts';
import { outlineSeparation, textOutline } from '../../../src/core/sky/text-outline.ts';

const EYE = { eastMetres: 0, northMetres: 0, upMetres: 0 };
const wish = { facingRadians: 0, viewElevationRadians: Math.PI / 4, layerAboveSiteMetres: 3_000 };

describe('how near a direction comes to a text', () => {
  test('within it there is no distance, beside it there is', () => {
    const outline = textOutline(wish, CALM, 0, 4_000, 1_200);
    expect(outlineSeparation({ azimuthRadians: 0, elevationRadians: Math.PI / 4 }, outline)).toBe(0);
    const above = seenFrom(layerPoint({ eastMetres: 0, northMetres: 3_000 - 600 }, 3_000), EYE).elevationRadians;
    expect(outlineSeparation({ azimuthRadians: 0, elevationRadians: above + 0.2 }, outline)).toBeCloseTo(0.2, 3);
  });

  test('it drifts with the wind', () => {
    const wind = { eastMetresPerSecond: 10, northMetresPerSecond: 0 };
    const middle = seenFrom(layerPoint({ eastMetres: 6_000, northMetres: 3_000 }, 3_000), EYE);
    expect(outlineSeparation(middle, textOutline(wish, wind, 600, 4_000, 1_200))).toBe(0);
    expect(outlineSeparation(middle, textOutline(wish, wind, 0, 4_000, 1_200))).toBeGreaterThan(0.4);
  });

  test('is the least angle to any of its points', () => {
    const cases = fc.record({
      facingRadians: fc.double({ min: 0, max: 6.28, noNaN: true }),
      viewElevationRadians: fc.double({ min: 0.2, max: 1.5, noNaN: true }),
      azimuthRadians: fc.double({ min: 0, max: 6.28, noNaN: true }),
      elevationRadians: fc.double({ min: 0, max: 1.57, noNaN: true }),
    });
    fc.assert(
      fc.property(cases, ({ facingRadians, viewElevationRadians, azimuthRadians, elevationRadians }) => {
        const sight = { azimuthRadians, elevationRadians };
        const distance = 3_000 / Math.tan(viewElevationRadians);
        let least = Infinity;
        for (let x = -40; x <= 40; x += 1) {
          for (let y = -12; y <= 12; y += 1) {
            // Reading runs along facing + 90 degrees, tops along facing + 180.
            const east = (distance - 50 * y) * Math.sin(facingRadians) + 50 * x * Math.cos(facingRadians);
            const north = (distance - 50 * y) * Math.cos(facingRadians) - 50 * x * Math.sin(facingRadians);
            least = Math.min(least, separationRadians(sight, seenFrom(layerPoint({ eastMetres: east, northMetres: north }, 3_000), EYE)));
          }
        }
        const found = outlineSeparation(sight, textOutline({ ...wish, facingRadians, viewElevationRadians }, CALM, 0, 4_000, 1_200));
        expect(found).toBeLessThanOrEqual(least + 1e-4);
        expect(least - found).toBeLessThan(0.015);
      }),
      { numRuns: 60 },
    );
  });
});
