import { METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE, STANDARD_GRAVITY } from '../units/quantity.ts';

/** The gravity that a set of turn formulas uses, kept apart because a handbook rounds each of them on its own. */
export interface TurnConstants {
  readonly radiusGravity: number;
  readonly rateGravity: number;
}

/** Standard gravity in both: what the planner uses. */
export const EXACT_TURN: TurnConstants = { radiusGravity: STANDARD_GRAVITY, rateGravity: STANDARD_GRAVITY };

const METRES_PER_SECOND_PER_KNOT = METRES_PER_NAUTICAL_MILE / 3600;

/**
 * The rounded constants of FAA-H-8083-25C chapter 5, `R = V^2 / (11.26 tan bank)` feet and
 * `rate = 1091 tan bank / V` degrees a second with V in knots, as effective gravities: 0.30 % more radius and
 * 0.11 % less rate than {@link EXACT_TURN}. Only for comparing with the handbook's printed examples.
 *
 * @oracle
 */
export const HANDBOOK_TURN: TurnConstants = {
  radiusGravity: (11.26 * METRES_PER_SECOND_PER_KNOT ** 2) / METRES_PER_FOOT,
  rateGravity: 1091 * (Math.PI / 180) * METRES_PER_SECOND_PER_KNOT,
};

function checkedBank(bankRadians: number): number {
  if (!(bankRadians > 0 && bankRadians < Math.PI / 2)) {
    throw new RangeError(`bankRadians must lie between 0 and pi / 2, both excluded: ${bankRadians}`);
  }
  return bankRadians;
}

function checkedPositive(name: string, value: number): number {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be positive and finite: ${value}`);
  return value;
}

/**
 * Radius of a level, coordinated turn, `R = V^2 / (g tan bank)` (FAA-H-8083-25C, chapter 5).
 * At 120 kt and 45 degrees: 388.614 m.
 *
 * @param bankRadians between 0 and pi / 2, both excluded; otherwise RangeError
 */
export function turnRadiusMetres(trueAirspeedMetresPerSecond: number, bankRadians: number, constants: TurnConstants = EXACT_TURN): number {
  const speed = checkedPositive('trueAirspeedMetresPerSecond', trueAirspeedMetresPerSecond);
  return speed ** 2 / (constants.radiusGravity * Math.tan(checkedBank(bankRadians)));
}

/**
 * How fast the heading changes in a level turn, `g tan bank / V`. At 120 kt and 30 degrees: 5.25488 degrees a second.
 *
 * @oracle
 */
export function turnRateRadiansPerSecond(trueAirspeedMetresPerSecond: number, bankRadians: number, constants: TurnConstants = EXACT_TURN): number {
  const speed = checkedPositive('trueAirspeedMetresPerSecond', trueAirspeedMetresPerSecond);
  return (constants.rateGravity * Math.tan(checkedBank(bankRadians))) / speed;
}

/**
 * Load factor in a level turn, `1 / cos bank`: 2 at 60 degrees. The stalling speed grows with its square root.
 *
 * @oracle
 */
export function turnLoadFactor(bankRadians: number): number {
  return 1 / Math.cos(checkedBank(bankRadians));
}

/** The bank that follows an arc at this speed, `atan(V^2 |curvature| / g)`, positive to either side; 0 on a line. */
export function bankForCurvatureRadians(trueAirspeedMetresPerSecond: number, curvaturePerMetre: number): number {
  return Math.atan((trueAirspeedMetresPerSecond ** 2 * Math.abs(curvaturePerMetre)) / STANDARD_GRAVITY);
}

/** The bank that turns with this radius at this speed; the inverse of {@link turnRadiusMetres}. */
export function bankForRadiusRadians(trueAirspeedMetresPerSecond: number, radiusMetres: number): number {
  const speed = checkedPositive('trueAirspeedMetresPerSecond', trueAirspeedMetresPerSecond);
  return Math.atan(speed ** 2 / (STANDARD_GRAVITY * checkedPositive('radiusMetres', radiusMetres)));
}

/**
 * The bank that turns at this rate at this speed; the inverse of {@link turnRateRadiansPerSecond}.
 *
 * @oracle
 */
export function bankForRateRadians(trueAirspeedMetresPerSecond: number, rateRadiansPerSecond: number): number {
  const speed = checkedPositive('trueAirspeedMetresPerSecond', trueAirspeedMetresPerSecond);
  return Math.atan((speed * checkedPositive('rateRadiansPerSecond', rateRadiansPerSecond)) / STANDARD_GRAVITY);
}

/** The speed at which this bank turns with this radius. */
export function airspeedForRadiusMetresPerSecond(radiusMetres: number, bankRadians: number): number {
  return Math.sqrt(checkedPositive('radiusMetres', radiusMetres) * STANDARD_GRAVITY * Math.tan(checkedBank(bankRadians)));
}
