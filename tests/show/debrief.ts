import { exportedTrack } from '../../src/core/debrief/exported-track.ts';
import { flownTrails } from '../../src/core/debrief/flown-trails.ts';
import { lessonsFrom } from '../../src/core/debrief/lessons/lessons.ts';
import { caseWith, ratedEnds } from '../../src/core/debrief/lessons/spreading.ts';
import { writeGpx } from '../../src/core/tracks/gpx-write.ts';
import { writeIgc } from '../../src/core/tracks/igc-write.ts';
import { readTracks } from '../../src/core/tracks/track-read.ts';
import { letterSmokes } from '../../src/core/sky/letter-smoke.ts';
import { knotsFromMetresPerSecond } from '../../src/core/units/quantity.ts';
import { measureLongDebrief } from '../bench/debrief-page.ts';
import { type FlownWord, flyWord, meanTrueWind, worldFor } from '../core/debrief/flown-word.ts';
import { simulatedRatings } from '../core/debrief/simulated-ratings.ts';
import { uniformFrom } from '../flight/random.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

const FLIGHTS = 50;
/** A screen of 60 frames a second, one of them missed in a second and the counting's own rounding. */
const ALL_FRAMES = 58.5;
const SIMULATION_STEP_SECONDS = 0.05;
const WORDS = ['LAKE', 'SAIL', 'WIN', 'HEY', 'VOTE', 'FLY', 'KITE', 'MAX', 'TEN', 'ZOE'] as const;

/** What one flight taught, beside what the simulation put in. */
interface Taught {
  readonly cuesEqual: boolean;
  readonly cueCount: number;
  readonly windKnots: number;
  readonly valveSeconds: number;
  readonly reactionSeconds: number;
  readonly spreadingRatio: number;
  readonly crossTrackMetres: number;
  readonly smokeSeconds: readonly number[];
  readonly roundTrips: boolean;
}

/**
 * What a debrief is worth: fifty words of three and four letters flown by the simulated pilot in a wind 10 kt off the
 * forecast and wandering by 1.5 kt, airspeed wandering by 3 %, fixes of 3 m once a second. Each flight has a hand, a
 * valve and a smoke of its own, which the debrief must find from the log, from smoke marked in a video (0.1 s) and from
 * an observer who looks up every 45 s.
 */
