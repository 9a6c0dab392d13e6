import { type Site, siteFromGeodetic, type SitePoint } from '../earth/site-frame.ts';
import { convexHull } from './area.ts';
import type { Overlay } from './overlay.ts';

/** Farther from the site than this nothing is flown. */
const NEAR_METRES = 40_000;
/** A ring of more corners is taken by its hull, which holds it. */
const MOST_CORNERS = 200;
/** Heights within this of a floor or ceiling count as inside, since ships keep their height within it. */
const HEIGHT_MARGIN_FEET = 500;

/**
 * The outer rings of an overlay's no-go areas that reach a height, over the ground in the site frame; holes count as part of
 * their area, and far away areas are left out.
 *
 * @param heightFeet above mean sea level
 */
export function overlayRings(overlay: Overlay, site: Site, layerHeightMetres: number, heightFeet: number): SitePoint[][] {
  const rings: SitePoint[][] = [];
  for (const area of overlay.areas) {
    if (!area.noGo || heightFeet - HEIGHT_MARGIN_FEET > (area.ceilingFeet ?? Infinity) || heightFeet + HEIGHT_MARGIN_FEET < (area.floorFeet ?? -Infinity))
      continue;
    for (const [outer] of area.polygons) {
      if (outer === undefined) continue;
      const ring: SitePoint[] = [];
      for (let index = 0; index + 1 < outer.length; index += 2) {
        const { eastMetres, northMetres } = siteFromGeodetic(
          { longitudeDegrees: outer[index] ?? 0, latitudeDegrees: outer[index + 1] ?? 0 },
          layerHeightMetres,
          site,
        );
        ring.push({ eastMetres, northMetres });
      }
      const box = (of: (point: SitePoint) => number): readonly [number, number] => [Math.min(...ring.map(of)), Math.max(...ring.map(of))];
      if (ring.length < 3 || ring.length > 20_000) continue;
      const [west, east] = box(({ eastMetres }) => eastMetres);
      const [south, north] = box(({ northMetres }) => northMetres);
      if (west > NEAR_METRES || east < -NEAR_METRES || south > NEAR_METRES || north < -NEAR_METRES) continue;
      rings.push(ring.length > MOST_CORNERS ? convexHull(ring) : ring);
    }
  }
  return rings;
}
