import type { VNode } from 'preact';
import { useId, useRef } from 'preact/hooks';
import { useDesk } from '../desk-context.ts';
import { SignPalette } from './SignPalette.tsx';

/** The words to write: the first thing on the screen, as large as they deserve. */
export function TextEntry(): VNode {
  const { editor, problem } = useDesk();
  const id = useId();
  const fault = problem.value;
  const { text } = editor.job.value;
  const field = useRef<HTMLTextAreaElement>(null);
  const write = (typed: string): void => editor.edit('the words', (job) => (job.text === typed ? job : { ...job, text: typed }));
  const insert = (sign: string): void => {
    const { selectionStart = text.length, selectionEnd = text.length } = field.current ?? {};
    write(text.slice(0, selectionStart) + sign + text.slice(selectionEnd));
    // The field holds the new words after the next frame; the caret then stands behind the sign.
    requestAnimationFrame(() => field.current?.setSelectionRange(selectionStart + sign.length, selectionStart + sign.length));
  };
  return (
    <div class="text-entry">
      <label for={id}>Words in the sky</label>
      <textarea
        id={id}
        ref={field}
        name="text"
        rows={text.includes('\n') ? 2 : 1}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        value={text}
        aria-invalid={fault === null ? undefined : 'true'}
        aria-describedby={fault === null ? undefined : `${id}-problem`}
        onInput={(event) => write(event.currentTarget.value)}
      />
      <SignPalette onPick={insert} />
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
