import type { Job } from '../../src/core/job/job.ts';
import { airPathLengthMetres, airPoseAt } from '../../src/core/paths/air-path.ts';
import { letterFromAir } from '../../src/core/paths/letter-frame.ts';
import type { JobPlan } from '../../src/core/plan/plan-job.ts';
import { readPlace } from '../../src/core/plan/place.ts';
import { angleBetween, eyePicture, readFromSite, shareOfLetters, wordPose, wordSeen, type WordSeen } from './crowd-eye.ts';
import { driftAtOf } from './job-flight.ts';
import { plannedInk } from './planned-ink.ts';
import type { TextReader } from './read-text.ts';
import type { Puff, SimulatedFlight } from './simulated-flight.ts';
import { slippedSmoke } from './slipped-smoke.ts';

/** Smoke that was truly laid, and the air's way through the flight and beyond. */
export interface TrueSmoke {
  readonly trails: readonly (readonly Puff[])[];
  readonly driftTrack: SimulatedFlight['driftTrack'];
}

/** What was promised of the word when it was hung. */
export interface HungPromise {
  /** Of the text's middle at the last smoke, from the site. */
  readonly eastMetres: number;
  readonly northMetres: number;
  /** The middle of the reading, after the last smoke. */
  readonly levelAfterSeconds: number;
}

/** How a word stood to the crowd. */
export interface CrowdSeen {
  /** In the middle of the reading, and at the last smoke. */
  readonly middle: WordSeen;
  readonly lastSmoke: WordSeen;
  readonly bearingOffDegrees: number;
  readonly elevationOffDegrees: number;
  /** At the last smoke, from where it was promised. */
  readonly offMetres: number;
  /** From straight below is how other measures read it; this is from the site, in the middle of the reading, and at both ends. */
  readonly readSlantOff: string;
  readonly readAsItStands: string;
  readonly readAtEnds: readonly string[];
  readonly shareAsItStands: number;
  /** What the same reader gets of the planned word at its promised place, as old. */
  readonly shareIdeal: number;
}

const DIFFUSIVITY = 10;
const METRES_PER_FOOT = 0.3048;
const DEGREE = Math.PI / 180;

/** Measures true smoke as the eye at the site sees it; without a promise, against the job's own place at the last smoke. */
export async function crowdSeen(
  { trails, driftTrack }: TrueSmoke,
  job: Job,
  { plan, air }: JobPlan,
  promise: HungPromise | null,
  reader: TextReader,
): Promise<CrowdSeen> {
  const above = air.layerAboveSiteMetres;
  const place = readPlace({
    facingRadians: job.facingDegreesTrue * DEGREE,
    viewElevationRadians: job.viewElevationDegrees * DEGREE,
    layerAboveSiteMetres: above,
  });
  const promised = promise ?? { ...place, levelAfterSeconds: 0 };
  const written = trails.filter((trail) => trail.length > 10);
  const driftAt = driftAtOf(driftTrack);
  const lastSeconds = Math.max(...written.map((trail) => trail.at(-1)!.atSeconds));
  const pose = wordPose(slippedSmoke(written, lastSeconds + promised.levelAfterSeconds), plannedInk(plan));
  const lastSmoke = wordSeen(pose, driftAt, lastSeconds, above);
  const middle = wordSeen(pose, driftAt, lastSeconds + promised.levelAfterSeconds, above);
  const letterHeightMetres = job.letters.heightFeet * METRES_PER_FOOT;
  const look = { aboveEyeMetres: above, diffusivity: DIFFUSIVITY, letterHeightMetres };
  const read = (atSeconds: number, slantOffDegrees: number | null): Promise<string> =>
    readFromSite((one) => eyePicture(slippedSmoke(written, atSeconds), pose, driftAt, { ...look, ...one, atSeconds, slantOffDegrees }), reader.read);
  const readAsItStands = await read(lastSeconds + promised.levelAfterSeconds, null);
  const text = job.text.replaceAll(/\s/g, '');
  return {
    middle,
    lastSmoke,
    bearingOffDegrees: angleBetween(middle.bearingDegrees, job.facingDegreesTrue),
    elevationOffDegrees: middle.elevationDegrees - job.viewElevationDegrees,
    offMetres: Math.hypot(lastSmoke.eastMetres - promised.eastMetres, lastSmoke.northMetres - promised.northMetres),
    readSlantOff: await read(lastSeconds + promised.levelAfterSeconds, job.viewElevationDegrees),
    readAsItStands,
    readAtEnds: [await read(lastSeconds, job.viewElevationDegrees), await read(lastSeconds + 2 * promised.levelAfterSeconds, job.viewElevationDegrees)],
    shareAsItStands: shareOfLetters(text, readAsItStands),
    shareIdeal: shareOfLetters(text, await readIdeal(job, plan, place, promised.levelAfterSeconds, look, reader)),
  };
}

/** The planned word, drawn without fault, at its promised place and as old as the flown one. */
async function readIdeal(
  job: Job,
  plan: JobPlan['plan'],
  place: { readonly eastMetres: number; readonly northMetres: number },
  levelAfterSeconds: number,
  look: { readonly aboveEyeMetres: number; readonly diffusivity: number; readonly letterHeightMetres: number },
  reader: TextReader,
): Promise<string> {
  const facing = job.facingDegreesTrue * DEGREE;
  const trails = plan.ships.flatMap(({ legs }) =>
    legs.flatMap((leg): Puff[][] => {
      if (leg.kind !== 'smoke') return [];
      const lengthMetres = airPathLengthMetres(leg.path);
      const count = Math.ceil(lengthMetres / 2.7);
      return [
        Array.from({ length: count + 1 }, (_, index) => {
          const { xMetres, yMetres } = letterFromAir(airPoseAt(leg.path, (lengthMetres * index) / count), plan.frame);
          return {
            atSeconds: leg.startSeconds + ((leg.endSeconds - leg.startSeconds) * index) / count,
            airEastMetres: place.eastMetres + xMetres * Math.cos(facing) - yMetres * Math.sin(facing),
            airNorthMetres: place.northMetres - xMetres * Math.sin(facing) - yMetres * Math.cos(facing),
          };
        }),
      ];
    }),
  );
  const pose = { airEastMetres: place.eastMetres, airNorthMetres: place.northMetres, facingDegrees: job.facingDegreesTrue, rmsMetres: 0 };
  const still = (): { eastMetres: number; northMetres: number } => ({ eastMetres: 0, northMetres: 0 });
  const picture = { ...look, atSeconds: plan.durationSeconds + levelAfterSeconds, slantOffDegrees: null };
  return readFromSite((one) => eyePicture(trails, pose, still, { ...picture, ...one }), reader.read);
}
