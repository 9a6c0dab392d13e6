import type { VNode } from 'preact';
import { BOOKING_LENGTHS } from '../../../../core/job/booking-schema.ts';
import type { Job } from '../../../../core/job/job.ts';
import { KeptChoice } from '../../../fields/KeptChoice.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { useDesk } from '../../desk-context.ts';

type Member = Job['crew'][number];

/** Who works on the job, as what, and the telephone number. */
export function CrewEntry(): VNode {
  const { editor, kept } = useDesk();
  const { crew } = editor.job.value;
  const put = (name: string, next: (before: readonly Member[]) => readonly Member[]): void => editor.edit(name, (job) => ({ ...job, crew: next(job.crew) }));
  const keepAll = async (): Promise<void> => {
    for (const member of crew) if (member.name !== '') await kept.keepMember(member);
  };
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
      <KeptChoice
        label="Kept people"
        items={kept.kept.value.crew}
        onTake={(id) => {
          const found = kept.kept.value.crew.find((each) => each.id === id);
          if (found !== undefined) put('someone kept', (before) => [...before, { name: found.name, role: found.role, telephone: found.telephone }]);
        }}
        onForget={(id) => void kept.forget('crew', id)}
        onKeep={crew.every(({ name }) => name === '') ? null : () => void keepAll()}
        keepWord="Keep these people"
      />
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
