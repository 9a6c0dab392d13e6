import { type AirPath, airPathEnd } from '../../core/paths/air-path.ts';

const WING_PIXELS = 15;
const GAP_PIXELS = 14;

/** SVG data of an open arrowhead just past a stroke's end, pointing the way it is flown. */
export function strokeEndMark(stroke: AirPath, pixelsPerMetre: number): string {
  const end = airPathEnd(stroke);
  const cosine = Math.cos(end.directionRadians);
  const sine = Math.sin(end.directionRadians);
  const tipX = end.airEastMetres * pixelsPerMetre + (GAP_PIXELS + WING_PIXELS / 2) * cosine;
  const tipY = end.airNorthMetres * pixelsPerMetre + (GAP_PIXELS + WING_PIXELS / 2) * sine;
  const wing = (turnRadians: number): string => {
    const radians = end.directionRadians + Math.PI + turnRadians;
    return `${(tipX + WING_PIXELS * Math.cos(radians)).toFixed(1)} ${(-tipY - WING_PIXELS * Math.sin(radians)).toFixed(1)}`;
  };
  return `M${wing(0.7)}L${tipX.toFixed(1)} ${(-tipY).toFixed(1)}L${wing(-0.7)}`;
}
