import { describe, expect, test } from 'vitest';
import { type WindProfile } from '../../../src/core/earth/wind-profile.ts';
import { windProfileFromJob } from '../../../src/core/job/job-winds.ts';
import type { JobWind } from '../../../src/core/job/job.ts';
import { type LayerChoice, type LayerRequest, rankLayers, USUAL_LAYERS_METRES } from '../../../src/core/place/layer-choice.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { feetFromMetres, metresFromFeet } from '../../../src/core/units/quantity.ts';
import { plannedText } from '../sky/planned.ts';

const row = (altitudeFeet: number, fromDegreesTrue: number | null, speedKnots: number, temperatureCelsius: number | null = null): JobWind => ({
  altitudeFeet,
  fromDegreesTrue,
  speedKnots,
  temperatureCelsius,
});

function profileOf(...rows: JobWind[]): WindProfile {
  const found = windProfileFromJob(rows);
  if (!found.ok) throw new Error(found.reason);
  return found.profile;
}

const plan = plannedText('GO', { oilKilogramsPerSecond: 0.34 });
const QUIET = profileOf(row(6_000, 60, 9, 11), row(9_000, 70, 11, 5), row(12_000, 80, 14, -1), row(18_000, 80, 22, -14));
const REQUEST: LayerRequest = {
  plan,
  heightsMetres: USUAL_LAYERS_METRES,
  siteElevationMetres: 500,
  viewElevationRadians: radiansFromDegrees(35),
  readSeconds: plan.durationSeconds + 60,
  profile: QUIET,
  clouds: [],
  visibilityMetres: null,
  secondsAtHeight: 3_000,
};

const at = (layers: readonly LayerChoice[], feet: number): LayerChoice => {
  const found = layers.find((layer) => Math.abs(feetFromMetres(layer.heightMetres) - feet) < 1);
  if (found === undefined) throw new Error(`no layer at ${feet} ft`);
  return found;
};

describe('layers, ranked', () => {
  const layers = rankLayers(REQUEST);

  test('every layer from 7,000 to 17,000 ft, best first', () => {
    expect(layers).toHaveLength(21);
    expect(
      layers
        .map((layer) => feetFromMetres(layer.heightMetres))
        .sort((a, b) => a - b)
        .at(-1),
    ).toBeCloseTo(17_000, 6);
    const standings = layers.map((layer) => ['usable', 'poor', 'unusable'].indexOf(layer.standing));
    expect(standings).toEqual([...standings].sort((a, b) => a - b));
  });

  test('about two miles up comes out best in quiet air (common practice, no source)', () => {
    const best = feetFromMetres(layers[0]?.heightMetres ?? NaN);
    expect(best).toBeGreaterThan(9_000);
    expect(best).toBeLessThanOrEqual(12_500);
  });

  test('oxygen is advised, then required, and costs', () => {
    expect(at(layers, 10_000).oxygen).toBe('none');
    expect(at(layers, 12_500).reasons).toContain('oxygen advised');
    expect(at(layers, 13_000).reasons).toContain('oxygen required');
    expect(at(layers, 17_000).score).toBeLessThan(at(layers, 10_000).score);
  });

  test('each row carries what it was judged by', () => {
    const layer = at(layers, 10_500);
    expect(layer.wind.ok).toBe(true);
    expect(layer.shear).not.toBeNull();
    expect(layer.temperatureSource).toBe('winds');
    expect(layer.window?.letters).toHaveLength(2);
    expect(layer.readable?.radiusMetres).toBeGreaterThan(10_000);
    expect(layer.standing).toBe('usable');
    expect(layer.reasons).toContain('in reach of convection');
    expect(at(layers, 12_000).reasons).not.toContain('in reach of convection');
  });
});

