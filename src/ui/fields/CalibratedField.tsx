import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { jobLimits } from '../../core/job/job-limits.ts';
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
  const limits = [Math.ceil(10 * air.calibratedKnots(slowest)) / 10, Math.floor(10 * air.calibratedKnots(fastest)) / 10] as const;
  return (
    <div class="field">
      <span aria-hidden="true">{label('The same, calibrated at the layer, kt')}</span>
      <NumberCell
        label={label('Calibrated airspeed at the layer, knots')}
        unit="kt"
        value={Math.round(10 * calibrated) / 10}
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
