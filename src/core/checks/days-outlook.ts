import { sunDay } from '../earth/sun.ts';
import { jobAir } from '../job/job-air.ts';
import type { Job } from '../job/job.ts';
import { type CloudStanding, cloudMinima, cloudStanding } from '../place/air-rules.ts';
import { facingGrid } from '../place/facing-choice.ts';
import type { PlannedJob } from '../plan/planned-job.ts';
import type { Reading } from '../sky/reading-of.ts';
import { windFromVector } from '../earth/wind-vector.ts';
import { degreesFromRadians } from '../units/angle.ts';
import { knotsFromMetresPerSecond, METRES_PER_FOOT, metresFromFeet, metresPerSecondFromKnots } from '../units/quantity.ts';
import { dayRequest } from './day-grid.ts';
import type { UnitText } from '../text/unit-text.ts';

/** One hour of one day, as far as it is known: what nobody has looked up is null and takes no part. */
export interface HourOutlook {
  readonly readMilliseconds: number;
  readonly dark: boolean;
  readonly sunTooNear: boolean;
  readonly sunMarginDegrees: number | null;
  /** Where the hour's winds and clouds are from; null where no forecast is near enough. */
  readonly forecast: { readonly validMilliseconds: number; readonly issuedMilliseconds: number | null; readonly source: string } | null;
  readonly wind: { readonly fromDegrees: number; readonly knots: number; readonly directionKnown: boolean } | null;
  /** Knots per 1,000 ft. */
  readonly shear: number | null;
  readonly cloud: CloudStanding;
  readonly visibilityMetres: number | null;
  /** What forbids it, in a few words; empty for nothing that is known. */
  readonly against: readonly string[];
  /** 0 to 100, higher is better, of what is known; null where something forbids it. */
  readonly score: number | null;
}

/** One day of hours. */
export interface DayOutlook {
  readonly noonMilliseconds: number;
  /** Booked, kept free, or only forecast. */
  readonly kind: 'booked' | 'spare' | 'forecast';
  readonly hours: readonly HourOutlook[];
}

/** A run of hours that nothing known forbids, the best first. */
export interface DayWindow {
  readonly fromMilliseconds: number;
  readonly toMilliseconds: number;
  readonly best: HourOutlook;
  readonly reasons: readonly string[];
}

const HOUR_MILLISECONDS = 3_600_000;
/** A forecast stands for this much before and after its hour. */
const REACH_MILLISECONDS = 3 * HOUR_MILLISECONDS;
/**
 * What each hour loses of 100: a judgement, shown beside the numbers it weighs (common practice, no source). Wind from 10
 * kt on, shear for each knot in 1,000 ft, cloud below in parts, and half of what the sun and the crowd's facing cost.
 */
export const DAY_WEIGHTS = { windPerKnot: 1, windFromKnots: 10, shearPerKnot: 4, partlyHidden: 25, facing: 0.5 } as const;

/** The hours of light of the booked day, the spare days and every day with a forecast, with the job's own facing. */
export function daysOutlook(planned: PlannedJob, sky: Reading): DayOutlook[] {
  const { job, air } = planned;
  const request = dayRequest(planned, sky);
  const instants: readonly (readonly [number, DayOutlook['kind']])[] = [
    [Date.parse(job.readTime), 'booked'],
    ...job.booking.spareTimes.map((time) => [Date.parse(time), 'spare'] as const),
    ...job.forecasts.map(({ validTime }) => [Date.parse(validTime), 'forecast'] as const),
  ];
  const days = new Map<number, DayOutlook['kind']>();
  for (const [instant, kind] of instants) {
    const { noonMilliseconds } = sunDay(air.site, instant);
    // Noon of one day differs by seconds between its hours.
    const known = [...days.keys()].find((noon) => Math.abs(noon - noonMilliseconds) < 6 * HOUR_MILLISECONDS);
    if (known === undefined) days.set(noonMilliseconds, kind);
  }
  return [...days]
    .map(([noonMilliseconds, kind]): DayOutlook => {
      const { dawnMilliseconds, duskMilliseconds } = sunDay(air.site, noonMilliseconds);
      const from = Math.ceil((dawnMilliseconds ?? noonMilliseconds - 12 * HOUR_MILLISECONDS) / HOUR_MILLISECONDS) * HOUR_MILLISECONDS;
      const to = duskMilliseconds ?? noonMilliseconds + 12 * HOUR_MILLISECONDS;
      const count = Math.max(1, Math.floor((to - from) / HOUR_MILLISECONDS) + 1);
      const hours = Array.from({ length: count }, (_, index) => from + index * HOUR_MILLISECONDS).map((at) => hourOutlook(planned.job, at, request, planned));
      return { noonMilliseconds, kind, hours };
    })
    .toSorted((one, other) => one.noonMilliseconds - other.noonMilliseconds);
}

