import { ordersFor, wordJob } from '../../e2e/flight/fly-word.ts';
import type { PilotOrders } from '../../e2e/flight/pilot-in-page.ts';
import type { Job } from '../../src/core/job/job.ts';
import { unknownRollRate } from '../flight/job-flight.ts';
import { uniformFrom } from '../flight/random.ts';
import type { FlownWordsOptions } from './flown-words.ts';

const METRES_PER_SECOND_PER_KNOT = 1852 / 3600;
/** 3 kt per 1,000 ft. */
const SHEAR_PER_SECOND = (3 * METRES_PER_SECOND_PER_KNOT) / 304.8;

const facing = (word: string, facingDegreesTrue: number): Job => ({ ...wordJob(word), facingDegreesTrue });

/** Gusts of 3 kt, shear of 3 kt per 1,000 ft on a height held within 30 m, slow hands, a fast aircraft, a slow valve and a poor receiver. */
function hardWorld(seed: number): Partial<PilotOrders['world']> {
  const { world } = ordersFor(wordJob('HI'), seed, 10);
  const shearTowards = uniformFrom(seed * 31 + 5)() * 2 * Math.PI;
  return {
    ...rolling(seed),
    turbulenceMetresPerSecond: 3 * METRES_PER_SECOND_PER_KNOT,
    shear: {
      eastPerSecond: SHEAR_PER_SECOND * Math.sin(shearTowards),
      northPerSecond: SHEAR_PER_SECOND * Math.cos(shearTowards),
      heightWanderMetres: 30,
    },
    reactionSeconds: 0.8,
    airspeedMetresPerSecond: world.airspeedMetresPerSecond * 1.05,
    valveOnSeconds: world.valveOnSeconds + 1,
    valveOffSeconds: world.valveOffSeconds + 1,
    fixNoiseMetres: 8,
  };
}

/** What the app does not know of the aircraft: how fast it rolls. */
export function rolling(seed: number): { rollRateDegreesPerSecond: number } {
  return { rollRateDegreesPerSecond: unknownRollRate(seed) };
}

/** Words flown alike, and how many fewer than at 10 kt may fall short of each limit. */
export interface Campaign extends FlownWordsOptions {
  readonly name: string;
  readonly fewer: number;
}

/** The fifty open words, each forecast wrong by so much. */
export const OPEN: readonly Campaign[] = [
  { name: '10 kt off', forecastErrorKnots: 10, seed: 31, fewer: 0, world: rolling },
  { name: '20 kt off', forecastErrorKnots: 20, seed: 131, fewer: 2, world: rolling },
];
/** What else a crowd and a day may be like; `least` of 50 are to be read from straight below, and of the others as many as at 10 kt. */
export const OTHERS: readonly (Campaign & { readonly words: number; readonly least?: number })[] = [
  { name: 'hard', forecastErrorKnots: 10, seed: 431, fewer: 0, words: 50, least: 46, world: hardWorld },
  { name: 'far side', forecastErrorKnots: 10, seed: 531, fewer: 0, words: 10, world: rolling, job: (word) => facing(word, 160) },
  {
    name: 'faces of itself',
    forecastErrorKnots: 10,
    seed: 631,
    fewer: 0,
    words: 10,
    world: rolling,
    job: (word) => {
      const job = facing(word, 250);
      return { ...job, site: { ...job.site, crowdFacingDegreesTrue: 250 } };
    },
  },
];
