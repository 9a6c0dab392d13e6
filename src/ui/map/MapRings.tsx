import type { VNode } from 'preact';
import { useUnitText } from '../fields/units-context.ts';
import { type PicturePoint, type PictureView, picturePoint } from '../drawing/picture-view.ts';

export interface MapRingsProps {
  /** Of the site frame, north up. */
  readonly view: PictureView;
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Points the labels should keep away from. */
  readonly avoid: readonly PicturePoint[];
}

const ROUND_STEPS = [0.25, 0.5, 1, 2, 5, 10, 20, 50];
const LEAST_GAP_PIXELS = 70;

/** Rings of round distances about the site, labelled where there is room. */
export function MapRings({ view, widthPixels, heightPixels, avoid }: MapRingsProps): VNode {
  const { crowdDistance } = useUnitText();
  const metresEach = 1 / crowdDistance.of(1);
  const unit = crowdDistance.unit.replace('statute ', '');
  const step = ROUND_STEPS.find((miles) => miles * metresEach * view.pixelsPerMetre >= LEAST_GAP_PIXELS) ?? 100;
  const site = picturePoint(0, 0, view);
  const corners = [0, widthPixels].flatMap((x) => [0, heightPixels].map((up) => Math.hypot(x - site.xPixels, up - site.upPixels)));
  const count = Math.floor(Math.max(...corners) / (step * metresEach * view.pixelsPerMetre));
  const towards = clearDirection(site, avoid, widthPixels, heightPixels, step * metresEach * view.pixelsPerMetre);
  return (
    <g class="rings">
      {Array.from({ length: count }, (_, index) => {
        const miles = step * (index + 1);
        const radius = miles * metresEach * view.pixelsPerMetre;
        const [x, y] = [site.xPixels + radius * Math.cos(towards), -site.upPixels - radius * Math.sin(towards)];
        const shown = x > 20 && x < widthPixels - 20 && y < -12 && y > -heightPixels + 12;
        return (
          <g key={miles}>
            <circle cx={site.xPixels} cy={-site.upPixels} r={radius} />
            {shown && (
              <text x={x} y={y} dy="0.35em">
                {miles} {unit}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** The direction from the site in which most rings show and the first of them is farthest from what is drawn. */
function clearDirection(site: PicturePoint, avoid: readonly PicturePoint[], widthPixels: number, heightPixels: number, stepPixels: number): number {
  let best = { direction: 0, worth: -Infinity };
  for (let degrees = 0; degrees < 360; degrees += 15) {
    const direction = (degrees * Math.PI) / 180;
    let worth = 0;
    for (let ring = 1; ring <= 3; ring++) {
      const x = site.xPixels + ring * stepPixels * Math.cos(direction);
      const up = site.upPixels + ring * stepPixels * Math.sin(direction);
      // The site's own name runs level beside it.
      if (x < 24 || x > widthPixels - 24 || up < 14 || up > heightPixels - 14 || Math.abs(up - site.upPixels) < 34) continue;
      const clearPixels = avoid.reduce((least, point) => Math.min(least, Math.hypot(point.xPixels - x, point.upPixels - up)), Infinity);
      worth += Math.min(1, clearPixels / 60);
    }
    if (worth > best.worth) best = { direction, worth };
  }
  return best.direction;
}
