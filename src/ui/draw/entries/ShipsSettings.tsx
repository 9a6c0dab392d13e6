import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import type { Job, JobShip } from '../../../core/job/job.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { useDesk } from '../desk-context.ts';
import { ShipSettings } from './ShipSettings.tsx';

const NAMES = ['Lead', 'Two', 'Three'];

/** How many ships write, and each one's numbers. A ship taken out comes back with undo. */
export function ShipsSettings(): VNode {
  const { editor } = useDesk();
  const { ships } = editor.job.value;
  const [opened, setOpened] = useState(0);
  const shown = Math.min(opened, ships.length - 1);
  return (
    <div class="ships-settings">
      <ChoiceField
        label="Ships"
        value={String(ships.length)}
        choices={NAMES.map((_, index) => ({ value: String(index + 1), label: String(index + 1) }))}
        onChange={(count) => editor.edit('number of ships', (job) => withShips(job, Number(count)))}
      />
      {ships.length > 1 && (
        <ChoiceField
          label="Shown"
          value={String(shown)}
          choices={ships.map(({ name }, index) => ({ value: String(index), label: name }))}
          onChange={(index) => setOpened(Number(index))}
        />
      )}
      <ShipSettings key={shown} shipIndex={shown} />
    </div>
  );
}

/** The job with so many ships: those it has first, then copies of the lead under the next name. */
export function withShips(job: Job, count: number): Job {
  if (count === job.ships.length) return job;
  const lead = job.ships[0];
  if (lead === undefined) return job;
  const more: JobShip[] = NAMES.slice(job.ships.length, count).map((name) => ({ ...lead, name }));
  return { ...job, ships: [...job.ships.slice(0, count), ...more] };
}
