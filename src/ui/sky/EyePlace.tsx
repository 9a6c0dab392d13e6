import type { VNode } from 'preact';
import type { SitePointUp } from '../../core/earth/site-frame.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import { metresFromStatuteMiles } from '../../core/units/quantity.ts';
import { NumberField } from '../fields/NumberField.tsx';

/** Where an eye stands, from the site, or from the crowd's middle where it stands at several places. */
export interface Eye {
  readonly bearingDegrees: number;
  readonly distanceStatuteMiles: number;
}

/** Where the picture is made for. */
export const SITE_EYE: Eye = { bearingDegrees: 0, distanceStatuteMiles: 0 };

/** An eye in the site frame, as high as the site. */
export function eyePoint({ bearingDegrees, distanceStatuteMiles }: Eye): SitePointUp {
  const metres = metresFromStatuteMiles(distanceStatuteMiles);
  const bearing = radiansFromDegrees(bearingDegrees);
  return { eastMetres: metres * Math.sin(bearing), northMetres: metres * Math.cos(bearing), upMetres: 0 };
}

export interface EyePlaceProps {
  readonly eye: Eye;
  /** Several places are looked from: the picture is seen from their middle. */
  readonly fromMiddle: boolean;
  readonly onChange: (eye: Eye) => void;
}

/** Lets the eye walk away. */
export function EyePlace({ eye, fromMiddle, onChange }: EyePlaceProps): VNode {
  return (
    <>
      <NumberField
        label={fromMiddle ? 'Eye, away from the crowd’s middle' : 'Eye, away from the site'}
        unit="statute mi"
        value={eye.distanceStatuteMiles}
        limits={[0, 40]}
        step={1}
        onChange={(distanceStatuteMiles) => onChange({ ...eye, distanceStatuteMiles })}
      />
      {eye.distanceStatuteMiles > 0 && (
        <NumberField
          label="Eye, bearing true"
          unit={'\u00b0'}
          value={eye.bearingDegrees}
          limits={[0, 360]}
          step={15}
          wraps
          onChange={(bearingDegrees) => onChange({ ...eye, bearingDegrees: bearingDegrees % 360 })}
        />
      )}
    </>
  );
}
