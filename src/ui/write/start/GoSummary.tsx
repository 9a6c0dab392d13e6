import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import { hashFromRoute } from '../../../app/route.ts';
import type { CheckStatus } from '../../../core/checks/check.ts';

/** How the job's go or no-go stands, in the words and the counts of Draw, and what nobody has looked at. */
export function GoSummary({ preflight: { checks, job, planned } }: { readonly preflight: Preflight }): VNode | null {
  const result = checks.value;
  if (result === null) {
    return planned.value === null ? (
      <section class="notice write-go">
        <h2>Go or no-go</h2>
        <p>Working out the plan and its checks.</p>
      </section>
    ) : null;
  }
  const titles = (status: CheckStatus): string => result.checks.flatMap((check) => (check.status === status ? [check.title.toLowerCase()] : [])).join(', ');
  const [stops, cautions] = [titles('stop'), titles('caution')];
  return (
    <section class={`notice write-go ${result.worst === 'stop' ? 'warning' : result.worst === 'caution' ? 'caution' : ''}`} aria-labelledby="write-go-title">
      <h2 id="write-go-title">
        {result.worst === 'stop'
          ? 'No-go, as planned'
          : result.worst === 'caution'
            ? 'With caution, by what was checked'
            : 'Nothing that was checked is a no-go'}
      </h2>
      {stops !== '' && (
        <p>
          <strong>No-go:</strong> {stops}.
        </p>
      )}
      {cautions !== '' && (
        <p>
          <strong>Caution:</strong> {cautions}.
        </p>
      )}
      <p>
        <strong>{result.notChecked} not checked:</strong> {titles('not-checked')}.{' '}
        <a href={hashFromRoute({ screen: 'draw', jobId: job.id })}>Look at them on Draw</a>
      </p>
    </section>
  );
}
