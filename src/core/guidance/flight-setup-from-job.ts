import { jobVariation } from '../job/job-variation.ts';
import { jobAir, missingWindWords } from '../job/job-air.ts';
import type { Job } from '../job/job.ts';
import { commonLimits } from '../job/common-limits.ts';
import type { Overlay } from '../place/overlay.ts';
import type { JoinUp, Plan } from '../plan/plan.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { kilogramsFromPounds } from '../units/quantity.ts';
import type { DatumChoice, FlightSetup } from './flight-setup.ts';
import { farthestMetres, hangingLimits, hangingWish } from './hanging/hanging-wish.ts';
import { formationSetupFromPlan } from './formation/formation-setup-from-plan.ts';
import type { WaitingCircle } from './formation/waiting-circle.ts';

export type FlightSetupResult =
  | { readonly ok: true; readonly setup: FlightSetup }
  /** Why the job cannot be flown as it is, in words a person can act on. */
  | { readonly ok: false; readonly reason: string };

const SECONDS_PER_MINUTE = 60;

/**
 * What one ship's flight needs, out of the job and its plan.
 *
 * @param shipIndex 0 for the lead
 * @param epochMilliseconds when it will be flown, for the magnetic variation
 * @param overlay the job's areas to stay out of; null where it has none
 * @throws RangeError for a ship that the job or the plan does not have
 */
export function flightSetupFromJob(
  job: Job,
  plan: Plan,
  shipIndex: number,
  datum: DatumChoice,
  epochMilliseconds: number,
  overlay: Overlay | null = null,
): FlightSetupResult {
  const ship = job.ships[shipIndex];
  const shipPlan = plan.ships[shipIndex];
  if (ship === undefined) throw new RangeError(`shipIndex ${shipIndex}: the job has ${job.ships.length} ships`);
  if (shipPlan === undefined) return { ok: false, reason: `${ship.name} has nothing to write in this plan.` };
  const air = jobAir(job);
  const missing = missingWindWords(air);
  if (missing !== null) return { ok: false, reason: missing };
  const layerHeightMetres = air.layerHeightMetres + shipPlan.heightStepMetres;
  const variation = jobVariation(job, layerHeightMetres, epochMilliseconds);
  if (!variation.ok) return { ok: false, reason: variation.reason };
  const wish = hangingWish(job, plan, air);
  const formation = formationSetupFromPlan(plan, shipIndex, air.layerHeightMetres);
  return {
    ok: true,
    setup: {
      jobId: job.id,
      shipIndex,
      shipName: ship.name,
      site: air.site,
      layerHeightMetres,
      variationDegrees: variation.variationDegrees,
      forecastWind: air.wind,
      // As planned for the whole formation: at its slowest ship's airspeed and its gentlest one's banks.
      ...commonLimits(job.ships, job.options),
      maximumBankRadians: radiansFromDegrees(ship.maximumBankDegrees),
      valveOnSeconds: ship.valveOnSeconds,
      valveOffSeconds: ship.valveOffSeconds,
      reactionSeconds: ship.reactionSeconds,
      oilKilograms: kilogramsFromPounds(ship.smokeOilPounds),
      oilKilogramsPerSecond: kilogramsFromPounds(ship.smokeOilPoundsPerMinute) / SECONDS_PER_MINUTE,
      letterHeightMetres: plan.letterHeightMetres,
      datum,
      version: 2,
      ...(plan.ships.length === 1 ? { hanging: { ...wish, limits: hangingLimits(wish, plan, air, overlay, farthestMetres(ship, shipPlan)) } } : {}),
      ...(plan.ships.length === 1 ? { rest: { rule: restRule(job.options), directionsKept: job.options.sunOffNose } } : {}),
      ...(shipPlan.joinUp === undefined ? {} : { waitingCircle: waitingCircleFrom(shipPlan.joinUp) }),
      ...(formation === null ? {} : { formation: { ...formation, hanging: { ...wish, limits: hangingLimits(wish, plan, air, overlay, null) } } }),
      strokes: shipPlan.legs.flatMap((leg) =>
        leg.kind === 'smoke' ? [{ letterIndex: leg.letterIndex, character: leg.character, path: leg.path, plannedStartSeconds: leg.startSeconds }] : [],
      ),
    },
  };
}

function restRule({ letterOrder, progress }: Job['options']): NonNullable<FlightSetup['rest']>['rule'] {
  if (letterOrder === 'reading') return 'letter-by-letter';
  return progress === 'into-wind' ? 'finished-in-turn' : 'any';
}

/** The circle of a planned join-up, as it is flown. */
export function waitingCircleFrom({ holdRadiusMetres, holdTurn, leg }: JoinUp): WaitingCircle {
  return { leave: leg.path.start, turn: holdTurn, radiusMetres: holdRadiusMetres, leaveSeconds: leg.startSeconds };
}
