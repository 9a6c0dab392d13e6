import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { positionHere } from '../../../app/draw/position-here.ts';
import type { GeodeticPoint } from '../../../core/earth/site-frame.ts';
import { isEntered, withEntered } from '../../../core/job/not-entered.ts';
import { formatLatitude, formatLongitude } from '../../../core/text/number-formats.ts';
import { typedPosition } from '../../../core/text/typed-position.ts';
import { useDesk } from '../desk-context.ts';

const PATHS = ['site.latitudeDegrees', 'site.longitudeDegrees'] as const;

/** What was pasted is echoed for as long as the site is there. */
const isAt = (read: GeodeticPoint, site: GeodeticPoint): boolean =>
  read.latitudeDegrees === site.latitudeDegrees && read.longitudeDegrees === site.longitudeDegrees;

/** The site's position as one entry: pasted in any usual form, or taken from where this device is. */
export function PositionEntry(): VNode {
  const { editor } = useDesk();
  const text = useSignal('');
  const asking = useSignal<'no' | 'asking' | 'refused'>('no');
  const job = editor.job.value;
  const read = text.value.trim() === '' ? null : typedPosition(text.value);
  const take = ({ latitudeDegrees, longitudeDegrees }: GeodeticPoint): void =>
    editor.edit('the site\u2019s position', (before) => withEntered({ ...before, site: { ...before.site, latitudeDegrees, longitudeDegrees } }, ...PATHS));
  const here = async (): Promise<void> => {
    asking.value = 'asking';
    const found = await positionHere();
    asking.value = found === null ? 'refused' : 'no';
    if (found !== null) take(found);
  };
  return (
    <div class="position-entry">
      <label class="field">
        <span>Position, pasted in any form</span>
        <input
          value={text.value}
          placeholder={
            PATHS.every((path) => isEntered(job, path))
              ? `${formatLatitude(job.site.latitudeDegrees)} ${formatLongitude(job.site.longitudeDegrees)}`
              : 'not entered'
          }
          autocomplete="off"
          aria-invalid={read !== null && !read.ok ? 'true' : undefined}
          onInput={(event) => {
            text.value = event.currentTarget.value;
            const typed = typedPosition(text.value);
            if (typed.ok) take(typed);
          }}
        />
      </label>
      <button type="button" disabled={asking.value === 'asking'} onClick={() => void here()}>
        {asking.value === 'asking' ? 'Asking this device' : 'Here'}
      </button>
      {read !== null && (!read.ok || isAt(read, job.site)) && (
        <p class={read.ok ? 'small quiet' : 'fault'} role="status">
          {read.ok ? `= ${formatLatitude(read.latitudeDegrees)} ${formatLongitude(read.longitudeDegrees)}` : read.reason}
        </p>
      )}
      {asking.value === 'refused' && <p class="fault">This device gives no position: allow it, or paste one.</p>}
    </div>
  );
}
