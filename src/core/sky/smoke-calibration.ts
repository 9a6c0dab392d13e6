import { SMOKE_RANGE, type SmokeCase, type SmokeRange } from './smoke-range.ts';

/** How fast smoke really spread, as flights told it: the horizontal diffusivity with its standard error. */
export interface SmokeCalibration {
  readonly horizontalSquareMetresPerSecond: number;
  readonly sigmaSquareMetresPerSecond: number;
}

/** A lesson about spreading as it is kept. */
export function calibrationFrom({ value, sigma }: { readonly value: number; readonly sigma: number }): SmokeCalibration {
  return { horizontalSquareMetresPerSecond: value, sigmaSquareMetresPerSecond: sigma };
}

/**
 * What is believed of the smoke once it was measured: the likely case at the measured value, the others two standard
 * errors to either side, in their logarithm, but never nearer than a fifth: one flight's air is not the next one's.
 * Without a calibration, {@link SMOKE_RANGE}.
 */
export function calibratedSmoke(calibration: SmokeCalibration | null): SmokeRange {
  if (calibration === null) return SMOKE_RANGE;
  const { horizontalSquareMetresPerSecond: value, sigmaSquareMetresPerSecond: sigma } = calibration;
  const factor = Math.exp(Math.max(Math.log(1.2), (2 * sigma) / value));
  const spreadingAt = (smoke: SmokeCase, horizontalSquareMetresPerSecond: number): SmokeCase => ({
    ...smoke,
    air: { ...smoke.air, horizontalSquareMetresPerSecond },
  });
  return {
    low: spreadingAt(SMOKE_RANGE.low, value * factor),
    likely: spreadingAt(SMOKE_RANGE.likely, value),
    high: spreadingAt(SMOKE_RANGE.high, value / factor),
  };
}
