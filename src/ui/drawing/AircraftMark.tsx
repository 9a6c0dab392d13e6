import type { VNode } from 'preact';
import { PEN_NIB, PEN_NIB_SLIT } from './pen-nib.ts';
import type { PicturePoint } from './picture-view.ts';

export interface AircraftMarkProps {
  readonly place: PicturePoint;
  /** Direction of travel on the picture, anticlockwise from its right. */
  readonly directionRadians: number;
  readonly smoking: boolean;
  /** Beside the mark; empty for a single ship. */
  readonly name: string;
}

/** A pen nib where a ship is; filled while it smokes. */
export function AircraftMark({ place, directionRadians, smoking, name }: AircraftMarkProps): VNode {
  const degrees = (-directionRadians * 180) / Math.PI;
  return (
    <g class={smoking ? 'aircraft smoking' : 'aircraft'} transform={`translate(${place.xPixels.toFixed(1)} ${(-place.upPixels).toFixed(1)})`}>
      <g transform={`rotate(${degrees.toFixed(1)})`}>
        <path d={PEN_NIB} />
        <path class="aircraft-slit" d={PEN_NIB_SLIT} />
      </g>
      {name !== '' && (
        <text x="12" y="-10">
          {name}
        </text>
      )}
    </g>
  );
}
