import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import type { CheckState } from '../../../app/flight/readiness-checks.ts';

const MARKS: Readonly<Record<CheckState, { readonly path: string; readonly word: string }>> = {
  good: { path: 'M4 12 10 18 20 6', word: 'ready' },
  open: { path: 'M12 5A7 7 0 1 1 5 12', word: 'looking' },
  caution: { path: 'M12 3 22 21H2ZM12 10V15M12 18V18.1', word: 'caution' },
  bad: { path: 'M5 5 19 19M19 5 5 19', word: 'not ready' },
};

/** What a flight depends on, as it stands now, each with the way to mend it. */
export function ReadinessList({ preflight }: { readonly preflight: Preflight }): VNode {
  const { readiness } = preflight;
  return (
    <section class="panel write-ready" aria-labelledby="write-ready-title">
      <h2 id="write-ready-title">Ready?</h2>
      <ul>
        {readiness.checks.value.map(({ name, state, says, remedy }) => (
          <li key={name} data-check={name} data-state={state}>
            <svg class="write-ready-mark" viewBox="0 0 24 24" aria-hidden="true">
              <path d={MARKS[state].path} />
            </svg>
            <span>
              <strong>{name}</strong> <span class="visually-hidden">{MARKS[state].word}: </span>
              {says}
              {remedy !== '' && <span class="write-ready-remedy">{remedy}</span>}
            </span>
          </li>
        ))}
      </ul>
      <div class="row">
        <button type="button" onClick={() => preflight.playTestSignal()}>
          Play test signal
        </button>
        <button type="button" class="plain" onClick={() => readiness.lookAgain()}>
          Look again
        </button>
      </div>
    </section>
  );
}
