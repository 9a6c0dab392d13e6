import type { AirPoint } from '../paths/air-path.ts';
import type { ShipMotion } from './ship-motion.ts';

/** How far apart ships must stay, and how far each may slip in time against the other. */
export interface Clearance {
  readonly separationMetres: number;
  readonly slipSeconds: number;
}

/**
 * Two ships between samples: each may be half a step from the nearest one, so at its speed this much nearer to the
 * other. Distances are compared with the separation and this on top.
 */
export function samplingSlackMetres(stepSeconds: number, trueAirspeedMetresPerSecond: number): number {
  return stepSeconds * trueAirspeedMetresPerSecond;
}

/**
 * Which delays of one ship against another bring them too near each other, whatever they slip. Built once for a
 * pair; both motions must have the same step. `delaySeconds` is the second ship's delay less the first's.
 */
export interface PairClearance {
  allows(delaySeconds: number): boolean;
  /** Whether every delay between two, both included, keeps them apart. */
  clearBetween(lowSeconds: number, highSeconds: number): boolean;
}

export function pairClearance(first: ShipMotion, second: ShipMotion, limitMetres: number, slipSeconds: number): PairClearance {
  const step = first.stepSeconds;
  const n = first.eastMetres.length;
  const m = second.eastMetres.length;
  // near[k + m - 1]: the first ship's sample i and the second's i - k are too near for some i.
  const near = new Uint8Array(n + m - 1);
  const squared = limitMetres * limitMetres;
  for (let i = 0; i < n; i += 1) {
    const east = first.eastMetres[i]!;
    const north = first.northMetres[i]!;
    for (let j = 0; j < m; j += 1) {
      const x = second.eastMetres[j]! - east;
      const y = second.northMetres[j]! - north;
      if (x * x + y * y < squared) near[i - j + m - 1] = 1;
    }
  }
  const before = new Int32Array(near.length + 1);
  near.forEach((flag, index) => (before[index + 1] = before[index]! + flag));
  const base = first.firstSeconds - second.firstSeconds;
  const clearBetween = (lowSeconds: number, highSeconds: number): boolean => {
    // Sample pair k meets when the delay is base + k * step, within half a step on either side.
    const low = Math.max(0, Math.ceil((lowSeconds - base) / step - 0.5) + m - 1);
    const high = Math.min(near.length - 1, Math.floor((highSeconds - base) / step + 0.5) + m - 1);
    return low > high || before[high + 1]! === before[low]!;
  };
  return { clearBetween, allows: (delaySeconds) => clearBetween(delaySeconds - slipSeconds, delaySeconds + slipSeconds) };
}

/** Whether two motions, at the times they state, stay apart however they slip. */
export function staysClear(first: ShipMotion, second: ShipMotion, limitMetres: number, slipSeconds: number): boolean {
  const step = first.stepSeconds;
  const squared = limitMetres * limitMetres;
  const reach = Math.ceil(slipSeconds / step + 1);
  for (let i = 0; i < first.eastMetres.length; i += 1) {
    const centre = Math.round((first.firstSeconds + i * step - second.firstSeconds) / step);
    const end = Math.min(second.eastMetres.length - 1, centre + reach);
    for (let j = Math.max(0, centre - reach); j <= end; j += 1) {
      const x = second.eastMetres[j]! - first.eastMetres[i]!;
      const y = second.northMetres[j]! - first.northMetres[i]!;
      if (x * x + y * y < squared) return false;
    }
  }
  return true;
}

/** Whether a motion stays away from a place at all times. */
export function avoidsPlace(motion: ShipMotion, place: AirPoint, limitMetres: number): boolean {
  const squared = limitMetres * limitMetres;
  for (let i = 0; i < motion.eastMetres.length; i += 1) {
    const x = motion.eastMetres[i]! - place.airEastMetres;
    const y = motion.northMetres[i]! - place.airNorthMetres;
    if (x * x + y * y < squared) return false;
  }
  return true;
}
