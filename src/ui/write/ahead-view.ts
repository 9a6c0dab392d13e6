import type { FlightView } from '../../core/guidance/flight-view.ts';
import { type AirPath, type AirPoint, type AirPose, airPathLengthMetres, airPoseAt } from '../../core/paths/air-path.ts';

export interface AheadSize {
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** How the drawing ahead lies in its frame, nose up: its scale, and where the aircraft stands from the upper left. */
export interface AheadFrame {
  readonly pixelsPerMetre: number;
  readonly ownXPixels: number;
  readonly ownYPixels: number;
}

/** Seen from the aircraft, nose up. */
interface NoseUpPoint {
  readonly asideMetres: number;
  readonly aheadMetres: number;
}

/** Room for the stroke's width and its arrow, where there is room. */
const MARGIN_PIXELS = 34;
const MARGIN_SHARE = 0.16;
/** A frame is kept until something comes closer to its edge than this share of the margin. */
const KEPT_MARGIN_SHARE = 0.4;
/** A frame is kept until what it shows fills less than this share of it, either way. */
const KEPT_SHARE = 0.5;
/** Nothing is drawn closer up than this, so that a stroke's last metres do not grow without end. */
const CLOSEST_METRES = 500;
const SAMPLES = 24;
/** Straight on, so much is shown ahead of the aircraft at least. */
const LOOKAHEAD_METRES = 250;

function sampled(path: AirPath, fromMetres: number): AirPoint[] {
  const lengthMetres = airPathLengthMetres(path);
  return Array.from({ length: SAMPLES + 1 }, (_, index) => airPoseAt(path, fromMetres + ((lengthMetres - fromMetres) * index) / SAMPLES));
}

/** What must be seen: the aircraft, the way and the whole stroke on a reposition, what is left of the stroke while writing. */
function shown(own: AirPose, { way, stroke, strokeDoneMetres }: FlightView): NoseUpPoint[] {
  const points = [...(way === null ? [] : sampled(way, 0)), ...(stroke === null ? [] : sampled(stroke, way === null ? strokeDoneMetres : 0))];
  const cosine = Math.cos(own.directionRadians);
  const sine = Math.sin(own.directionRadians);
  const turned = points.map(({ airEastMetres, airNorthMetres }) => {
    const east = airEastMetres - own.airEastMetres;
    const north = airNorthMetres - own.airNorthMetres;
    return { asideMetres: east * sine - north * cosine, aheadMetres: east * cosine + north * sine };
  });
  return [{ asideMetres: 0, aheadMetres: 0 }, { asideMetres: 0, aheadMetres: LOOKAHEAD_METRES }, ...turned];
}

/**
 * The frame for what lies ahead: the previous one as long as everything is in it and fills it, so that the drawing
 * stands still under the eye; otherwise the largest that holds everything, with the whole of it in the middle.
 */
export function aheadFrame(own: AirPose, view: FlightView, size: AheadSize, previous: AheadFrame | null): AheadFrame {
  const points = shown(own, view);
  const aside = points.map(({ asideMetres }) => asideMetres);
  const ahead = points.map(({ aheadMetres }) => aheadMetres);
  const [leftMetres, rightMetres] = [Math.min(...aside), Math.max(...aside)];
  const [behindMetres, aheadMetres] = [Math.min(...ahead), Math.max(...ahead)];
  const wideMetres = Math.max(CLOSEST_METRES, rightMetres - leftMetres);
  const highMetres = Math.max(CLOSEST_METRES, aheadMetres - behindMetres);
  const marginPixels = Math.min(MARGIN_PIXELS, MARGIN_SHARE * Math.min(size.widthPixels, size.heightPixels));
  const keptPixels = KEPT_MARGIN_SHARE * marginPixels;
  const largest = Math.min(Math.max(1, size.widthPixels - 2 * marginPixels) / wideMetres, Math.max(1, size.heightPixels - 2 * marginPixels) / highMetres);
  if (previous !== null && previous.pixelsPerMetre > KEPT_SHARE * largest) {
    const { pixelsPerMetre, ownXPixels, ownYPixels } = previous;
    const inside =
      ownXPixels + leftMetres * pixelsPerMetre >= keptPixels &&
      ownXPixels + rightMetres * pixelsPerMetre <= size.widthPixels - keptPixels &&
      ownYPixels - aheadMetres * pixelsPerMetre >= keptPixels &&
      ownYPixels - behindMetres * pixelsPerMetre <= size.heightPixels - keptPixels;
    if (inside) return previous;
  }
  return {
    pixelsPerMetre: largest,
    ownXPixels: size.widthPixels / 2 - ((leftMetres + rightMetres) / 2) * largest,
    ownYPixels: size.heightPixels / 2 + ((behindMetres + aheadMetres) / 2) * largest,
  };
}

/** SVG transform that lays a drawing of the air mass, made north up at the frame's scale, into the frame, nose up. */
export function aheadTransform(own: AirPose, { pixelsPerMetre, ownXPixels, ownYPixels }: AheadFrame): string {
  // SVG turns clockwise for positive angles, its y running down; with north up the nose points this far clockwise.
  const noseDegrees = 90 - (own.directionRadians * 180) / Math.PI;
  const x = -own.airEastMetres * pixelsPerMetre;
  const y = own.airNorthMetres * pixelsPerMetre;
  return `translate(${ownXPixels.toFixed(1)} ${ownYPixels.toFixed(1)})rotate(${(-noseDegrees).toFixed(2)})translate(${x.toFixed(1)} ${y.toFixed(1)})`;
}
