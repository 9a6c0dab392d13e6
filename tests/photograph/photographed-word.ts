import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { type JobPlan, planJob } from '../../src/core/plan/plan-job.ts';
import { siteFromAir } from '../../src/core/plan/place.ts';
import { type Trail, trailsFromPlan } from '../../src/core/sky/trail.ts';
import { uniformFrom } from '../flight/random.ts';
import { type Photograph, type PhotographOrder, takePhotograph } from './render-photograph.ts';

/** A word that was written, carried by a wind a little other than the one believed, and photographed from the site. */
export interface PhotographedWord {
  readonly planned: JobPlan;
  readonly trails: readonly Trail[];
  readonly atSeconds: number;
  readonly order: PhotographOrder;
  /** How much farther the air truly went. */
  readonly driftEastMetres: number;
  readonly driftNorthMetres: number;
  /** How much faster it went while the word was written, metres a second: smoke older than the word's middle went farther. */
  readonly stretchEast: number;
  readonly stretchNorth: number;
  /** As the picture's own data say, up to 10 % wrong. */
  readonly saidFocalPixels: number;
  readonly take: () => Promise<Photograph>;
}

export interface WordOrder {
  readonly word: string;
  /** After the last smoke. */
  readonly afterSeconds: number;
  readonly seed: number;
  /** Draws how wrong the wind and the layer's height are; the seed where it is left out. */
  readonly airSeed?: number;
  readonly sky: 'clear' | 'cloud' | 'sun';
  readonly widthPixels?: number;
}

const plans = new Map<string, JobPlan>();

export function plannedWord(word: string): JobPlan {
  const kept = plans.get(word);
  if (kept !== undefined) return kept;
  const result = planJob({ ...DEMO_JOB, text: word });
  if (!result.ok) throw new Error(`${word}: ${result.problem.kind}`);
  plans.set(word, result.value);
  return result.value;
}

export const DIFFUSIVITY = 8;
export const FIRST_SIGMA_METRES = 6;

