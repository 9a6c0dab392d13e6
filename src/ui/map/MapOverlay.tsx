import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Site, SitePoint } from '../../core/earth/site-frame.ts';
import type { JobPoint } from '../../core/job/job.ts';
import type { Overlay } from '../../core/place/overlay.ts';
import { overlayOnGround } from '../../core/place/overlay-ground.ts';
import { type PictureView, picturePoint } from '../drawing/picture-view.ts';
import { MapLabel } from './MapLabel.tsx';
import { useUnitText } from '../fields/units-context.ts';

export interface MapOverlayProps {
  readonly overlay: Overlay | null;
  readonly site: Site;
  readonly namedPoints: readonly JobPoint[];
  /** Of the site frame, north up. */
  readonly view: PictureView;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const NOTHING: Overlay = { areas: [], landmarks: [], lines: [] };
/** More words than this hide each other. */
const MOST_LABELS = 12;

/** The user's areas to stay out of, hatched, and the points found from the air, as far as they lie on the map. */
export function MapOverlay({ overlay, site, namedPoints, view, widthPixels, heightPixels }: MapOverlayProps): VNode | null {
  const units = useUnitText();
  const drawn = useMemo(() => {
    const metresPerPixel = 1 / view.pixelsPerMetre;
    const origin = picturePoint(0, 0, view);
    // From the site to the farthest corner, or as far as the ground can be shown flat.
    const reach = Math.min(
      400_000,
      1.2 * metresPerPixel * Math.hypot(Math.max(origin.xPixels, widthPixels - origin.xPixels), Math.max(origin.upPixels, heightPixels - origin.upPixels)),
    );
    const landmarks = [...(overlay?.landmarks ?? []), ...namedPoints.map((point) => ({ ...point, topFeet: null }))];
    return overlayOnGround({ ...(overlay ?? NOTHING), landmarks }, site, reach, metresPerPixel);
  }, [overlay, site, namedPoints, view, widthPixels, heightPixels]);
  const at = (point: SitePoint): string => {
    const { xPixels, upPixels } = picturePoint(point.eastMetres, point.northMetres, view);
    return `${xPixels.toFixed(1)} ${(-upPixels).toFixed(1)}`;
  };
  const inside = drawn.landmarks
    .map(({ landmark, place }) => ({
      name: landmark.topFeet === null ? landmark.name : `${landmark.name} ${units.height.own(landmark.topFeet)}`.trim(),
      place: picturePoint(place.eastMetres, place.northMetres, view),
    }))
    .filter(({ place: { xPixels, upPixels } }) => xPixels > 4 && xPixels < widthPixels - 4 && upPixels > 4 && upPixels < heightPixels - 4);
  if (drawn.areas.length === 0 && inside.length === 0) return null;
  return (
    <g class="map-overlay">
      <defs>
        <pattern id="no-go-hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V8" />
        </pattern>
      </defs>
      {drawn.areas.map(({ name, noGo, rings }, index) => (
        <path key={index} class={noGo ? 'no-go' : 'looked-at'} fill-rule="evenodd" d={rings.map((ring) => `M${ring.map(at).join('L')}Z`).join('')}>
          <title>{name === '' ? 'an area without a name' : name}</title>
        </path>
      ))}
      {inside.map(({ name, place }, index) => (
        <MapLabel key={index} kind="landmark" place={place} widthPixels={widthPixels} text={index < MOST_LABELS ? name : ''} />
      ))}
    </g>
  );
}
