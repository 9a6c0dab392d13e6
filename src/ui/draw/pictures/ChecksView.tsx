import type { VNode } from 'preact';
import type { CheckStatus } from '../../../core/checks/check.ts';
import { ConditionsEntry } from '../entries/winds/ConditionsEntry.tsx';
import { CheckRow } from './CheckRow.tsx';
import { OverlayEntry } from '../entries/OverlayEntry.tsx';
import { RulesEntry } from '../entries/RulesEntry.tsx';
import { useDesk } from '../desk-context.ts';

const ORDER: readonly CheckStatus[] = ['stop', 'caution', 'not-checked', 'ok'];
const HEADS: Readonly<Record<CheckStatus, string>> = {
  stop: 'No-go',
  caution: 'With caution',
  'not-checked': 'Not checked',
  ok: 'Checked and within its limit',
};

/** Go or no-go: every check with its value, its limit and its source, and aloud what nobody has checked. */
export function ChecksView(): VNode | null {
  const { checks: result, editor } = useDesk();
  if (result.value === null) return null;
  const { checks, worst, notChecked } = result.value;
  return (
    <div class="checks-view">
      <ConditionsEntry />
      <OverlayEntry />
      <RulesEntry />
      <p class={worst === 'ok' ? 'notice' : `notice ${worst === 'stop' ? 'warning' : 'caution'}`} role="status">
        <strong>{worst === 'stop' ? 'No-go, as it stands.' : worst === 'caution' ? 'With caution.' : 'Nothing that was checked is a no-go.'}</strong>{' '}
        {notChecked} {notChecked === 1 ? 'thing was' : 'things were'} not checked. Whether it is flown is the pilot's decision; local rules and licensed
        practice decide. Limits by: {result.value.rules.name}.
      </p>
      {ORDER.map((status) => {
        const these = checks.filter((check) => check.status === status);
        return these.length === 0 ? null : (
          <section key={status} class="check-group">
            <h3>{HEADS[status]}</h3>
            <ul>
              {these.map((check) => (
                <CheckRow key={check.id} check={check} timeZone={editor.job.value.site.timeZone} />
              ))}
            </ul>
          </section>
        );
      })}
    </div>
  );
}
