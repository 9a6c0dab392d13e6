import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { jobLimits } from '../../core/job/job-limits.ts';
import { isEntered } from '../../core/job/not-entered.ts';
import { NumberCell } from './NumberCell.tsx';
import { layerAir } from '../../app/draw/layer-air.ts';
import { useFieldUnit, useUnitText } from './units-context.ts';

export interface CalibratedFieldProps {
  readonly job: Job;
  readonly trueKnots: number;
  /** The true airspeed that goes with a calibrated one, within the job's limits and to a tenth of a knot. */
  readonly onTrue: (trueKnots: number) => void;
}

/** The airspeed as the pilot's own instrument has it at the layer: typed here, kept as true airspeed. */
export function CalibratedField({ job, trueKnots, onTrue }: CalibratedFieldProps): VNode {
  const air = layerAir(job);
  const { label } = useFieldUnit('kt');
  const units = useUnitText();
  const [slowest, fastest] = jobLimits('ships.trueAirspeedKnots');
  const calibrated = air.calibratedKnots(trueKnots);
  // Which calibrated airspeed it is depends on height and temperature alone: without a layer there is none.
  if (!isEntered(job, 'layer.altitudeFeet')) return <p class="small quiet">Calibrated airspeed is told, and may be typed, once the layer is entered.</p>;
  const known = isEntered(job, 'ships.trueAirspeedKnots');
  const limits = [Math.ceil(10 * air.calibratedKnots(slowest)) / 10, Math.floor(10 * air.calibratedKnots(fastest)) / 10] as const;
  return (
    <div class="field">
      <span aria-hidden="true">{label('The same, calibrated at the layer, kt')}</span>
      <NumberCell
        label={label('Calibrated airspeed at the layer, knots')}
        unit="kt"
        value={known ? Math.round(10 * calibrated) / 10 : Number.NaN}
        {...(known ? {} : { placeholder: 'not entered' })}
        limits={limits}
        onChange={(knots) => onTrue(Math.round(10 * air.trueKnots(knots)) / 10)}
      />
      <p class="small">
        at {units.height.own(job.layer.altitudeFeet)} and {units.temperature.text(air.celsius)}, {air.from}. Indicated differs by the aircraft's own correction
        card.
      </p>
    </div>
  );
}
