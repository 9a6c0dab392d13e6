import type { Figure } from './figures.ts';

/** A figure that must not be more than its limit. */
export function atMost(name: string, value: number, limit: number, unit: string, digits = 2): Figure {
  return { name, value: `${value.toFixed(digits)} ${unit}`.trim(), limit: `at most ${limit} ${unit}`.trim(), ok: value <= limit };
}

/** A figure that must not be less than its limit. */
export function atLeast(name: string, value: number, limit: number, unit: string, digits = 2): Figure {
  return { name, value: `${value.toFixed(digits)} ${unit}`.trim(), limit: `at least ${limit} ${unit}`.trim(), ok: value >= limit };
}

/** A figure that is only reported, beside what is aimed at. */
export function reported(name: string, value: string, aim = ''): Figure {
  return { name, value, limit: aim, ok: true };
}

/** A figure that must lie between two limits, both allowed. */
export function between(name: string, value: number, least: number, most: number, unit: string, digits = 2): Figure {
  return { name, value: `${value.toFixed(digits)} ${unit}`.trim(), limit: `${least} to ${most} ${unit}`.trim(), ok: value >= least && value <= most };
}
