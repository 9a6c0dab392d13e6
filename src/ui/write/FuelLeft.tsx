import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import type { FlightHere } from '../../app/flight/flight-here.ts';
import { isEntered } from '../../core/job/not-entered.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { useApplication } from '../application-context.ts';
import { fuelLeftGallons } from './fuel-left.ts';

/** The fuel that is left by the clock since the start, beside the oil; nothing where the job does not say it. */
export function FuelLeft({ flight, units }: { readonly flight: FlightHere; readonly units: ReadonlySignal<UnitText | null> }): VNode | null {
  const { jobs } = useApplication();
  const job = jobs.find(flight.jobId);
  const left = useComputed(() => {
    const ship = job?.ships.find(({ name }) => name === flight.cues.value.shipName);
    const state = flight.state();
    return ship === undefined || state.phase === 'idle' ? null : fuelLeftGallons(ship, state.flight.atSeconds);
  }).value;
  if (job === null || left === null || !['ships.fuelGallons', 'ships.fuelGallonsPerHour'].every((path) => isEntered(job, path))) return null;
  return (
    <div class="write-fact write-fact-fuel" data-figure="fuel" data-value={left.gallons.toFixed(1)}>
      <dt>fuel</dt>
      <dd>
        {(units.value ?? unitText()).volume.own(left.gallons)}
        {left.said === '' ? '' : `, ${left.said}`}
      </dd>
    </div>
  );
}
