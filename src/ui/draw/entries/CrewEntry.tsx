import type { VNode } from 'preact';
import { BOOKING_LENGTHS } from '../../../core/job/booking-schema.ts';
import type { Job } from '../../../core/job/job.ts';
import { RemoveButton } from '../../fields/RemoveButton.tsx';
import { useDesk } from '../desk-context.ts';

type Member = Job['crew'][number];

/** Who works on the job, as what, and the telephone number. */
export function CrewEntry(): VNode {
  const { editor } = useDesk();
  const { crew } = editor.job.value;
  const put = (name: string, next: (before: readonly Member[]) => readonly Member[]): void => editor.edit(name, (job) => ({ ...job, crew: next(job.crew) }));
  const cell = (index: number, field: keyof Member, label: string, value: string): VNode => (
    <td>
      <input
        aria-label={`Crew ${index + 1}, ${label}`}
        inputMode={field === 'telephone' ? 'tel' : 'text'}
        value={value}
        maxLength={60}
        placeholder="not entered"
        onInput={(event) =>
          put(`crew ${index + 1}`, (before) => before.map((each, at) => (at === index ? { ...each, [field]: event.currentTarget.value } : each)))
        }
      />
    </td>
  );
  return (
    <div class="crew-entry">
      <h3>Crew</h3>
      {crew.length > 0 && (
        <table class="entry-rows">
          <thead>
            <tr>
              <th scope="col">Name</th>
              <th scope="col">Role</th>
              <th scope="col">Telephone</th>
              <th scope="col">
                <span class="visually-hidden">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {crew.map(({ name, role, telephone }, index) => (
              <tr key={index}>
                {cell(index, 'name', 'name', name)}
                {cell(index, 'role', 'role', role)}
                {cell(index, 'telephone', 'telephone', telephone)}
                <td>
                  <RemoveButton label={`Remove crew ${index + 1}`} onPress={() => put('someone less', (before) => before.filter((_, at) => at !== index))} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {crew.length < BOOKING_LENGTHS.crew && (
        <button type="button" onClick={() => put('someone', (before) => [...before, { name: '', role: '', telephone: '' }])}>
          Add someone
        </button>
      )}
    </div>
  );
}
