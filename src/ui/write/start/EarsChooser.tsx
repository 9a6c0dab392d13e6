import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';

/** Whether the flight begins with the screen dark, led by the voice. */
export function EarsChooser({ preflight: { byEar } }: { readonly preflight: Preflight }): VNode {
  return (
    <fieldset class="panel write-choice">
      <legend>Eyes outside</legend>
      <label class="write-option">
        <input type="checkbox" checked={byEar.value} onChange={(event) => (byEar.value = event.currentTarget.checked)} />
        <span>
          <strong>By ear</strong>
          <span class="quiet small">
            Everything is said: shallow is 15, medium 30, steep 45 degrees of bank. The screen is dark but for the smoke and what stops the flight; a touch on
            it shows the cues, a touch on the picture darkens it again. Slower than by eye. By night a touch on the heading dims the cues, step by step.
          </span>
        </span>
      </label>
    </fieldset>
  );
}
