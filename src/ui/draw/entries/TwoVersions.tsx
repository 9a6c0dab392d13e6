import type { VNode } from 'preact';
import type { JobVersions } from '../../../app/draw/job-versions.ts';

/** What was typed in two tabs into the same field, to choose from. Nothing is dropped before a person has chosen. */
export function TwoVersions({ versions }: { readonly versions: JobVersions }): VNode | null {
  const choices = versions.choices.value;
  if (choices.length === 0) return null;
  return (
    <section class="notice caution" role="status" aria-label="Two versions" data-versions={choices.length}>
      {choices.map((choice) => (
        <div key={`${choice.version.atMilliseconds} ${choice.name}`}>
          <p>
            Typed in two tabs at once: {choice.name}. Stored is <strong>{choice.storedWords}</strong>, the other is <strong>{choice.otherWords}</strong>.
          </p>
          <div class="row">
            <button type="button" onClick={() => void versions.keep(choice)}>
              Keep what is stored
            </button>
            <button type="button" onClick={() => void versions.take(choice)}>
              Take the other
            </button>
          </div>
        </div>
      ))}
    </section>
  );
}
