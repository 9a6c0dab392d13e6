import { geodeticFromSite } from '../earth/geodetic-from-site.ts';
import { type GeodeticPoint, type Site, siteFromGeodetic, type SitePoint } from '../earth/site-frame.ts';
import { metresFromFeet } from '../units/quantity.ts';
import type { Job } from './job.ts';

/** Somewhere people stand and look up, with its share of the crowd. */
export interface CrowdEye {
  readonly name: string;
  readonly site: Site;
  /** 0 to 1; all together 1. */
  readonly share: number;
}

/** Nobody who stands farther from the site sees the same word; a slipped digit does. */
const FARTHEST_METRES = 100_000;

/** What a viewing place is called, also where nobody has named it: 0 is the site. */
export function placeName(name: string, index = 0): string {
  if (name !== '') return name;
  return index === 0 ? 'the site' : `place ${index}`;
}

/** Every place that people look from: the site first, then the others; those of no weight, or farther than 100 km, have no share. */
export function crowdEyes({ site, viewingPlaces }: Pick<Job, 'site' | 'viewingPlaces'>): CrowdEye[] {
  const own = {
    name: site.name,
    latitudeDegrees: site.latitudeDegrees,
    longitudeDegrees: site.longitudeDegrees,
    elevationFeet: site.elevationFeet,
    weight: site.crowdWeight,
  };
  const near = viewingPlaces.map((place) => (metresFromSite(place, own) > FARTHEST_METRES ? { ...place, weight: 0 } : place));
  const all = [own, ...near];
  const sum = all.reduce((total, { weight }) => total + weight, 0);
  return all.map(({ name, latitudeDegrees, longitudeDegrees, elevationFeet, weight }, index) => ({
    name,
    site: { latitudeDegrees, longitudeDegrees, elevationMetres: metresFromFeet(elevationFeet ?? site.elevationFeet) },
    // Nobody anywhere is everybody at the site.
    share: sum > 0 ? weight / sum : index === 0 ? 1 : 0,
  }));
}

/**
 * The crowd's weighted middle, which the text is hung for: of all sums of squared distances between where the text hangs
 * and where each place would have it, this one is least. The site itself, to the bit, where it stands alone.
 */
export function crowdMiddle(job: Pick<Job, 'site' | 'viewingPlaces'>): Site {
  const [own, ...others] = crowdEyes(job);
  if (own === undefined) throw new RangeError('a job has a site');
  if (others.every(({ share }) => share === 0)) return own.site;
  let [eastMetres, northMetres, elevationMetres] = [0, 0, own.share * own.site.elevationMetres];
  for (const { site, share } of others) {
    const point = siteFromGeodetic(site, site.elevationMetres, own.site);
    eastMetres += share * point.eastMetres;
    northMetres += share * point.northMetres;
    elevationMetres += share * site.elevationMetres;
  }
  return { ...geodeticFromSite({ eastMetres, northMetres }, own.site.elevationMetres, own.site), elevationMetres };
}

/** Where a place stands in the site frame of the crowd's middle. */
export function eyeFromMiddle({ site }: CrowdEye, middle: Site): SitePoint & { readonly upMetres: number } {
  const { eastMetres, northMetres } = siteFromGeodetic(site, site.elevationMetres, middle);
  return { eastMetres, northMetres, upMetres: site.elevationMetres - middle.elevationMetres };
}

function metresFromSite(place: GeodeticPoint, site: GeodeticPoint): number {
  const { eastMetres, northMetres, upMetres } = siteFromGeodetic(place, 0, { ...site, elevationMetres: 0 });
  return Math.hypot(eastMetres, northMetres, upMetres);
}
