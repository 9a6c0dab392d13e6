import { windAt, windProfileFromJob } from '../../core/earth/wind-profile.ts';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import type { Job } from '../../core/formats/job.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { knotsFromMetresPerSecond, metresFromFeet } from '../../core/units/quantity.ts';
import { formatBearing, formatNumber } from '../parts/number-formats.ts';

/** The layer's wind for a picture's arrow: `260 / 14 kt`; null when it is unknown, calm or of no direction. */
export function plannedWind(job: Job): { readonly fromRadians: number; readonly text: string } | null {
  const profile = windProfileFromJob(job.winds);
  if (!profile.ok) return null;
  const found = windAt(profile.profile, metresFromFeet(job.layer.altitudeFeet));
  if (!found.ok || !found.directionKnown) return null;
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  if (speedMetresPerSecond < 0.05) return null;
  return { fromRadians, text: `${formatBearing(degreesFromRadians(fromRadians))} / ${formatNumber(knotsFromMetresPerSecond(speedMetresPerSecond))} kt` };
}
