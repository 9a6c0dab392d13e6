import type { Site } from '../earth/site-frame.ts';
import { shearAt, type ShearVector, windAt } from '../earth/wind-profile.ts';
import { windProfileFromJob } from './job-winds.ts';
import { CALM, type WindVector } from '../earth/wind-vector.ts';
import type { Job } from './job.ts';
import { metresFromFeet } from '../units/quantity.ts';

/** A job's site and the air of its layer, in SI. */
export interface JobAir {
  readonly site: Site;
  readonly layerHeightMetres: number;
  readonly layerAboveSiteMetres: number;
  readonly wind: WindVector;
  /** False where the wind may come from anywhere: light and variable. */
  readonly directionKnown: boolean;
  /** Null where the rows do not tell. */
  readonly shear: ShearVector | null;
  /** Why the wind is taken as calm; null when the rows give it. */
  readonly windMissing: string | null;
}

/** The air a job will be flown in, by its own rows; calm, and saying so, where they give no wind at the layer. */
export function jobAir({ site, layer, winds }: Job): JobAir {
  const layerHeightMetres = metresFromFeet(layer.altitudeFeet);
  const elevationMetres = metresFromFeet(site.elevationFeet);
  const place = {
    site: { latitudeDegrees: site.latitudeDegrees, longitudeDegrees: site.longitudeDegrees, elevationMetres },
    layerHeightMetres,
    layerAboveSiteMetres: layerHeightMetres - elevationMetres,
  };
  const profile = windProfileFromJob(winds);
  if (!profile.ok) return { ...place, wind: CALM, directionKnown: false, shear: null, windMissing: profile.reason };
  const found = windAt(profile.profile, layerHeightMetres);
  if (!found.ok) return { ...place, wind: CALM, directionKnown: false, shear: null, windMissing: found.reason };
  const { wind, directionKnown } = found;
  return { ...place, wind, directionKnown, shear: shearAt(profile.profile, layerHeightMetres), windMissing: null };
}
