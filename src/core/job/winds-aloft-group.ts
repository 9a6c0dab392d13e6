/** What one group of the bulletin says, apart from its height. */
export interface WindGroup {
  /** True; null for light and variable. */
  readonly fromDegreesTrue: number | null;
  /** 0 for light and variable, which means under 5 kt, not calm. */
  readonly speedKnots: number;
  readonly orMore: boolean;
  readonly temperatureCelsius: number | null;
}

export type DecodedWindGroup = { readonly ok: true; readonly wind: WindGroup } | { readonly ok: false; readonly reason: string };

/** Added to the tens of degrees when 100 kt were taken off the speed. */
const HUNDRED_KNOTS_MARK = 50;

/**
 * One group, `DDff`, `DDff+TT`, `DDff-TT` or, where signs are left out, `DDffTT` (FAA AC 00-45H, 5.13.1).
 * `7735-07` is 270 degrees, 135 kt, -7 C; `731960` without signs is 230 degrees, 119 kt, -60 C.
 *
 * @param unsigned true above the height from which every temperature is negative and printed bare
 */
export function decodeWindGroup(text: string, unsigned: boolean): DecodedWindGroup {
  const match = /^(\d{2})(\d{2})([+-]?)(\d{2})?$/.exec(text);
  if (match === null || (match[3] !== '' && match[4] === undefined)) {
    return { ok: false, reason: `"${text}" is not a group like 1709+06` };
  }
  const [, tens = '', knots = '', sign = '', degrees] = match;
  if (degrees !== undefined && sign === '' && !unsigned) {
    return { ok: false, reason: `"${text}" lacks the sign of its temperature, printed at this height` };
  }
  if (sign === '+' && unsigned) return { ok: false, reason: `"${text}" has a warm temperature where all are below zero` };
  const temperatureCelsius = degrees === undefined ? null : sign === '+' ? Number(degrees) : 0 - Number(degrees);
  if (tens === '99') {
    if (knots !== '00') return { ok: false, reason: `"${text}" begins 99 but is not 9900, light and variable` };
    return { ok: true, wind: { fromDegreesTrue: null, speedKnots: 0, orMore: false, temperatureCelsius } };
  }
  const marked = Number(tens) > HUNDRED_KNOTS_MARK;
  const direction = Number(tens) - (marked ? HUNDRED_KNOTS_MARK : 0);
  if (direction < 1 || direction > 36) {
    return { ok: false, reason: `"${text}" has ${tens} for a direction; 01 to 36, or 51 to 86 from 100 kt, or 9900` };
  }
  const speedKnots = Number(knots) + (marked ? 100 : 0);
  return {
    ok: true,
    wind: { fromDegreesTrue: direction * 10, speedKnots, orMore: marked && knots === '99', temperatureCelsius },
  };
}
