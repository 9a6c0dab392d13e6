import { ordersFor } from '../../e2e/flight/fly-word.ts';
import type { GuidanceState } from '../../src/core/guidance/guidance-state.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { Job } from '../../src/core/job/job.ts';
import { EarPilot, ORDINARY_EARS } from './ear-pilot.ts';
import { HeardCues } from './heard-cues.ts';
import { flyJob, type JobFlight } from './job-flight.ts';
import { ordinaryHands, OrdinaryPilot } from './ordinary-pilot.ts';

/** A job flown at the desk by a pilot who listens, and what was counted on the way. */
export interface FlightByEar extends JobFlight {
  readonly goArounds: number;
  readonly announcements: number;
  readonly spokenSeconds: number;
  /** From the first smoke to the end, over the time that was planned. */
  readonly timeShare: number;
}

/**
 * Flies a job by ear alone, where what the voice says is all that the hands do and goes into the flight as in the app; or with
 * an ordinary pilot, who looks at the screen now and then as well.
 *
 * @param hiddenLateSeconds positions come so much later than they do, behind a clock that is as much behind
 */
export function flyByEar(
  job: Job,
  seed: number,
  forecastErrorKnots: number,
  pilot: 'ear' | 'ordinary' = 'ear',
  watch?: (state: GuidanceState) => void,
  hiddenLateSeconds = 0,
): FlightByEar {
  const ordinary = pilot === 'ordinary' ? new OrdinaryPilot(seed) : null;
  const ear = ordinary?.ear ?? new EarPilot({ seed, ...ORDINARY_EARS });
  const { world } = ordersFor(job, seed, forecastErrorKnots);
  const { variationDegrees, rollRateDegreesPerSecond, fixLatencySeconds } = world;
  const heard = new HeardCues(ear);
  let chosen = pilot === 'ordinary';
  let goArounds = 0;
  let lastPhase = '';
  const flight = flyJob(
    job,
    seed,
    forecastErrorKnots,
    {
      reactionSeconds: 0,
      rollRateDegreesPerSecond,
      fixLatencySeconds: fixLatencySeconds + hiddenLateSeconds,
      ...(ordinary === null ? {} : ordinaryHands(seed, world)),
    },
    {
      seen: (cues, { atSeconds, headingDegrees }) => {
        heard.sound(cues, atSeconds);
        if (cues.phase === 'go-around' && lastPhase !== 'go-around') goArounds += 1;
        lastPhase = cues.phase;
        const compass = headingDegrees - variationDegrees;
        const shown = {
          phase: cues.phase,
          turn: cues.turn ?? '',
          headingDegrees: cues.headingMagneticDegrees,
          bankDegrees: cues.bankDegrees,
          smoke: cues.smoke ?? '',
        };
        if (ordinary !== null) return ordinary.wants(shown, cues.smokeInSeconds, atSeconds, compass);
        const wanted = ear.wants(atSeconds, compass);
        return cues.phase === 'finished' ? { ...wanted, phase: 'finished', smoke: 'off' } : wanted;
      },
      stampsAheadSeconds: hiddenLateSeconds,
      ...(watch === undefined ? {} : { watch }),
      touch: (state) => {
        if (cuesFrom(state).phase !== 'standby' && !chosen) {
          chosen = true;
          return { kind: 'earsChosen', byEar: true };
        }
        return pilot === 'ear' ? heard.said : null;
      },
    },
  );
  const firstSmokeSeconds = flight.simulation.trails[0]?.[0]?.atSeconds ?? 0;
  return {
    ...flight,
    goArounds,
    announcements: ear.announcements,
    spokenSeconds: ear.spokenSeconds,
    timeShare: (flight.seconds - firstSmokeSeconds) / flight.planned.plan.durationSeconds,
  };
}
