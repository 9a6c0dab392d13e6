import { expect, test } from 'vitest';
import { ordinaryWorld, TEN_KNOTS } from './ordinary-world.ts';
import { SimulatedFlight } from './simulated-flight.ts';
import { slippedSmoke } from './slipped-smoke.ts';

test('smoke laid 100 m above its layer, in a shear of 0.01 m/s per metre, goes 1 m/s faster; before it was laid it does not', () => {
  const puff = { atSeconds: 50, airEastMetres: 7, airNorthMetres: 9, slip: { eastMetresPerSecond: 1, northMetresPerSecond: 0 } };
  expect(slippedSmoke([[puff]], 350)[0]![0]).toMatchObject({ airEastMetres: 307, airNorthMetres: 9 });
  expect(slippedSmoke([[puff]], 20)[0]![0]).toMatchObject({ airEastMetres: 7, airNorthMetres: 9 });
});

test('a ship that wanders in height lays smoke that slips by the shear, and no other', () => {
  const smoking = { phase: 'stroke', turn: 'straight', headingDegrees: 60, bankDegrees: 0, smoke: 'on' };
  const laid = (shear?: { eastPerSecond: number; northPerSecond: number; heightWanderMetres: number }) => {
    const flight = new SimulatedFlight(ordinaryWorld(3, TEN_KNOTS, shear === undefined ? {} : { shear }));
    for (let seconds = 0; seconds < 600; seconds += 1) {
      flight.show(smoking);
      flight.fly(1);
    }
    return flight.trails.flat();
  };
  expect(laid().every(({ slip }) => slip === undefined)).toBe(true);
  const slips = laid({ eastPerSecond: 0.005, northPerSecond: 0, heightWanderMetres: 30 }).map(({ slip }) => slip!.eastMetresPerSecond);
  const rms = Math.hypot(...slips) / Math.sqrt(slips.length);
  expect(rms).toBeGreaterThan(0.08);
  expect(rms).toBeLessThan(0.25);
});
