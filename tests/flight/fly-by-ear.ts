import { ordersFor } from '../../e2e/flight/fly-word.ts';
import { orderSaid, silentVoice, voiceAfter, voiceValue } from '../../src/app/flight/voice.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { announcementSeconds } from '../../src/sound/announcement-seconds.ts';
import type { Job } from '../../src/core/job/job.ts';
import { EarPilot, ORDINARY_EARS } from './ear-pilot.ts';
import { flyJob, type JobFlight } from './job-flight.ts';

/** A job flown at the desk by a pilot who only listens, and what was counted on the way. */
export interface FlightByEar extends JobFlight {
  readonly goArounds: number;
  readonly announcements: number;
  readonly spokenSeconds: number;
  /** From the first smoke to the end, over the time that was planned. */
  readonly timeShare: number;
}

/** Flies a job by ear alone: what the voice says is all that the hands do, and what was said goes into the flight as in the app. */
export function flyByEar(job: Job, seed: number, forecastErrorKnots: number): FlightByEar {
  const ear = new EarPilot({ seed, ...ORDINARY_EARS });
  const { variationDegrees, rollRateDegreesPerSecond } = ordersFor(job, seed, forecastErrorKnots).world;
  let voice: ReturnType<typeof silentVoice> | null = null;
  let said: ReturnType<typeof orderSaid> = null;
  let chosen = false;
  let goArounds = 0;
  let lastPhase = '';
  const flight = flyJob(
    job,
    seed,
    forecastErrorKnots,
    { reactionSeconds: 0, rollRateDegreesPerSecond },
    {
      seen: (cues, { atSeconds, headingDegrees }) => {
        const before: ReturnType<typeof silentVoice> = voice ?? silentVoice(cues);
        voice = voiceAfter(before, cues, atSeconds);
        said = voice.number === before.number ? null : orderSaid(before, voice);
        ear.hear(voiceValue(voice), voice.announcement === null ? 0 : announcementSeconds(voice.announcement), atSeconds);
        if (cues.phase === 'go-around' && lastPhase !== 'go-around') goArounds += 1;
        lastPhase = cues.phase;
        const wanted = ear.wants(atSeconds, headingDegrees - variationDegrees);
        return cues.phase === 'finished' ? { ...wanted, phase: 'finished', smoke: 'off' } : wanted;
      },
      touch: (state) => {
        if (cuesFrom(state).phase !== 'standby' && !chosen) {
          chosen = true;
          return { kind: 'earsChosen', byEar: true };
        }
        return said;
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
