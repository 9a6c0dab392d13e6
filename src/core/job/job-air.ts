import type { Site } from '../earth/site-frame.ts';
import { kelvinFromCelsius } from '../earth/standard-atmosphere.ts';
import { shearAt, type ShearVector, temperatureAt, windAt, type WindAtHeight, type WindProfile } from '../earth/wind-profile.ts';
import { CALM, type WindVector } from '../earth/wind-vector.ts';
import { metresFromFeet } from '../units/quantity.ts';
import { type CloudLayer, cloudsOf, visibilityOf } from './conditions-si.ts';
import { crowdMiddle } from './crowd-place.ts';
import type { Job } from './job.ts';
import { windProfileFromJob } from './job-winds.ts';

/** Where a job's crowd stands and the air of its layer, in SI: worked out here and nowhere else. */
export interface JobAir {
  /** The crowd's weighted middle, from which everything is measured; the job's site where there are no other viewing places. */
  readonly site: Site;
  readonly layerHeightMetres: number;
  readonly layerAboveSiteMetres: number;
  /** By height; null where no row can be used. */
  readonly profile: WindProfile | null;
  /** What the rows give at the layer, or why they give none. */
  readonly found: WindAtHeight;
  /** At the layer; calm where the rows give none. */
  readonly wind: WindVector;
  /** False where the wind may come from anywhere: light and variable, or not given. */
  readonly directionKnown: boolean;
  /** Null where the rows do not tell. */
  readonly shear: ShearVector | null;
  /** Why the wind is taken as calm, in words that follow a colon; null when the rows give it. */
  readonly windMissing: string | null;
  readonly temperatureKelvin: number;
  readonly temperatureSource: 'entered' | 'winds' | 'standard atmosphere';
  /** Null where nobody has looked. */
  readonly visibilityMetres: number | null;
  /** Null where nobody has looked; empty is a clear sky. */
  readonly clouds: readonly CloudLayer[] | null;
}

/** What of a job its air depends on. */
export type JobOfAir = Pick<Job, 'site' | 'viewingPlaces' | 'layer' | 'winds' | 'conditions'>;

/** The air a job will be flown in, by its own rows; calm, and saying so, where they give no wind at the layer. */
export function jobAir(job: JobOfAir): JobAir {
  const { layer, winds, conditions } = job;
  const site = crowdMiddle(job);
  const layerHeightMetres = metresFromFeet(layer.altitudeFeet);
  const rows = windProfileFromJob(winds);
  const profile = rows.ok ? rows.profile : null;
  const found: WindAtHeight = rows.ok ? windAt(rows.profile, layerHeightMetres) : rows;
  const temperature = temperatureAt(profile, layerHeightMetres);
  return {
    site,
    layerHeightMetres,
    layerAboveSiteMetres: layerHeightMetres - site.elevationMetres,
    profile,
    found,
    wind: found.ok ? found.wind : CALM,
    directionKnown: found.ok && found.directionKnown,
    shear: profile !== null && found.ok ? shearAt(profile, layerHeightMetres) : null,
    windMissing: found.ok ? null : found.reason,
    temperatureKelvin: layer.temperatureCelsius === null ? temperature.temperatureKelvin : kelvinFromCelsius(layer.temperatureCelsius),
    temperatureSource: layer.temperatureCelsius === null ? temperature.source : 'entered',
    visibilityMetres: visibilityOf(conditions),
    clouds: cloudsOf(conditions),
  };
}

/** How a missing wind is said, everywhere: `No wind at 10,500 ft: no winds are given. The plan ...`. Null where there is one. */
export function missingWindWords({ windMissing }: Pick<JobAir, 'windMissing'>): string | null {
  return windMissing === null ? null : `No wind at the layer: ${windMissing}. Planned as if the air stood still, so the place is of no use.`;
}
