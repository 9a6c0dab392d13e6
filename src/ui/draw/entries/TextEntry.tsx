import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import { useDesk } from '../desk-context.ts';

/** The words to write: the first thing on the screen, as large as they deserve. */
export function TextEntry(): VNode {
  const { editor, problem } = useDesk();
  const id = useId();
  const fault = problem.value;
  const { text } = editor.job.value;
  return (
    <div class="text-entry">
      <label for={id}>Words in the sky</label>
      <textarea
        id={id}
        name="text"
        rows={text.includes('\n') ? 2 : 1}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        value={text}
        aria-invalid={fault === null ? undefined : 'true'}
        aria-describedby={fault === null ? undefined : `${id}-problem`}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          editor.edit('the words', (job) => (job.text === typed ? job : { ...job, text: typed }));
        }}
      />
      {fault !== null && (
        <div class="notice problem" id={`${id}-problem`} role="status">
          <p>
            <strong>{fault.title}</strong>
          </p>
          {fault.remedies.length > 0 && (
            <ul>
              {fault.remedies.map((remedy) => (
                <li key={remedy}>{remedy}</li>
              ))}
            </ul>
          )}
        </div>
      )}
    </div>
  );
}
