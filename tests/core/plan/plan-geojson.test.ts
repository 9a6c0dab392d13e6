import { expect, test } from 'vitest';
import { siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { planGeoJson } from '../../../src/core/plan/plan-geojson.ts';
import { planText } from '../../../src/core/plan/plan-text.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { METRES_PER_NAUTICAL_MILE } from '../../../src/core/units/quantity.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';

const SITE = { latitudeDegrees: 46.5, longitudeDegrees: 8.6, elevationMetres: 400 };
const DATUM_MILLISECONDS = Date.UTC(2027, 5, 20, 10, 0, 0);

function exported() {
  const result = planText(drawnText('SKY').letters, optionsFor('SKY'));
  if (!result.ok) throw new Error('no plan');
  const wind = windVectorFrom({ fromRadians: radiansFromDegrees(240), speedMetresPerSecond: 9 });
  return planGeoJson(result.plan, {
    site: SITE,
    layerHeightMetres: 3400,
    wind,
    datumMilliseconds: DATUM_MILLISECONDS,
    shipNames: ['LEAD'],
    readMilliseconds: 0,
    viewElevationRadians: 0.6,
    hand: 'quickest',
  });
}

test('vertices stand at most a second apart and follow each other through all legs', () => {
  const { features } = exported();
  expect(features.length).toBeGreaterThan(5);
  let previous = DATUM_MILLISECONDS;
  for (const { properties, geometry } of features) {
    const times = (properties['coordTimes'] as string[]).map((time) => Date.parse(time));
    expect(times).toHaveLength(geometry.coordinates.length);
    expect(times[0]).toBe(previous);
    times.forEach((time, index) => {
      if (index === 0) return;
      expect(time - times[index - 1]!).toBeGreaterThan(0);
      expect(time - times[index - 1]!).toBeLessThanOrEqual(1000);
    });
    previous = times.at(-1)!;
  }
});

test('with the wind taken off, the ship flies its airspeed inside its bank, by the export alone', () => {
  const data = exported();
  const knot = METRES_PER_NAUTICAL_MILE / 3600;
  const from = radiansFromDegrees(data.windFromDegrees);
  const windEast = -Math.sin(from) * data.windKnots * knot;
  const windNorth = -Math.cos(from) * data.windKnots * knot;
  const speed = data.trueAirspeedKnots * knot;
  const tightest = speed ** 2 / (9.80665 * Math.tan(radiansFromDegrees(data.bankLimitDegrees)));
  for (const { properties, geometry } of data.features) {
    const times = (properties['coordTimes'] as string[]).map((time) => Date.parse(time) / 1000);
    const points = geometry.coordinates.map(([longitudeDegrees, latitudeDegrees]) => siteFromGeodetic({ latitudeDegrees, longitudeDegrees }, 3400, SITE));
    const air = points.map(
      (point, index) => [point.eastMetres - windEast * (times[index]! - times[0]!), point.northMetres - windNorth * (times[index]! - times[0]!)] as const,
    );
    let before: number | null = null;
    for (let index = 1; index < air.length; index += 1) {
      const east = air[index]![0] - air[index - 1]![0];
      const north = air[index]![1] - air[index - 1]![1];
      const seconds = times[index]! - times[index - 1]!;
      expect(Math.hypot(east, north) / seconds).toBeGreaterThan(speed * 0.9);
      expect(Math.hypot(east, north) / seconds).toBeLessThan(speed * 1.005);
      const heading = Math.atan2(north, east);
      if (before !== null) {
        const turn = Math.abs(Math.atan2(Math.sin(heading - before), Math.cos(heading - before)));
        expect(turn / seconds).toBeLessThan((speed / tightest) * 1.02);
      }
      before = heading;
    }
  }
});

test('the plan as a whole carries wind, speed and bank', () => {
  const { windFromDegrees, windKnots, trueAirspeedKnots, bankLimitDegrees, features } = exported();
  expect(windFromDegrees).toBeCloseTo(240, 9);
  expect(windKnots).toBeCloseTo(17.4946, 3);
  expect(trueAirspeedKnots).toBeCloseTo(104.277, 2);
  expect(bankLimitDegrees).toBeCloseTo(45, 6);
  expect(exported()).toMatchObject({
    writingBankDegrees: expect.closeTo(45, 6),
    turningBankDegrees: expect.closeTo(45, 6),
    runInSeconds: 4,
    runOutSeconds: 1,
    separationMetres: 0,
    slipSeconds: 0,
    letterHeightMetres: 1200,
    hand: 'quickest',
    site: SITE,
    layerHeightMetres: 3400,
    facingDegrees: 0,
    viewElevationDegrees: expect.closeTo(34.377, 3),
    datum: '2027-06-20T10:00:00Z',
    waitingCircles: [],
  });
  expect(features[0]!.properties).toMatchObject({ ship: 'LEAD', kind: 'smoke', stroke: 0, start: '2027-06-20T10:00:00Z' });
});
