import { describe, expect, test } from 'vitest';
import { jobPlanGeoJson } from '../../../src/core/plan/job-plan-geojson.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { faultsOf } from './export-checker.ts';
import { randomJob } from './random-job.ts';

type Exported = Parameters<typeof faultsOf>[0];
type Feature = Exported['features'][number];

function exportedJob(seed: number): { readonly exported: Exported; readonly letters: number; readonly ships: number } | null {
  const job = randomJob(seed);
  const result = planJob(job);
  if (!result.ok) return null;
  const exported = JSON.parse(JSON.stringify(jobPlanGeoJson(job, result.value.plan))) as Exported;
  return { exported, letters: [...job.text.replaceAll(' ', '')].length + job.drawings.length, ships: job.ships.length };
}

test('forty random jobs of one to three ships are sound by their export alone', { timeout: 120_000 }, () => {
  const made = Array.from({ length: 40 }, (_, seed) => ({ seed, job: exportedJob(seed) })).filter(({ job }) => job !== null);
  expect(made.length).toBeGreaterThan(20);
  expect(new Set(made.map(({ job }) => job!.ships)).size).toBe(3);
  for (const { seed, job } of made) expect(faultsOf(job!.exported, job!.letters), String(seed)).toEqual([]);
});

describe('a checker of exports notices', () => {
  const seed = Array.from({ length: 40 }, (_, each) => each).find((each) => (exportedJob(each)?.ships ?? 0) === 2)!;
  const { exported, letters } = exportedJob(seed)!;
  const changed = (which: (feature: Feature, index: number) => boolean, change: (feature: Feature) => Feature): Exported => ({
    ...exported,
    features: exported.features.map((feature, index) => (which(feature, index) ? change(feature) : feature)),
  });
  const moved =
    (byDegrees: number) =>
    (feature: Feature): Feature => ({ ...feature, geometry: { coordinates: feature.geometry.coordinates.map(([lon, lat]) => [lon!, lat! + byDegrees]) } });
  const firstSmoke = exported.features.findIndex(({ properties }) => properties['kind'] === 'smoke');
  const [one, other] = [...new Set(exported.features.map(({ properties }) => String(properties['ship'])))];

  test('a stroke that lies elsewhere', () => {
    expect(
      faultsOf(
        changed((_, index) => index === firstSmoke, moved(1e-4)),
        letters,
      ).join(),
    ).toContain('from where the next begins');
  });
  test('a letter that is not written', () => {
    expect(faultsOf({ ...exported, features: exported.features.filter(({ properties }) => properties['letterIndex'] !== 0) }, letters).join()).toContain(
      `${letters - 1} of ${letters} letters`,
    );
  });
  test('a bank that the turns exceed', () => {
    expect(
      faultsOf({ ...exported, writingBankDegrees: exported.writingBankDegrees * 0.8, turningBankDegrees: exported.turningBankDegrees * 0.8 }, letters).join(),
    ).toContain('the bank allows');
  });
  test('an airspeed nobody flies', () => {
    expect(faultsOf({ ...exported, trueAirspeedKnots: exported.trueAirspeedKnots * 0.96 }, letters).join()).toContain(' kt of ');
  });
  test('a run-in shorter than promised', () => {
    expect(faultsOf({ ...exported, runInSeconds: exported.runInSeconds + 20 }, letters).join()).toContain('its run-in turns');
  });
  test('ships nearer than promised', () => {
    const nearer = changed(
      ({ properties }) => properties['ship'] === other,
      (feature) => ({
        ...feature,
        properties: { ...feature.properties, ship: other },
        geometry: exported.features.find(({ properties }) => properties['ship'] === one)!.geometry,
      }),
    );
    const long = { ...exported, separationMetres: exported.separationMetres + 20_000 };
    expect(faultsOf(long, letters).join()).toContain(' m apart at ');
    expect(faultsOf(nearer, letters)).not.toEqual([]);
  });
  test('two ships that wait at one height', () => {
    const [circle] = exported.waitingCircles;
    expect(faultsOf({ ...exported, waitingCircles: exported.waitingCircles.map(() => circle!) }, letters).join()).toContain('at one height');
  });
});
