import type { VNode } from 'preact';
import { PERMISSION_WORDS } from '../../../../core/checks/booking-checks.ts';
import { BOOKING_LENGTHS, PERMISSION_STATES } from '../../../../core/job/booking-schema.ts';
import type { JobPermission } from '../../../../core/job/job.ts';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { useDesk } from '../../desk-context.ts';

/** What must be permitted, how far each has come, its number and who said so. */
export function PermissionsEntry(): VNode {
  const { editor } = useDesk();
  const { permissions } = editor.job.value.booking;
  const put = (name: string, next: (before: readonly JobPermission[]) => readonly JobPermission[]): void =>
    editor.edit(name, (job) => ({ ...job, booking: { ...job.booking, permissions: next(job.booking.permissions) } }));
  const change = (index: number, part: Partial<JobPermission>): void =>
    put(`permission ${index + 1}`, (before) => before.map((each, at) => (at === index ? { ...each, ...part } : each)));
  const text = (index: number, field: 'name' | 'number' | 'saidBy', label: string, value: string): VNode => (
    <label class="field">
      <span>{label}</span>
      <input value={value} maxLength={60} placeholder="not entered" onInput={(event) => change(index, { [field]: event.currentTarget.value })} />
    </label>
  );
  return (
    <div class="permissions-entry">
      <h3>Permissions</h3>
      {permissions.map(({ name, state, number, saidBy }, index) => (
        <fieldset key={index} class="entry-group">
          <legend class="visually-hidden">Permission {index + 1}</legend>
          {text(index, 'name', 'For what', name)}
          <label class="field">
            <span>State</span>
            <select value={state} onChange={(event) => change(index, { state: event.currentTarget.value as JobPermission['state'] })}>
              {PERMISSION_STATES.map((each) => (
                <option key={each} value={each}>
                  {PERMISSION_WORDS[each]}
                </option>
              ))}
            </select>
          </label>
          {text(index, 'number', 'Its number', number)}
          {text(index, 'saidBy', 'Who said so, when', saidBy)}
          <RemoveButton label={`Remove permission ${index + 1}`} onPress={() => put('a permission less', (before) => before.filter((_, at) => at !== index))} />
        </fieldset>
      ))}
      {permissions.length < BOOKING_LENGTHS.permissions && (
        <button type="button" onClick={() => put('a permission', (before) => [...before, { name: '', state: 'to-ask', number: '', saidBy: '' }])}>
          Add a permission
        </button>
      )}
    </div>
  );
}
