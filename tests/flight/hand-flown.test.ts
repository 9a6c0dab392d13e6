import { expect, it } from 'vitest';
import { wordJob } from '../../e2e/flight/fly-word.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { FlightFact } from '../../src/core/guidance/flight-event.ts';
import { flightSetupFromJob } from '../../src/core/guidance/flight-setup-from-job.ts';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { startRehearsal, stepRehearsal } from '../../src/core/guidance/rehearsal-aircraft.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';

it('a hand that does nothing that is cued is followed: its position did not jump (90 times in 900 s before)', { timeout: 60_000 }, () => {
  const job = wordJob('SKY');
  const planned = planJob(job);
  if (!planned.ok) throw new Error('no plan');
  const made = flightSetupFromJob(job, planned.value.plan, 0, { kind: 'first-smoke' }, Date.parse(job.readTime), null);
  if (!made.ok) throw new Error(made.reason);
  let aircraft = startRehearsal(made.setup, {
    seed: 1,
    skill: 'ordinary',
    wind: { eastMetresPerSecond: -6, northMetresPerSecond: 4 },
    fixIntervalSeconds: 1,
    fixNoiseMetres: 3,
    fixLatencySeconds: 0.7,
    startEastMetres: -3000,
    startNorthMetres: -2000,
    startHeadingDegrees: 60,
  });
  let state: GuidanceState = initialState;
  const take = (fact: FlightFact): void => {
    state = reduce(state, { ...fact, atSeconds: aircraft.atSeconds, wallMilliseconds: aircraft.atSeconds * 1000 });
  };
  take({ kind: 'flightStarted', setup: made.setup });
  let blanks = 0;
  let blank = true;
  while (aircraft.atSeconds < 900) {
    const step = stepRehearsal(aircraft, { kind: 'hands', bankRadians: 0, smoke: 'off' }, 0.1);
    aircraft = step.aircraft;
    for (const { fix } of step.fixes) take({ kind: 'fixReceived', fix });
    take({ kind: 'clockAdvanced' });
    const now = cuesFrom(state).phase === 'no-cue';
    if (now && !blank) blanks += 1;
    blank = now;
  }
  expect(blanks).toBeLessThan(8);
});