/** Sets a picture up: all of its errors drawn from the seed. */
export function photographedWord({ word, afterSeconds, seed, airSeed = seed, sky, widthPixels = 1600 }: WordOrder): PhotographedWord {
  const uniform = uniformFrom(seed);
  const even = (most: number): number => most * (2 * uniform() - 1);
  const ofAir = uniformFrom(airSeed * 101 + 7);
  const evenAir = (most: number): number => most * (2 * ofAir() - 1);
  const planned = plannedWord(word);
  const { plan, air } = planned;
  const trails = trailsFromPlan(plan, 20);
  const atSeconds = plan.durationSeconds + afterSeconds;
  // As far as the air goes beyond what tracking believes: 45, 220 and 465 m (rms, a part) 20, 300 and 600 s after the last
  // smoke, in six flights of the tests whose wind wanders by 1.5 kt.
  const [faultEast, faultNorth] = [evenAir(80), evenAir(80)];
  const driftEastMetres = faultEast + evenAir(1.3) * afterSeconds;
  const driftNorthMetres = faultNorth + evenAir(1.3) * afterSeconds;
  const layerMetres = air.layerAboveSiteMetres * (1 + evenAir(0.01));
  // As far as tracking errs on the wind while a word is written: by 0.2 m/s a part (see priorFor).
  const stretchEast = evenAir(0.35);
  const stretchNorth = evenAir(0.35);
  const middleSeconds = meanAgeSeconds(trails, atSeconds);
  const smoke = trails.flatMap(({ points, kilogramsPerMetre }) =>
    points.flatMap((to, index) => {
      const from = points[index - 1];
      if (from === undefined) return [];
      const length = Math.hypot(to.airEastMetres - from.airEastMetres, to.airNorthMetres - from.airNorthMetres);
      const steps = Math.max(1, Math.round(length / 8));
      return Array.from({ length: steps }, (_, step) => {
        const share = (step + 0.5) / steps;
        const ground = siteFromAir(
          {
            airEastMetres: from.airEastMetres + share * (to.airEastMetres - from.airEastMetres),
            airNorthMetres: from.airNorthMetres + share * (to.airNorthMetres - from.airNorthMetres),
          },
          air.wind,
          atSeconds,
        );
        const ageSeconds = atSeconds - from.laidAtSeconds - share * (to.laidAtSeconds - from.laidAtSeconds);
        return {
          east: ground.eastMetres + driftEastMetres + stretchEast * (ageSeconds - middleSeconds),
          north: ground.northMetres + driftNorthMetres + stretchNorth * (ageSeconds - middleSeconds),
          ageSeconds,
          kilograms: (kilogramsPerMetre * length) / steps,
        };
      });
    }),
  );
  const east = smoke.reduce((sum, bit) => sum + bit.east, 0) / smoke.length;
  const north = smoke.reduce((sum, bit) => sum + bit.north, 0) / smoke.length;
  const away = Math.hypot(east, north, layerMetres);
  const half = Math.max(...smoke.map((bit) => Math.hypot(bit.east - east, bit.north - north)));
  const bearingDegrees = (Math.atan2(east, north) * 180) / Math.PI + even(2);
  const tiltDegrees = (Math.asin(layerMetres / away) * 180) / Math.PI + even(2);
  // The word fills about two thirds of the picture.
  const focalPixels = (0.33 * widthPixels * away) / half;
  const sunOff = sky === 'sun' ? 15 + 15 * uniform() : 100;
  const order: PhotographOrder = {
    smoke,
    layerMetres,
    widthPixels,
    heightPixels: Math.round(widthPixels * 0.75),
    bearingDegrees,
    tiltDegrees,
    rollDegrees: even(3),
    focalPixels,
    distortion: 0.02,
    sunBearingDegrees: bearingDegrees + sunOff,
    sunElevationDegrees: Math.min(70, tiltDegrees + 8),
    cloud: sky === 'cloud' ? 0.35 : 0,
    seed,
    diffusivity: DIFFUSIVITY,
    firstSigmaMetres: FIRST_SIGMA_METRES,
  };
  return {
    planned,
    trails,
    atSeconds,
    order,
    driftEastMetres,
    driftNorthMetres,
    stretchEast,
    stretchNorth,
    saidFocalPixels: focalPixels * (1 + even(0.1)),
    take: () => takePhotograph(order),
  };
}

/** Over the metres of all trails. */
function meanAgeSeconds(trails: readonly Trail[], atSeconds: number): number {
  let [metres, sum] = [0, 0];
  for (const { points } of trails)
    for (const [index, to] of points.slice(1).entries()) {
      const from = points[index]!;
      const length = Math.hypot(to.airEastMetres - from.airEastMetres, to.airNorthMetres - from.airNorthMetres);
      metres += length;
      sum += length * (atSeconds - (from.laidAtSeconds + to.laidAtSeconds) / 2);
    }
  return sum / metres;
}

/** The same smoke from straight below it, without lens, grain of cloud or slant: what a picture could show at best. */
export function fromStraightBelow({ order, planned }: PhotographedWord, widthPixels: number): PhotographOrder {
  const { smoke } = order;
  const east = smoke.reduce((sum, bit) => sum + bit.east, 0) / smoke.length;
  const north = smoke.reduce((sum, bit) => sum + bit.north, 0) / smoke.length;
  const half = Math.max(...smoke.map((bit) => Math.hypot(bit.east - east, bit.north - north)));
  return {
    ...order,
    smoke: smoke.map((bit) => ({ ...bit, east: bit.east - east, north: bit.north - north })),
    widthPixels,
    heightPixels: Math.round(widthPixels * 0.75),
    // Overhead, the picture's upper edge lies away from where the camera would tilt on to: towards the crowd, as letters' tops do.
    bearingDegrees: (planned.plan.frame.facingRadians * 180) / Math.PI,
    tiltDegrees: 90,
    rollDegrees: 0,
    focalPixels: (0.42 * widthPixels * order.layerMetres) / half,
    // A low sun leaves the sky overhead even.
    sunElevationDegrees: 3,
    distortion: 0,
    cloud: 0,
  };
}
