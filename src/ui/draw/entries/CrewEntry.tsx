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
  const text = (index: number, field: keyof Member, label: string, value: string): VNode => (
    <label class="field">
      <span>{label}</span>
      <input
        inputMode={field === 'telephone' ? 'tel' : 'text'}
        value={value}
        maxLength={60}
        placeholder="not entered"
        onInput={(event) => {
          const typed = event.currentTarget.value;
          put(`crew ${index + 1}`, (before) => before.map((each, at) => (at === index ? { ...each, [field]: typed } : each)));
        }}
      />
    </label>
  );
  return (
    <div class="crew-entry">
      <h3>Crew</h3>
      {crew.map(({ name, role, telephone }, index) => (
        <fieldset key={index} class="entry-group">
          <legend class="visually-hidden">Crew {index + 1}</legend>
          {text(index, 'name', 'Who', name)}
          {text(index, 'role', 'As what', role)}
          {text(index, 'telephone', 'Telephone', telephone)}
          <RemoveButton label={`Remove crew ${index + 1}`} onPress={() => put('someone less', (before) => before.filter((_, at) => at !== index))} />
        </fieldset>
      ))}
      {crew.length < BOOKING_LENGTHS.crew && (
        <button type="button" onClick={() => put('someone', (before) => [...before, { name: '', role: '', telephone: '' }])}>
          Add someone
        </button>
      )}
    </div>
  );
}
