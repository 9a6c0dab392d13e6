import type { ShearVector } from '../../earth/wind-profile.ts';
import type { JobShip } from '../../job/job.ts';
import { degreesFromRadians } from '../../units/angle.ts';
import { knotsFromMetresPerSecond } from '../../units/quantity.ts';
import { flownTrails } from '../flown-trails.ts';
import { reactionFromSwitch, valveLatencies } from './hand-and-valve.ts';
import type { Measured } from '../measured.ts';
import type { ShipDebrief } from '../ship-debrief.ts';
import { type RatedEnd, spreadingFromRatings } from './spreading.ts';
import { bankShareFromTurns, flownTurns, reactionFromTurns } from './turn-response.ts';

/** What a flight teaches for the next one. */
export interface Lesson {
  readonly kind: 'valve-on' | 'valve-off' | 'reaction' | 'writing-bank' | 'airspeed' | 'spreading' | 'oil-flow';
  /** In the unit of the setting it may be carried into: seconds, degrees, knots, m2/s, pounds a minute. */
  readonly suggested: Measured;
  /** What the flight was set up with, in the same unit. */
  readonly current: number;
  /** What it rests on. */
  readonly from: 'switch-marks' | 'turns' | 'seen-smoke' | 'ratings' | 'photographs' | 'track' | 'tank';
}

/** The likely smoke's diffusivity, until a flight says better. */
const ASSUMED_SPREADING = 10;

/** Everything a flight teaches, each with how sure; what it has no evidence for is left out. */
export function lessonsFrom(debrief: ShipDebrief, ends: readonly RatedEnd[], shear: ShearVector | null): Lesson[] {
  const { log, intervals, air, flight } = debrief;
  const { setup } = log;
  const lessons: Lesson[] = [];
  const turns = air === null ? [] : flownTurns(debrief.changes, air, setup.rollRateRadiansPerSecond);
  const bySwitch = reactionFromSwitch(intervals);
  const reaction = bySwitch ?? reactionFromTurns(turns);
  if (reaction !== null)
    lessons.push({ kind: 'reaction', suggested: reaction, current: setup.reactionSeconds, from: bySwitch === null ? 'turns' : 'switch-marks' });
  const valve = valveLatencies(intervals, reaction?.value ?? setup.reactionSeconds);
  if (valve.on !== null) lessons.push({ kind: 'valve-on', suggested: valve.on, current: setup.valveOnSeconds, from: 'seen-smoke' });
  if (valve.off !== null) lessons.push({ kind: 'valve-off', suggested: valve.off, current: setup.valveOffSeconds, from: 'seen-smoke' });
  const share = bankShareFromTurns(turns);
  if (share !== null) {
    const bankFrom = (factor: number): number => degreesFromRadians(Math.atan(Math.tan(setup.writingBankRadians) * factor));
    const suggested = { value: bankFrom(share.value), sigma: bankFrom(share.value + share.sigma) - bankFrom(share.value), count: share.count };
    lessons.push({ kind: 'writing-bank', suggested, current: degreesFromRadians(setup.writingBankRadians), from: 'turns' });
  }
  if (flight.airspeedFlownMetresPerSecond !== null && flight.windSigmaMetresPerSecond !== null) {
    lessons.push({
      kind: 'airspeed',
      suggested: {
        value: knotsFromMetresPerSecond(flight.airspeedFlownMetresPerSecond),
        sigma: knotsFromMetresPerSecond(flight.windSigmaMetresPerSecond),
        count: turns.length,
      },
      current: knotsFromMetresPerSecond(setup.trueAirspeedMetresPerSecond),
      from: 'track',
    });
  }
  const spreading = spreadingFromRatings(flownTrails(debrief), ends, setup.letterHeightMetres, shear);
  if (spreading !== null) lessons.push({ kind: 'spreading', suggested: spreading, current: ASSUMED_SPREADING, from: 'ratings' });
  return lessons;
}

/** Whether a lesson says anything new: its suggestion is off the setting by more than two standard errors and a tenth. */
export function isNews({ suggested, current }: Lesson): boolean {
  const off = Math.abs(suggested.value - current);
  return off > 2 * suggested.sigma && off > 0.1 * Math.min(1, Math.abs(current));
}

/**
 * The ship as it should be set up after a lesson, rounded as its fields are typed: tenths of a second, whole degrees,
 * half knots. The lesson about spreading belongs to the smoke, not to a ship, and changes nothing here.
 */
export function shipAfterLesson(ship: JobShip, { kind, suggested: { value } }: Lesson): JobShip {
  const tenths = Math.max(0, Math.round(value * 10) / 10);
  switch (kind) {
    case 'valve-on':
      return { ...ship, valveOnSeconds: tenths };
    case 'valve-off':
      return { ...ship, valveOffSeconds: tenths };
    case 'reaction':
      return { ...ship, reactionSeconds: tenths };
    case 'writing-bank':
      return { ...ship, writingBankDegrees: Math.min(ship.maximumBankDegrees, Math.round(value)) };
    case 'airspeed':
      return { ...ship, trueAirspeedKnots: Math.round(value * 2) / 2 };
    case 'oil-flow':
      return { ...ship, smokeOilPoundsPerMinute: Math.max(0.1, Math.round(value * 10) / 10) };
    case 'spreading':
      return ship;
  }
}
