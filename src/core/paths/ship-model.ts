import { turnRadiusMetres } from './turn.ts';

/** What one ship can do, as the job gives it. */
export interface ShipLimits {
  readonly trueAirspeedMetresPerSecond: number;
  /** Bank on the curves of strokes. */
  readonly writingBankRadians: number;
  /** Bank in the turns of repositions. */
  readonly turningBankRadians: number;
  /** How fast the wings roll; Infinity rolls at once. */
  readonly rollRateRadiansPerSecond: number;
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
}

/** The same in the numbers that geometry and optimiser use. */
export interface ShipModel {
  readonly trueAirspeedMetresPerSecond: number;
  readonly writingRadiusMetres: number;
  readonly turningRadiusMetres: number;
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  /** What one roll between level and the turning bank loses against a turn that is there at once. */
  readonly rollLeadSeconds: number;
  /** The same for the writing bank. */
  readonly writingRollLeadSeconds: number;
}

/** The shortest pause of the smoke on a straight join: the valve must close, be seen closed and open again. */
export const SHORTEST_PAUSE_SECONDS = 1;

/**
 * Seconds that a roll from level to a bank loses. While the bank grows evenly the heading turns at
 * `g tan(bank) / V`; integrated over the roll of T = bank / rate seconds that is what the full rate turns in
 * `-ln(cos bank) / (rate tan bank)` seconds, so the loss is `bank / rate + ln(cos bank) / (rate tan bank)`.
 *
 * The pilot leads a turn by this much: rolling begins that long before the circle does, on the straight before it,
 * and the flown line then stays within 2 m of line and circle (45 degrees, 120 mph, 30 degrees a second), costing
 * nothing. Run-out and run-in are wings level by definition and cannot lend that straight. So the plan adds one
 * lead after every run-out and one before every run-in, and a turn that passes straight into its opposite loses
 * two. A turning bank of 45 degrees at 30 degrees a second: 0.838 s.
 */
export function rollLeadSeconds(bankRadians: number, rollRateRadiansPerSecond: number): number {
  if (!(rollRateRadiansPerSecond > 0)) {
    throw new RangeError(`rollRateRadiansPerSecond must be positive: ${rollRateRadiansPerSecond}`);
  }
  return (bankRadians + Math.log(Math.cos(bankRadians)) / Math.tan(bankRadians)) / rollRateRadiansPerSecond;
}

function checkedSeconds(name: string, seconds: number): number {
  if (!(seconds >= 0 && Number.isFinite(seconds))) throw new RangeError(`${name} must be 0 or more: ${seconds}`);
  return seconds;
}

/** The model of a ship; RangeError names the limit that no aircraft can have. */
export function shipModel(limits: ShipLimits): ShipModel {
  const speed = limits.trueAirspeedMetresPerSecond;
  return {
    trueAirspeedMetresPerSecond: speed,
    writingRadiusMetres: turnRadiusMetres(speed, limits.writingBankRadians),
    turningRadiusMetres: turnRadiusMetres(speed, limits.turningBankRadians),
    runInSeconds: checkedSeconds('runInSeconds', limits.runInSeconds),
    runOutSeconds: checkedSeconds('runOutSeconds', limits.runOutSeconds),
    rollLeadSeconds: rollLeadSeconds(limits.turningBankRadians, limits.rollRateRadiansPerSecond),
    writingRollLeadSeconds: rollLeadSeconds(limits.writingBankRadians, limits.rollRateRadiansPerSecond),
  };
}
