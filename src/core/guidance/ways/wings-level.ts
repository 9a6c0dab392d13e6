import { STATE } from '../../tracking/estimate.ts';
import { signedRadians } from '../../units/angle.ts';
import type { Flight } from '../guidance-state.ts';
import { predictedAt } from '../present.ts';
import { watchedAsNow } from '../watched-as-now.ts';

/**
 * Without a cue the pilot levels the wings: the estimator is told, so that the first fix after a short loss is weighed against
 * what the aircraft did, and the flight need not begin again from two fixes.
 */
export function wingsLevel(flight: Flight): Flight {
  const last = flight.commands.at(-1);
  const now = predictedAt(flight, flight.atSeconds);
  if (!watchedAsNow(flight.setup) || last === undefined || now === null || last.blank === true) return flight;
  const turned = now.mean[STATE.turnRate]! * (flight.hands.turnReactionSeconds + Math.abs(last.bankRadians) / flight.setup.rollRateRadiansPerSecond / 2);
  const directionRadians = signedRadians(now.mean[STATE.direction]! + turned);
  return {
    ...flight,
    straightSinceSeconds: flight.straightSinceSeconds ?? flight.atSeconds,
    commands: [...flight.commands, { fromSeconds: flight.atSeconds, sense: 'either', directionRadians, bankRadians: 0, startsManoeuvre: true, blank: true }],
  };
}
