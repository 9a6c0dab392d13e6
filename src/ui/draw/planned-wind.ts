import { windFromVector } from '../../core/earth/wind-vector.ts';
import type { JobAir } from '../../core/job/job-air.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { formatBearing } from '../../core/text/number-formats.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

/** The layer's wind for a picture's arrow: `260 / 14 kt`; null when it is unknown, calm or of no direction. */
export function plannedWind({ wind, directionKnown }: JobAir, units: UnitText): { readonly fromRadians: number; readonly text: string } | null {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  if (!directionKnown || speedMetresPerSecond < 0.05) return null;
  return { fromRadians, text: `${formatBearing(degreesFromRadians(fromRadians))} / ${units.speed.text(speedMetresPerSecond)}` };
}
