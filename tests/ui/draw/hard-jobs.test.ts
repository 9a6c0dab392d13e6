import { describe, expect, test } from 'vitest';
import { HARD_JOBS } from '../../../e2e/hard-jobs.ts';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { temperatureAt } from '../../../src/core/earth/wind-profile.ts';
import { windProfileFromJob } from '../../../src/core/job/job-winds.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { jobAir } from '../../../src/core/job/job-air.ts';
import { type JobPlan, planJob } from '../../../src/core/plan/plan-job.ts';
import { type LayerChoice, rankLayers, USUAL_LAYERS_METRES } from '../../../src/core/place/layer-choice.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresFromFeet } from '../../../src/core/units/quantity.ts';
import { type Briefing, briefingOf, firstSmokeText } from '../../../src/ui/brief/briefing.ts';
import { dayAxes, dayRequest, dayRow } from '../../../src/core/checks/day-grid.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';
import { plannedChecks } from '../../../src/core/checks/planned-checks.ts';
import { type Reading, readingOf } from '../../../src/core/sky/reading-of.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';

function plannedOf(job: Job): { readonly made: JobPlan; readonly planned: PlannedJob; readonly sky: Reading; readonly briefing: Briefing } {
  const result = planJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  const planned: PlannedJob = { job, ...result.value };
  return { made: result.value, planned, sky: readingOf(planned, null), briefing: briefingOf(planned, null) };
}

function layersOf({ plan, job, air, readSeconds }: PlannedJob): LayerChoice[] {
  return rankLayers({
    plan,
    heightsMetres: USUAL_LAYERS_METRES,
    siteElevationMetres: air.site.elevationMetres,
    viewElevationRadians: radiansFromDegrees(job.viewElevationDegrees),
    readSeconds,
    profile: air.profile,
    clouds: null,
    visibilityMetres: null,
    secondsAtHeight: 3_000,
  });
}

/** Where in a value a number is not one, at the first of them; null for none. Functions are passed over. */
function notANumber(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, part] of Object.entries(value)) {
    const found = notANumber(part, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

describe.each(HARD_JOBS)('a job in $in', ({ job, says }) => {
  test('survives its own file', () => {
    expect(parseJob(writeJob(job))).toMatchObject({ ok: true, value: JSON.parse(writeJob(job)) });
  });

  test('is planned, placed, looked at and briefed in finite numbers, and the checks say what is hard', () => {
    const { made, planned, sky, briefing } = plannedOf(job);
    const axes = dayAxes(job, 60);
    const day = [0, 90, 180, 270].map((facing) => dayRow(dayRequest(planned, sky), facing, axes.readTimesMilliseconds));
    const layers = layersOf(planned);
    const checks = plannedChecks(planned, sky, null);
    for (const part of [made, sky, briefing, day, layers, checks]) expect(notANumber(part)).toBeNull();
    for (const [id, status] of says) expect({ id, status: checks.checks.find((check) => check.id === id)?.status }).toEqual({ id, status });
    expect(layers).toHaveLength(USUAL_LAYERS_METRES.length);
    expect(firstSmokeText(briefing, briefing.planned.plan.ships[0]!, unitText())).not.toMatch(/NaN|Infinity|undefined/);
  });
});

const hard = (id: string): Job => {
  const found = HARD_JOBS.find(({ job }) => job.id === id);
  if (found === undefined) throw new Error(`no hard job ${id}`);
  return found.job;
};

describe('at an edge', () => {
  test('a wind carries the word over the antimeridian, and every longitude stays one', () => {
    const { planned, briefing } = plannedOf(hard('antimeridian'));
    const longitudes = briefing.corridor.smokeArea.map((point) => geodeticFromSite(point, planned.air.layerHeightMetres, planned.air.site).longitudeDegrees);
    expect(longitudes.every((longitude) => longitude >= -180 && longitude <= 180)).toBe(true);
    expect(longitudes.some((longitude) => longitude > 179)).toBe(true);
    expect(longitudes.some((longitude) => longitude < -179)).toBe(true);
    // The light stands about 14 km east of the site, on the other side; going round the earth would be 21,000 NM.
    expect(firstSmokeText(briefing, briefing.planned.plan.ships[0]!, unitText())).toMatch(/ \d\.\d NM from Reef light$| 1\d\.\d NM from Reef light$/);
  });

  test('rows in any order give the air of the same rows in order; warmer air above is stable, not a fault', () => {
    const job = hard('inversion');
    const sorted: Job = { ...job, winds: job.winds.toSorted((one, other) => one.altitudeFeet - other.altitudeFeet) };
    expect(jobAir(job)).toEqual(jobAir(sorted));
    const profile = windProfileFromJob(job.winds);
    if (!profile.ok) throw new Error(profile.reason);
    const [below, above] = [9_000, 12_000].map((feet) => temperatureAt(profile.profile, metresFromFeet(feet)).temperatureKelvin);
    expect(above! - below!).toBeCloseTo(4, 6);
    const layer = layersOf(plannedOf(job).planned).find(({ heightMetres }) => Math.abs(heightMetres - metresFromFeet(10_500)) < 1);
    expect(layer?.reasons).toContain('stable air');
  });

  test('layers in or under the ground are listed as what they are, and never taken first', () => {
    const layers = layersOf(plannedOf(hard('high-layer')).planned);
    const under = layers.filter(({ heightMetres }) => heightMetres <= metresFromFeet(10_000));
    expect(under).toHaveLength(7);
    expect(under.every(({ standing, reasons }) => standing === 'unusable' && reasons.includes('below the site'))).toBe(true);
    expect(layers[0]?.aboveSiteMetres).toBeGreaterThan(metresFromFeet(1_000));
  });

  test('a layer below the site is refused with the field to mend', () => {
    expect(parseJob(writeJob({ ...DEMO_JOB, layer: { altitudeFeet: 1_600, temperatureCelsius: null } }))).toMatchObject({
      ok: false,
      reason: expect.stringContaining('must be above the site'),
    });
  });

  test('80 kt are a stop, with the value and the limit said', () => {
    const { planned, sky } = plannedOf(hard('gale'));
    const check = plannedChecks(planned, sky, null).checks.find(({ id }) => id === 'wind');
    expect(check).toMatchObject({ status: 'stop', value: { kind: 'speed' } });
    expect(sky.window.until.highSeconds).toBeLessThan(3_600);
  });

  test('without a wind the plan says so instead of a good answer', () => {
    for (const id of ['no-winds', 'twice', 'far-winds']) {
      const { planned, sky } = plannedOf(hard(id));
      const checks = plannedChecks(planned, sky, null).checks;
      expect(checks.find((check) => check.id === 'wind')?.advice).toContain('still');
      expect(checks.find((check) => check.id === 'reading')?.advice).toContain('still air');
      expect(planned.air.windMissing).not.toBeNull();
    }
  });
});
