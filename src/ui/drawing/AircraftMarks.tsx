import type { VNode } from 'preact';
import type { ShipPlan } from '../../core/plan/plan.ts';
import { AircraftMark } from './AircraftMark.tsx';
import { type PictureView, pictureDirection, picturePoint } from './picture-view.ts';
import { shipMoment } from './plan-moment.ts';

export interface AircraftMarksProps {
  readonly ships: readonly ShipPlan[];
  readonly names: readonly string[];
  /** A view of the air-mass frame, from above or, mirrored, from below. */
  readonly view: PictureView;
  readonly atSeconds: number;
}

/** Every ship where its plan has it at an instant. */
export function AircraftMarks({ ships, names, view, atSeconds }: AircraftMarksProps): VNode {
  return (
    <>
      {ships.map((ship, index) => {
        const moment = shipMoment(ship, atSeconds);
        if (moment === null) return null;
        const { pose, leg } = moment;
        return (
          <AircraftMark
            key={index}
            place={picturePoint(pose.airEastMetres, pose.airNorthMetres, view)}
            directionRadians={pictureDirection(pose.directionRadians, view)}
            smoking={leg.kind === 'smoke'}
            name={ships.length > 1 ? (names[index] ?? '') : ''}
          />
        );
      })}
    </>
  );
}