function hourOutlook(job: Job, readMilliseconds: number, request: ReturnType<typeof dayRequest>, { plan, air }: PlannedJob): HourOutlook {
  const near = job.forecasts
    .map((forecast) => ({ forecast, awayMilliseconds: Math.abs(Date.parse(forecast.validTime) - readMilliseconds) }))
    .filter(({ awayMilliseconds }) => awayMilliseconds <= REACH_MILLISECONDS)
    .toSorted((one, other) => one.awayMilliseconds - other.awayMilliseconds)[0]?.forecast;
  const hourAir = near === undefined ? null : jobAir({ ...job, winds: near.winds, conditions: near.conditions });
  const found = hourAir?.found.ok === true ? hourAir.found : null;
  const [cell] = facingGrid({
    ...request,
    wind: found === null ? request.wind : found.wind,
    facingsRadians: [plan.frame.facingRadians],
    readTimesMilliseconds: [readMilliseconds],
  });
  if (cell === undefined) throw new RangeError('one facing at one hour is one cell');
  const shear = hourAir?.shear ?? null;
  const shearKnots = shear === null ? null : knotsFromMetresPerSecond(Math.hypot(shear.eastPerSecond, shear.northPerSecond) * METRES_PER_FOOT * 1000);
  const cloud = cloudStanding(air.layerHeightMetres, hourAir?.clouds ?? null);
  const visibilityMetres = hourAir?.visibilityMetres ?? null;
  const knots = found === null ? null : knotsFromMetresPerSecond(windFromVector(found.wind).speedMetresPerSecond);
  const minima = cloudMinima(air.layerHeightMetres);
  const against = [
    ...(cell.dark ? ['no light'] : []),
    ...(cell.sunTooNear ? ['crowd looks into the sun'] : []),
    ...(cloud === 'in cloud' || cloud === 'too near' || cloud === 'hidden from below' ? [cloud] : []),
    ...(visibilityMetres !== null && visibilityMetres < minima.visibilityMetres ? ['visibility'] : []),
  ];
  const lost =
    (knots === null ? 0 : DAY_WEIGHTS.windPerKnot * Math.max(0, knots - DAY_WEIGHTS.windFromKnots)) +
    (shearKnots === null ? 0 : DAY_WEIGHTS.shearPerKnot * shearKnots) +
    (cloud === 'partly hidden' || cloud === 'unknown top' ? DAY_WEIGHTS.partlyHidden : 0) +
    DAY_WEIGHTS.facing * (100 - cell.score);
  return {
    readMilliseconds,
    dark: cell.dark,
    sunTooNear: cell.sunTooNear,
    sunMarginDegrees: cell.sunMarginRadians === null ? null : degreesFromRadians(cell.sunMarginRadians),
    forecast:
      near === undefined
        ? null
        : {
            validMilliseconds: Date.parse(near.validTime),
            issuedMilliseconds: near.issuedTime === null ? null : Date.parse(near.issuedTime),
            source: near.source,
          },
    wind:
      found === null || knots === null
        ? null
        : { fromDegrees: degreesFromRadians(windFromVector(found.wind).fromRadians), knots, directionKnown: found.directionKnown },
    shear: shearKnots,
    cloud,
    visibilityMetres,
    against,
    score: against.length > 0 ? null : Math.max(0, 100 - lost),
  };
}

const WINDOWS = 5;
/** An hour joins a window while it is worse than its best by no more than this. */
const ALIKE = 12;

/** The best runs of hours of all days with their reasons, best first; hours without a forecast stand behind those with one. */
export function bestWindows(days: readonly DayOutlook[], units: UnitText): DayWindow[] {
  const windows = days.flatMap(({ hours }) => {
    const runs: HourOutlook[][] = [];
    for (const hour of hours) {
      const run = runs.at(-1);
      const last = run?.at(-1);
      const joins =
        last !== undefined &&
        last.score !== null &&
        hour.score !== null &&
        (last.wind === null) === (hour.wind === null) &&
        Math.abs(last.score - hour.score) <= ALIKE;
      if (joins) run?.push(hour);
      else if (hour.score !== null) runs.push([hour]);
      else runs.push([]);
    }
    return runs.flatMap((run): DayWindow[] => {
      const [first] = run;
      const last = run.at(-1);
      if (first === undefined || last === undefined) return [];
      const best = run.reduce((better, hour) => ((hour.score ?? 0) > (better.score ?? 0) ? hour : better));
      return [{ fromMilliseconds: first.readMilliseconds, toMilliseconds: last.readMilliseconds, best, reasons: reasonsOf(best, units) }];
    });
  });
  const rank = ({ best }: DayWindow): number => (best.score ?? 0) - (best.wind === null ? 200 : 0);
  return windows.toSorted((one, other) => rank(other) - rank(one)).slice(0, WINDOWS);
}

function reasonsOf({ wind, shear, cloud, sunMarginDegrees, forecast }: HourOutlook, units: UnitText): string[] {
  return [
    wind === null
      ? 'wind not looked up'
      : wind.directionKnown
        ? `${units.speed.own(wind.knots)} from ${String(Math.round(wind.fromDegrees) % 360).padStart(3, '0')}\u00b0 true at the layer`
        : 'wind light and variable',
    ...(shear === null ? [] : [`shear ${units.shear(metresPerSecondFromKnots(shear) / metresFromFeet(1000))}`]),
    cloud === 'not checked' ? 'cloud not looked up' : cloud === 'clear' ? 'clear of cloud' : cloud,
    ...(sunMarginDegrees === null ? [] : [`sun ${Math.round(sunMarginDegrees)}\u00b0 off the word`]),
    ...(forecast === null ? [] : [forecast.source === '' ? 'source not entered' : forecast.source]),
  ];
}
