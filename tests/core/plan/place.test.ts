import { fc } from '../../property.ts';
import { expect, test } from 'vitest';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { airFromSite, placeTextMiddle, readPlace, siteFromAir } from '../../../src/core/plan/place.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';

const angle = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
const speed = fc.double({ min: 0, max: 40, noNaN: true });

test('in a calm a layer 3,000 m up, seen at 45 degrees to the north, hangs 3,000 m north', () => {
  const middle = placeTextMiddle(
    { facingRadians: 0, viewElevationRadians: Math.PI / 4, layerAboveSiteMetres: 3000 },
    { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    600,
  );
  expect(middle.airEastMetres).toBeCloseTo(0, 6);
  expect(middle.airNorthMetres).toBeCloseTo(3000, 6);
});

test('in a wind of 10 m/s towards the east the text is written 6,000 m further west for a read time 600 s later', () => {
  const wish = { facingRadians: 0, viewElevationRadians: Math.PI / 4, layerAboveSiteMetres: 3000 };
  const middle = placeTextMiddle(wish, windVectorFrom({ fromRadians: radiansFromDegrees(270), speedMetresPerSecond: 10 }), 600);
  expect(middle.airEastMetres).toBeCloseTo(-6000, 6);
});

test('at the read time the text stands at the wanted elevation and azimuth, in any wind', () => {
  fc.assert(
    fc.property(
      angle,
      angle,
      speed,
      fc.double({ min: 0.1, max: 1.5, noNaN: true }),
      fc.double({ min: -600, max: 3600, noNaN: true }),
      (facing, from, knots, elevation, read) => {
        const wind = windVectorFrom({ fromRadians: from, speedMetresPerSecond: knots });
        const wish = { facingRadians: facing, viewElevationRadians: elevation, layerAboveSiteMetres: 3000 };
        const { eastMetres, northMetres } = siteFromAir(placeTextMiddle(wish, wind, read), wind, read);
        const distance = Math.hypot(eastMetres, northMetres);
        expect(Math.atan2(3000, distance)).toBeCloseTo(elevation, 9);
        expect(eastMetres).toBeCloseTo(distance * Math.sin(facing), 5);
        expect(northMetres).toBeCloseTo(distance * Math.cos(facing), 5);
      },
    ),
  );
});

test('site and air mass convert into each other', () => {
  fc.assert(
    fc.property(angle, speed, fc.double({ min: -3600, max: 3600, noNaN: true }), (from, metresPerSecond, seconds) => {
      const wind = windVectorFrom({ fromRadians: from, speedMetresPerSecond: metresPerSecond });
      const point = { airEastMetres: 1234, airNorthMetres: -567 };
      const back = airFromSite(siteFromAir(point, wind, seconds), wind, seconds);
      expect(back.airEastMetres).toBeCloseTo(1234, 8);
      expect(back.airNorthMetres).toBeCloseTo(-567, 8);
    }),
  );
});

test.each([0, -0.1, 1.6, Number.NaN])('an elevation of %d is refused by name', (viewElevationRadians) => {
  expect(() => readPlace({ facingRadians: 0, viewElevationRadians, layerAboveSiteMetres: 3000 })).toThrow(/viewElevationRadians/);
});
