import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import { isEntered, withEntered } from '../../../core/job/not-entered.ts';
import { instantFromLocalText, localTextFromInstant, utcText } from '../../words/zoned-time.ts';
import { useDesk } from '../desk-context.ts';

/** When the text should be read, in the site's own time, with UTC beside it. */
export function ReadTimeField(): VNode {
  const { editor } = useDesk();
  const id = useId();
  const { readTime, site } = editor.job.value;
  const local = localTextFromInstant(Date.parse(readTime), site.timeZone);
  const zone = local === null ? 'UTC' : site.timeZone;
  const known = isEntered(editor.job.value, 'readTime');
  const shown = !known ? '' : (local ?? localTextFromInstant(Date.parse(readTime), 'UTC') ?? '');
  return (
    <div class="field read-time">
      <label for={id}>Read at, {local === null ? 'UTC' : 'local time'}</label>
      <input
        id={id}
        type="datetime-local"
        value={shown}
        onInput={(event) => {
          const instant = instantFromLocalText(event.currentTarget.value, zone);
          if (instant !== null) editor.edit('read time', (job) => withEntered({ ...job, readTime: utcText(instant) }, 'readTime'));
        }}
      />
      <span class="small">
        {known ? `${readTime.slice(0, 16).replace('T', ' ')} UTC${Date.parse(readTime) < Date.now() ? ', in the past' : ''}` : 'Not entered'}
        {local === null && `. There is no time zone \u201c${site.timeZone}\u201d here, so UTC is used.`}
      </span>
    </div>
  );
}
