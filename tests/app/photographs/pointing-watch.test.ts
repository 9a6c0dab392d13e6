import { expect, it } from 'vitest';
import type { CompassPointing } from '../../../src/app/compass-pointing.ts';
import { createPointingWatch } from '../../../src/app/photographs/pointing-watch.ts';

const HERE = { latitudeDegrees: 43.87, longitudeDegrees: -74.43 };

it('remembers where the device pointed, and gives the nearest within seconds of a picture', () => {
  let now = 1_000_000;
  let tell: (pointing: CompassPointing) => void = () => {};
  let ended = 0;
  const watch = createPointingWatch(
    HERE,
    () => now,
    (_place, _at, onPointing) => {
      tell = onPointing;
      return () => (ended += 1);
    },
  );
  expect(watch.at(now)).toBeNull();
  expect(watch.pointing.value).toBeNull();
  watch.start();
  watch.start();
  for (let second = 0; second < 60; second += 1) {
    now += 1000;
    tell({ kind: 'pointing', direction: { azimuthRadians: (second * Math.PI) / 180, elevationRadians: Math.PI / 6 }, errorDegrees: null });
  }
  expect(watch.at(1_000_000 + 31_200)).toEqual({ bearingDegreesTrue: expect.closeTo(30, 9), tiltDegrees: expect.closeTo(30, 9) });
  // The camera lay over the page for some seconds: the last that was heard stands.
  expect(watch.at(now + 7000)?.bearingDegreesTrue).toBeCloseTo(59, 9);
  expect(watch.at(now + 9000)).toBeNull();
  tell({ kind: 'nowhere' });
  expect(watch.pointing.value).toEqual({ kind: 'nowhere' });
  watch.end();
  watch.end();
  expect(ended).toBe(1);
});
