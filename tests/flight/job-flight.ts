import { ordersFor } from '../../e2e/flight/fly-word.ts';
import { flightSetupFromJob } from '../../src/core/guidance/flight-setup-from-job.ts';
import type { DatumChoice, FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import type { Job } from '../../src/core/job/job.ts';
import type { Overlay } from '../../src/core/place/overlay.ts';
import { type JobPlan, planJob } from '../../src/core/plan/plan-job.ts';
import type { DriftAt } from './crowd-eye.ts';
import { type DeskFlight, flyAtDesk } from './fly-at-desk.ts';
import { uniformFrom } from './random.ts';
import type { FlightWorld } from './simulated-flight.ts';

/** A job as the app plans it, flown at the desk in the world that the browser's pilot flies in. */
export interface JobFlight extends DeskFlight {
  readonly job: Job;
  readonly planned: JobPlan;
  readonly setup: FlightSetup;
}

/** The air goes on after the flight for so long, for whoever looks at the smoke. */
export const AIR_AFTER_SECONDS = 1200;

/** What the app does not know of an aircraft: between 25 and 60 degrees a second, by the seed. */
export function unknownRollRate(seed: number): number {
  return 25 + 35 * uniformFrom(seed * 7907 + 13)();
}

/** Flies the job's lead. */
export function flyJob(
  job: Job,
  seed: number,
  forecastErrorKnots: number,
  changes: Partial<FlightWorld> = {},
  options: Parameters<typeof flyAtDesk>[2] & { readonly withoutHanging?: boolean; readonly overlay?: Overlay; readonly datum?: DatumChoice } = {},
): JobFlight {
  const planned = planJob(job);
  if (!planned.ok) throw new Error(`${job.text} has no plan: ${JSON.stringify(planned.problem)}`);
  const made = flightSetupFromJob(job, planned.value.plan, 0, options.datum ?? { kind: 'first-smoke' }, Date.parse(job.readTime), options.overlay ?? null);
  if (!made.ok) throw new Error(made.reason);
  const { world } = ordersFor(job, seed, forecastErrorKnots);
  const { hanging, ...without } = made.setup;
  const setup: FlightSetup = options.withoutHanging === true || hanging === undefined ? without : made.setup;
  const flight = flyAtDesk(setup, { ...world, rollRateDegreesPerSecond: unknownRollRate(seed), fixLosses: () => false, ...changes }, options);
  flight.simulation.fly(AIR_AFTER_SECONDS);
  return { ...flight, job, planned: planned.value, setup };
}

/** How far the air had moved at a time, between the moments that were kept. */
export function driftAtOf(track: readonly { readonly atSeconds: number; readonly eastMetres: number; readonly northMetres: number }[]): DriftAt {
  return (atSeconds) => {
    const after = Math.max(
      1,
      track.findIndex((one) => one.atSeconds >= atSeconds),
    );
    const [from, to] = [track[after - 1]!, track[after]!];
    const share = (atSeconds - from.atSeconds) / (to.atSeconds - from.atSeconds);
    return {
      eastMetres: from.eastMetres + share * (to.eastMetres - from.eastMetres),
      northMetres: from.northMetres + share * (to.northMetres - from.northMetres),
    };
  };
}
