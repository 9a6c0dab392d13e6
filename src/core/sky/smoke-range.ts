import type { SmokeAir } from './plume.ts';

/** One assumption about smoke and air. */
export interface SmokeCase {
  readonly air: SmokeAir;
  /** Light removed by a kilogram of oil droplets. */
  readonly extinctionSquareMetresPerKilogram: number;
  /** Used where the winds tell no shear, as if it lay across every stroke. */
  readonly assumedShearPerSecond: number;
}

/** What is believed of the smoke: never one number. The debrief may put its own in place of these. */
export interface SmokeRange {
  /** Spreads and fades soonest. */
  readonly low: SmokeCase;
  readonly likely: SmokeCase;
  /** Lasts longest. */
  readonly high: SmokeCase;
}

/** The trail's deviations when it is laid; an assumption, no source: what the wake has done after a few seconds. */
const INITIAL_METRES = 5;

/**
 * Diffusivities as measured in stable air near the tropopause behind airliners (Schumann et al. 1995: D_h 5 to 20,
 * D_v 0 to 0.6 m2/s); none are published for 10,000 ft behind a light aircraft. Extinction of oil droplets by Mie
 * theory for mass median diameters of 1.2, 0.9 and 0.7 micrometres: 4.9, 6.8 and 8.4 m2 a gram.
 */
export const SMOKE_RANGE: SmokeRange = {
  low: smokeCase(20, 0.6, 4_900, 0.005),
  likely: smokeCase(10, 0.15, 6_800, 0.002),
  high: smokeCase(5, 0, 8_400, 0),
};

function smokeCase(horizontal: number, vertical: number, extinction: number, assumedShearPerSecond: number): SmokeCase {
  return {
    air: {
      horizontalSquareMetresPerSecond: horizontal,
      verticalSquareMetresPerSecond: vertical,
      initialHorizontalMetres: INITIAL_METRES,
      initialVerticalMetres: INITIAL_METRES,
    },
    extinctionSquareMetresPerKilogram: extinction,
    assumedShearPerSecond,
  };
}
