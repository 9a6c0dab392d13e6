import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { parseOverlay } from '../../../src/core/place/overlay.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';
import { plannedChecks } from '../../../src/core/checks/planned-checks.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { withShips } from '../../../src/ui/draw/entries/ShipsSettings.tsx';

function planned(job: Job): PlannedJob {
  const result = planJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return { job, ...result.value };
}

function statusOf(
  job: Job,
  id: string,
  conditions: Job['conditions'] = DEMO_JOB.conditions,
  overlay: Parameters<typeof plannedChecks>[2] = null,
): string | undefined {
  const plan = planned({ ...job, conditions });
  return plannedChecks(plan, readingOf(plan, null), overlay).checks.find((check) => check.id === id)?.status;
}

function square(eastDegrees: number, floorFeet: number): NonNullable<Parameters<typeof plannedChecks>[2]> {
  const { longitudeDegrees: x, latitudeDegrees: y } = DEMO_JOB.site;
  const ring = [
    [-0.2, -0.2],
    [0.2, -0.2],
    [0.2, 0.2],
    [-0.2, 0.2],
    [-0.2, -0.2],
  ].map(([east = 0, north = 0]) => [x + eastDegrees + east, y + north]);
  const read = parseOverlay({ type: 'Feature', properties: { name: 'Range', floorFeet }, geometry: { type: 'Polygon', coordinates: [ring] } });
  if (!read.ok) throw new Error(read.reason);
  return read.overlay;
}

describe('the checks of a planned job', () => {
  it('take the read time for finished: the last stroke ends on it, not after it', () => {
    expect(statusOf(DEMO_JOB, 'reading')).not.toBe('stop');
  });

  it('know that bingo fuel comes before the reserve, and may come before the last stroke', () => {
    const withBingo = (bingoFuelGallons: number | null, otherFlyingMinutes: number): string | undefined =>
      statusOf(
        { ...DEMO_JOB, ships: DEMO_JOB.ships.map((ship) => ({ ...ship, fuelGallons: 52, fuelGallonsPerHour: 14, otherFlyingMinutes, bingoFuelGallons })) },
        'fuel-0',
      );
    expect(withBingo(null, 30)).toBe('ok');
    expect(withBingo(40, 30)).toBe('ok');
    expect(withBingo(46, 30)).toBe('caution');
    expect(withBingo(51, 30)).toBe('stop');
  });

  it('look at the change of wind above and below the layer, not at their mean', () => {
    const layer = DEMO_JOB.layer.altitudeFeet;
    const rows = (strongest: number) =>
      [layer - 3_000, layer, layer + 3_000].map((altitudeFeet, index) => ({
        altitudeFeet,
        fromDegreesTrue: 90,
        speedKnots: index === 1 ? strongest : 5,
        temperatureCelsius: null,
      }));
    expect(statusOf({ ...DEMO_JOB, winds: rows(25) }, 'shear')).toBe('caution');
    expect(statusOf({ ...DEMO_JOB, winds: rows(10) }, 'shear')).toBe('ok');
  });

  it('know an empty tank, an hour in the dark, and clouds only when somebody has looked', () => {
    expect(statusOf({ ...DEMO_JOB, ships: DEMO_JOB.ships.map((ship) => ({ ...ship, smokeOilPounds: 0 })) }, 'oil-0')).toBe('stop');
    expect(statusOf({ ...DEMO_JOB, readTime: '2027-06-19T05:00:00Z' }, 'daylight')).toBe('stop');
    expect(statusOf(DEMO_JOB, 'cloud')).toBe('not-checked');
    expect(
      statusOf(DEMO_JOB, 'cloud', { altimeterHectopascals: null, visibilityStatuteMiles: 10, clouds: [{ baseFeet: 10_000, topFeet: 12_000, oktas: 3 }] }),
    ).toBe('stop');
  });

  it('hold the flight against the user\u2019s areas, by place and by height', () => {
    expect(statusOf(DEMO_JOB, 'areas')).toBe('not-checked');
    expect(statusOf(DEMO_JOB, 'areas', DEMO_JOB.conditions, square(0, 0))).toBe('stop');
    expect(statusOf(DEMO_JOB, 'areas', DEMO_JOB.conditions, square(3, 0))).toBe('ok');
    expect(statusOf(DEMO_JOB, 'areas', DEMO_JOB.conditions, square(0, 12_000))).toBe('ok');
  });

  it('measure how far apart ships are planned', () => {
    expect(statusOf(DEMO_JOB, 'separation')).toBeUndefined();
    const two = planned(withShips(DEMO_JOB, 2));
    const check = plannedChecks(two, readingOf(two, null), null).checks.find(({ id }) => id === 'separation');
    expect(check?.status).toBe('ok');
    expect(check?.value?.kind === 'distance' ? check.value.metres : 0).toBeGreaterThan(984 * 0.3048);
  });
});