export async function showDebrief(): Promise<Shown> {
  const taught: Taught[] = [];
  for (let index = 0; index < FLIGHTS; index += 1) {
    taught.push(flownAndTaught(index));
    // Lets the line be seen while the next flight is flown.
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  const counted = (name: string, holds: (one: Taught) => boolean, limit: number): Figure =>
    atLeast(name, taught.filter(holds).length, limit, `of ${FLIGHTS}`, 0);
  const median = (values: readonly number[]): number => values.toSorted((one, other) => one - other)[values.length >> 1] ?? Number.NaN;
  const long = await measureLongDebrief();
  const figures = [
    counted('flights whose replay gives every cue as it was shown', ({ cuesEqual }) => cuesEqual, FLIGHTS),
    counted('flights whose wind is found within 1 kt', ({ windKnots }) => windKnots < 1, 45),
    counted('valve latency, on and off, within 0.1 s', ({ valveSeconds }) => valveSeconds < 0.1, 45),
    counted('reaction within 0.1 s', ({ reactionSeconds }) => reactionSeconds < 0.1, 45),
    counted('spreading within 30 %', ({ spreadingRatio }) => spreadingRatio < 1.3 && spreadingRatio > 1 / 1.3, 45),
    counted('tracks through GPX and IGC and back', ({ roundTrips }) => roundTrips, FLIGHTS),
    atMost('three hours, three ships, 5 fixes a second: opened after', long.openMilliseconds, 1000, 'ms', 0),
    reported('the same for the first time, row by row', `${long.firstOpenMilliseconds.toFixed(0)} ms`),
    atLeast('scrubbing it: frames a second', long.framesPerSecond[1], ALL_FRAMES, '', 1),
    atLeast('scrubbing it with the processor four times slower', long.framesPerSecond[4], 30, '', 1),
    reported('wind error, median', `${median(taught.map(({ windKnots }) => windKnots)).toFixed(2)} kt`),
    reported('stroke cross-track rms, median', `${median(taught.map(({ crossTrackMetres }) => crossTrackMetres)).toFixed(1)} m`),
    reported('smoke on and off against the stroke, median', `${median(taught.flatMap(({ smokeSeconds }) => smokeSeconds)).toFixed(2)} s`),
  ];
  const cueCount = taught.reduce((sum, one) => sum + one.cueCount, 0);
  const equal = taught.filter(({ cuesEqual }) => cuesEqual).length;
  return {
    figures,
    headline: `The logs of ${equal} of ${FLIGHTS} flights replay to the very cues that were shown, ${cueCount} of them, and tell wind, valve, hand and smoke apart.`,
  };
}

function flownAndTaught(index: number): Taught {
  const random = uniformFrom(index + 4_242);
  const spreading = 5 * 4 ** random();
  // What is put in must be what the simulation can do: it moves hand and valve on its own steps, and rounds up to them.
  const inSteps = (seconds: number): number => Math.round(seconds / SIMULATION_STEP_SECONDS) * SIMULATION_STEP_SECONDS;
  const world = worldFor(index + 100, {
    valveOnSeconds: inSteps(0.5 + random()),
    valveOffSeconds: inSteps(0.5 + random()),
    reactionSeconds: inSteps(0.3 + 0.5 * random()),
  });
  const word = WORDS[index % WORDS.length]!;
  const flown = flyWord(word, world, { marked: true, seen: true });
  const { debrief, setup } = flown;
  const letters = letterSmokes(flownTrails(debrief), setup.letterHeightMetres, null);
  const ratings = simulatedRatings(letters, caseWith(spreading), setup.letterHeightMetres, index);
  const lessons = lessonsFrom(debrief, ratedEnds(ratings), null);
  const lesson = (kind: string): number => lessons.find((each) => each.kind === kind)?.suggested.value ?? Number.NaN;
  const { windFound, firstSmokeSeconds, lastSmokeSeconds } = debrief.flight;
  const truth = meanTrueWind(flown.truth, firstSmokeSeconds ?? 0, lastSmokeSeconds ?? 0);
  const strokes = debrief.strokeScores;
  const one: Taught = {
    cuesEqual: flown.shown.every(({ atSeconds, cues }) => JSON.stringify(flown.replay.cuesAt(atSeconds)) === JSON.stringify(cues)),
    cueCount: flown.shown.length,
    windKnots:
      windFound === null
        ? Number.NaN
        : knotsFromMetresPerSecond(
            Math.hypot(windFound.eastMetresPerSecond - truth.eastMetresPerSecond, windFound.northMetresPerSecond - truth.northMetresPerSecond),
          ),
    valveSeconds: Math.max(Math.abs(lesson('valve-on') - world.valveOnSeconds), Math.abs(lesson('valve-off') - world.valveOffSeconds)),
    reactionSeconds: Math.abs(lesson('reaction') - world.reactionSeconds),
    spreadingRatio: lesson('spreading') / spreading,
    crossTrackMetres: Math.sqrt(strokes.reduce((sum, { crossTrackRmsMetres }) => sum + (crossTrackRmsMetres ?? 0) ** 2, 0) / strokes.length),
    smokeSeconds: strokes.flatMap(({ onErrorSeconds, offErrorSeconds }) => [Math.abs(onErrorSeconds ?? 0), Math.abs(offErrorSeconds ?? 0)]),
    roundTrips: comesBack(flown),
  };
  process.stdout.write(
    `      ${word.padEnd(5)} wind ${one.windKnots.toFixed(2)} kt  valve ${one.valveSeconds.toFixed(2)} s  reaction ${one.reactionSeconds.toFixed(2)} s  spreading x ${one.spreadingRatio.toFixed(2)}  strokes ${one.crossTrackMetres.toFixed(1)} m\n`,
  );
  return one;
}

/** The flight's track is the same after each format, to a millisecond and 2 cm. */
function comesBack({ log, debrief }: FlownWord): boolean {
  const track = exportedTrack(log, debrief.intervals);
  return [writeGpx([track], 'Quillwind'), writeIgc(track, 'Quillwind')].every((text) => {
    const read = readTracks(text);
    const points = read.ok ? (read.value.tracks[0]?.points ?? []) : [];
    return (
      points.length === track.points.length &&
      points.every((point, at) => {
        const own = track.points[at]!;
        return (
          point.timeMilliseconds === own.timeMilliseconds &&
          point.smoke === own.smoke &&
          Math.abs(point.latitudeDegrees - own.latitudeDegrees) < 2e-7 &&
          Math.abs(point.longitudeDegrees - own.longitudeDegrees) < 2e-7
        );
      })
    );
  });
}
