import type { VNode } from 'preact';
import { useDesk } from '../desk-context.ts';
import { checkText } from '../pictures/CheckRow.tsx';
import { useUnitText } from '../../fields/units-context.ts';

export interface SectionChecksProps {
  /** Beginnings of the checks' ids that belong here. */
  readonly of: readonly string[];
}

/** What stands against the numbers entered here, said where they are entered. */
export function SectionChecks({ of }: SectionChecksProps): VNode | null {
  const units = useUnitText();
  const { checks, editor } = useDesk();
  const these = (checks.value?.checks ?? []).filter(
    ({ id, status }) => (status === 'stop' || status === 'caution') && of.some((start) => id.startsWith(start)),
  );
  if (these.length === 0) return null;
  const { timeZone } = editor.job.value.site;
  return (
    <>
      {these.map(({ id, status, title, value, limit, advice, source }) => (
        <p key={id} class={`notice ${status === 'stop' ? 'warning' : 'caution'}`} data-check={id}>
          <span>
            <strong>
              {status === 'stop' ? 'Against it: ' : 'Caution: '}
              {title}
              {value === null ? '' : `, ${checkText(value, timeZone, units)}`}
              {limit === null ? '' : ` against ${checkText(limit, timeZone, units)}`}.
            </strong>{' '}
            {advice} <span class="small">({source})</span>
          </span>
        </p>
      ))}
    </>
  );
}