describe('what spoils a layer', () => {
  const judged = (changes: Partial<LayerRequest>, feet: number): LayerChoice =>
    at(rankLayers({ ...REQUEST, heightsMetres: [metresFromFeet(feet)], ...changes }), feet);

  test('cloud', () => {
    const clouds = [{ baseMetres: metresFromFeet(9_000), topMetres: metresFromFeet(10_000), oktas: 8 }];
    expect(judged({ clouds }, 9_500)).toMatchObject({ standing: 'unusable', reasons: expect.arrayContaining(['in cloud']) });
    expect(judged({ clouds }, 8_800)).toMatchObject({ standing: 'unusable', reasons: expect.arrayContaining(['too near cloud']) });
    expect(judged({ clouds }, 13_000)).toMatchObject({ standing: 'unusable', reasons: expect.arrayContaining(['hidden from below']) });
    expect(judged({ clouds }, 7_000).standing).toBe('usable');
    expect(judged({ clouds: null }, 9_500).cloud).toBe('not checked');
  });

  test('a site at 10,000 ft: layers below it are no layers, those just above are low', () => {
    const layers = rankLayers({ ...REQUEST, siteElevationMetres: metresFromFeet(10_000) });
    expect(at(layers, 9_000)).toMatchObject({ standing: 'unusable', window: null, readable: null, reasons: expect.arrayContaining(['below the site']) });
    expect(at(layers, 12_000).reasons).toContain('low over the crowd');
    expect(layers[0]?.aboveSiteMetres).toBeGreaterThanOrEqual(metresFromFeet(5_000));
  });

  test('80 kt, calm, light and variable, no winds at all', () => {
    expect(judged({ profile: profileOf(row(10_000, 270, 80)) }, 10_000)).toMatchObject({ standing: 'poor', reasons: expect.arrayContaining(['strong wind']) });
    expect(judged({ profile: profileOf(row(10_000, 0, 0)) }, 10_000).reasons).not.toContain('light and variable');
    expect(judged({ profile: profileOf(row(10_000, null, 0)) }, 10_000).reasons).toContain('light and variable');
    expect(judged({ profile: null }, 10_000)).toMatchObject({ standing: 'poor', shear: null, reasons: expect.arrayContaining(['wind not known']) });
    expect(judged({ profile: profileOf(row(9_000, 270, 10)) }, 10_000).reasons).toContain('wind held from another height');
  });

  test('shear shortens the reading and is named', () => {
    const sheared = judged({ profile: profileOf(row(9_000, 270, 10), row(10_500, 360, 30)) }, 9_750);
    expect(sheared.reasons).toContain('strong shear');
    const calmer = judged({}, 9_750);
    expect(sheared.window?.until.likelySeconds ?? NaN).toBeLessThan(calmer.window?.until.likelySeconds ?? NaN);
  });

  test('too little oil never reads whole', () => {
    expect(judged({ plan: plannedText('GO', { oilKilogramsPerSecond: 0.001 }) }, 10_000)).toMatchObject({
      standing: 'unusable',
      reasons: expect.arrayContaining(['never reads whole']),
    });
  });

  test('an inversion is stable air, a steep lapse is not', () => {
    expect(judged({ profile: profileOf(row(9_000, 270, 10, 0), row(12_000, 270, 10, 6)) }, 10_500).reasons).toContain('stable air');
    expect(judged({ profile: profileOf(row(9_000, 270, 10, 15), row(12_000, 270, 10, 6.5)) }, 10_500).reasons).not.toContain('stable air');
  });

  test('the text is moved to hang as wished, whichever way the crowd looks: high up it is nearer and outlasts the haze', () => {
    for (const facingRadians of [0, Math.PI / 2, Math.PI, (3 * Math.PI) / 2]) {
      const thin = plannedText('GO', { oilKilogramsPerSecond: 0.15, frame: { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } } });
      const until = (degrees: number): number =>
        judged(
          { plan: thin, viewElevationRadians: radiansFromDegrees(degrees), readSeconds: 300, visibilityMetres: 16_600, profile: profileOf(row(10_000, 0, 0)) },
          10_000,
        ).window?.letters[0]?.until.likelySeconds ?? NaN;
      // 2.5 km up: 2.6 km away at 80 degrees, 5.1 km at 30.
      expect(until(80)).toBeGreaterThan(1.2 * until(30));
    }
  });

  test('and its wind is allowed for: from any side a light wind brings it there', () => {
    const thin = plannedText('GO', { oilKilogramsPerSecond: 0.15 });
    const until = (knots: number, from: number): number =>
      judged({ plan: thin, readSeconds: 300, visibilityMetres: 16_600, profile: profileOf(row(10_000, from, knots), row(12_000, from, knots)) }, 10_000).window
        ?.letters[0]?.until.likelySeconds ?? NaN;
    const still = until(0, 0);
    for (const from of [0, 90, 180, 270]) expect(Math.abs(until(4, from) / still - 1)).toBeLessThan(0.06);
  });
});
