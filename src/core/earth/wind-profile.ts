import { metresPerSecondFromKnots } from '../units/quantity.ts';
import { standardTemperatureKelvin } from './standard-atmosphere.ts';
import { windSpeedMetresPerSecond, type WindVector } from './wind-vector.ts';

/** The wind of one height. */
export interface WindRow {
  /** Above mean sea level. */
  readonly heightMetres: number;
  readonly wind: WindVector;
  /** Of each component. 0 where the direction is given: the forecast's own error is not in it. */
  readonly standardDeviationMetresPerSecond: number;
  readonly temperatureKelvin: number | null;
}

/** Winds by height: ascending, no height twice, at least one. */
export interface WindProfile {
  readonly rows: readonly WindRow[];
}

export interface WindAt {
  readonly ok: true;
  readonly wind: WindVector;
  /** Of each component, from light and variable rows; see {@link LIGHT_STANDARD_DEVIATION}. */
  readonly standardDeviationMetresPerSecond: number;
  /** False where the wind could come from anywhere: its mean is under twice its standard deviation. */
  readonly directionKnown: boolean;
  /** How far above the highest (positive) or below the lowest row (negative) the end row's wind is held; else 0. */
  readonly heldMetres: number;
}

export type WindAtHeight = WindAt | { readonly ok: false; readonly reason: string };

/** Change of the wind with height, per second: metres per second east and north for each metre up. */
export interface ShearVector {
  readonly eastPerSecond: number;
  readonly northPerSecond: number;
}

/**
 * Light and variable: any direction, under 5 kt. Winds spread evenly over that disc have a mean of zero and a standard
 * deviation of a quarter of its width in each component: 2.5 kt.
 */
export const LIGHT_STANDARD_DEVIATION = metresPerSecondFromKnots(2.5);

/** The end rows' winds are held this far beyond them, and no farther. */
export const HELD_METRES = 500;

/** Shear is taken over this much of the air, about what a plume and a pilot's height keeping fill. */
const SHEAR_SPAN_METRES = 300;

/**
 * The wind at a height, its components interpolated linearly between the rows around it. Beyond the rows the end
 * row's wind is held for {@link HELD_METRES} and then there is none: nothing is extrapolated.
 *
 * Worked: 270 at 20 kt at 9,000 ft and 360 at 20 kt at 12,000 ft give 315 at 14.1 kt at 10,500 ft, not 315 at 20.
 */
export function windAt(profile: WindProfile, heightMetres: number): WindAtHeight {
  if (!Number.isFinite(heightMetres)) throw new RangeError(`heightMetres must be finite, not ${heightMetres}`);
  const { below, above, share } = around(profile, heightMetres);
  const heldMetres = heightMetres - Math.min(Math.max(heightMetres, below.heightMetres), above.heightMetres);
  if (Math.abs(heldMetres) > HELD_METRES) {
    const end = heldMetres > 0 ? above : below;
    return {
      ok: false,
      reason: `the ${heldMetres > 0 ? 'highest' : 'lowest'} wind given is ${feetText(end.heightMetres)} ft, too far from ${feetText(heightMetres)} ft`,
    };
  }
  const mix = (one: number, other: number): number => one + (other - one) * share;
  const wind = {
    eastMetresPerSecond: mix(below.wind.eastMetresPerSecond, above.wind.eastMetresPerSecond),
    northMetresPerSecond: mix(below.wind.northMetresPerSecond, above.wind.northMetresPerSecond),
  };
  const standardDeviationMetresPerSecond = mix(below.standardDeviationMetresPerSecond, above.standardDeviationMetresPerSecond);
  const directionKnown = standardDeviationMetresPerSecond === 0 || windSpeedMetresPerSecond(wind) > 2 * standardDeviationMetresPerSecond;
  return { ok: true, wind, standardDeviationMetresPerSecond, directionKnown, heldMetres };
}

/**
 * The shear at a height: the change of the interpolated wind over 300 m around it, kept inside the rows. Rows 3,000 ft
 * apart smooth the air's own shear, so this is a lower bound of what the smoke may meet.
 *
 * @returns null where there is no telling: one row only, or the height beyond the rows by more than is held
 */
export function shearAt(profile: WindProfile, heightMetres: number): ShearVector | null {
  const lowest = profile.rows[0]?.heightMetres ?? NaN;
  const highest = profile.rows.at(-1)?.heightMetres ?? NaN;
  const inside = Math.min(Math.max(heightMetres, lowest), highest);
  if (Math.abs(heightMetres - inside) > HELD_METRES) return null;
  // At the end rows half of the span lies outside; it is moved in rather than halved.
  const from = Math.max(lowest, Math.min(inside - SHEAR_SPAN_METRES / 2, highest - SHEAR_SPAN_METRES));
  const to = Math.min(highest, from + SHEAR_SPAN_METRES);
  if (!(to > from)) return null;
  const low = windAt(profile, from);
  const high = windAt(profile, to);
  if (!low.ok || !high.ok) return null;
  return {
    eastPerSecond: (high.wind.eastMetresPerSecond - low.wind.eastMetresPerSecond) / (to - from),
    northPerSecond: (high.wind.northMetresPerSecond - low.wind.northMetresPerSecond) / (to - from),
  };
}

/**
 * The temperature at a height: interpolated between the rows that have one, as a difference from the standard
 * atmosphere; beyond them the end row's difference is held for {@link HELD_METRES}; else the standard temperature.
 */
export function temperatureAt(
  profile: WindProfile | null,
  heightMetres: number,
): { readonly temperatureKelvin: number; readonly source: 'winds' | 'standard atmosphere' } {
  const standardKelvin = standardTemperatureKelvin(heightMetres);
  const rows = profile?.rows.filter((row) => row.temperatureKelvin !== null) ?? [];
  if (rows.length === 0) return { temperatureKelvin: standardKelvin, source: 'standard atmosphere' };
  const { below, above, share } = around({ rows }, heightMetres);
  if (heightMetres < below.heightMetres - HELD_METRES || heightMetres > above.heightMetres + HELD_METRES) {
    return { temperatureKelvin: standardKelvin, source: 'standard atmosphere' };
  }
  const departure = (row: WindRow): number => (row.temperatureKelvin ?? 0) - standardTemperatureKelvin(row.heightMetres);
  const departureKelvin = departure(below) + (departure(above) - departure(below)) * share;
  return { temperatureKelvin: standardKelvin + departureKelvin, source: 'winds' };
}

function around(profile: WindProfile, heightMetres: number): { below: WindRow; above: WindRow; share: number } {
  const lowest = profile.rows[0];
  const highest = profile.rows.at(-1);
  if (lowest === undefined || highest === undefined) throw new RangeError('a wind profile has at least one row');
  if (heightMetres <= lowest.heightMetres) return { below: lowest, above: lowest, share: 0 };
  if (heightMetres >= highest.heightMetres) return { below: highest, above: highest, share: 0 };
  const above = profile.rows.find((row) => row.heightMetres > heightMetres) ?? highest;
  const below = profile.rows[profile.rows.indexOf(above) - 1] ?? lowest;
  return { below, above, share: (heightMetres - below.heightMetres) / (above.heightMetres - below.heightMetres) };
}

function feetText(metres: number): string {
  return Math.round(metres / 0.3048).toLocaleString('en-US');
}
