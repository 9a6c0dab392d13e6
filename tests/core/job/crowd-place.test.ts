import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { crowdEyes, crowdMiddle, eyeFromMiddle } from '../../../src/core/job/crowd-place.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { JobViewingPlace } from '../../../src/core/job/job.ts';
import { jobAir } from '../../../src/core/job/job-air.ts';

const HILL: JobViewingPlace = { name: 'Hill', latitudeDegrees: 43.8921, longitudeDegrees: -74.4118, elevationFeet: 2000, weight: 3 };

describe('where the crowd stands', () => {
  it('is the site itself, to the bit, without other places', () => {
    expect(crowdMiddle(DEMO_JOB)).toEqual({ latitudeDegrees: 43.8721, longitudeDegrees: -74.4318, elevationMetres: 1640 * 0.3048 });
    expect(jobAir(DEMO_JOB).site).toEqual(crowdMiddle(DEMO_JOB));
  });

  it('is three quarters of the way to a place of three times the weight', () => {
    const job = { ...DEMO_JOB, viewingPlaces: [HILL] };
    const [site, hill] = crowdEyes(job);
    expect([site?.share, hill?.share]).toEqual([0.25, 0.75]);
    const middle = crowdMiddle(job);
    const own = crowdMiddle(DEMO_JOB);
    const whole = siteFromGeodetic(HILL, middle.elevationMetres, own);
    const found = siteFromGeodetic(middle, middle.elevationMetres, own);
    expect(found.eastMetres / whole.eastMetres).toBeCloseTo(0.75, 3);
    expect(found.northMetres / whole.northMetres).toBeCloseTo(0.75, 3);
    expect(middle.elevationMetres).toBeCloseTo((0.25 * 1640 + 0.75 * 2000) * 0.3048, 6);
  });

  it('makes the weighted sum of distances to the middle vanish, whatever the weights', () => {
    const place = fc.record({
      name: fc.constant(''),
      latitudeDegrees: fc.double({ min: 43.6, max: 44.1, noNaN: true }),
      longitudeDegrees: fc.double({ min: -74.8, max: -74.1, noNaN: true }),
      elevationFeet: fc.constant(null),
      weight: fc.double({ min: 0, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 5 }), (viewingPlaces) => {
        const job = { ...DEMO_JOB, viewingPlaces };
        const middle = crowdMiddle(job);
        const sum = crowdEyes(job).reduce(
          ([east, north], eye) => {
            const { eastMetres, northMetres } = eyeFromMiddle(eye, middle);
            return [east + eye.share * eastMetres, north + eye.share * northMetres] as const;
          },
          [0, 0] as readonly [number, number],
        );
        // The two tangent planes differ by their bend, under 2 m at 40 km.
        expect(Math.hypot(...sum)).toBeLessThan(4);
      }),
    );
  });

  it('weighs nobody who stands a continent away: a slipped digit', () => {
    const job = { ...DEMO_JOB, viewingPlaces: [{ ...HILL, longitudeDegrees: 74.4 }] };
    expect(crowdEyes(job).map(({ share }) => share)).toEqual([1, 0]);
    expect(crowdMiddle(job)).toEqual(crowdMiddle(DEMO_JOB));
  });

  it('is everybody at the site where no place has a weight', () => {
    expect(crowdEyes({ site: { ...DEMO_JOB.site, crowdWeight: 0 }, viewingPlaces: [{ ...HILL, weight: 0 }] }).map(({ share }) => share)).toEqual([1, 0]);
  });
});
