import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { Fold } from '../fields/Fold.tsx';

/** Which version this is, and whose work it ships. */
export function About(): VNode {
  return (
    <Fold title="About" said={`Quillwind ${import.meta.env.VITE_QUILLWIND_VERSION}`}>
      <Licences />
    </Fold>
  );
}

function Licences(): VNode {
  const text = useSignal<string | null>(null);
  const fault = useSignal(false);
  const read = async (): Promise<void> => {
    try {
      const response = await fetch('/licences.md');
      text.value = response.ok ? await response.text() : null;
      fault.value = !response.ok;
    } catch {
      fault.value = true;
    }
  };
  return (
    <div class="about">
      <p>
        Version <strong data-version={import.meta.env.VITE_QUILLWIND_VERSION}>{import.meta.env.VITE_QUILLWIND_VERSION}</strong>. Not for navigation or
        separation; local rules and licensed practice decide.
      </p>
      {text.value === null ? (
        <button type="button" onClick={() => void read()}>
          Licences
        </button>
      ) : (
        <pre class="licences small" tabIndex={0}>
          {text.value}
        </pre>
      )}
      {fault.value && <p class="fault">The licences could not be read just now.</p>}
    </div>
  );
}
