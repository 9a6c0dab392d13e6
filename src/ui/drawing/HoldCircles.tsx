import type { VNode } from 'preact';
import type { ShipPlan } from '../../core/plan/plan.ts';
import { type PictureView, picturePoint } from './picture-view.ts';

export interface HoldCirclesProps {
  readonly ships: readonly ShipPlan[];
  readonly names: readonly string[];
  readonly view: PictureView;
}

/** Where each ship of a formation waits before its first stroke. */
export function HoldCircles({ ships, names, view }: HoldCirclesProps): VNode {
  return (
    <>
      {ships.map(({ shipIndex, joinUp }) => {
        if (joinUp === undefined) return null;
        const { xPixels, upPixels } = picturePoint(joinUp.holdCentre.airEastMetres, joinUp.holdCentre.airNorthMetres, view);
        return (
          <g key={shipIndex} class="hold">
            <circle cx={xPixels.toFixed(1)} cy={(-upPixels).toFixed(1)} r={(joinUp.holdRadiusMetres * view.pixelsPerMetre).toFixed(1)} />
            <text x={xPixels.toFixed(1)} y={(-upPixels).toFixed(1)} dy="0.35em">
              {names[shipIndex] ?? `Ship ${shipIndex + 1}`}
            </text>
          </g>
        );
      })}
    </>
  );
}
