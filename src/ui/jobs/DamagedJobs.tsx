import type { VNode } from 'preact';
import type { JobsState } from '../../app/jobs/shelf-types.ts';

type Damaged = Extract<JobsState, { kind: 'ready' }>['damaged'];

/** Jobs that are stored but cannot be read, by name; nothing of them is changed. */
export function DamagedJobs({ damaged }: { readonly damaged: Damaged }): VNode | null {
  if (damaged.length === 0) return null;
  return (
    <section class="notice caution" role="alert" aria-label="Damaged jobs">
      <h2>{damaged.length === 1 ? 'One stored job cannot be read' : `${damaged.length} stored jobs cannot be read`}</h2>
      <ul>
        {damaged.map(({ id, name, reason }) => (
          <li key={id}>
            <strong>
              <bdi>{name}</bdi>
            </strong>
            {': '}
            {reason}
          </li>
        ))}
      </ul>
      <p>{damaged.length === 1 ? 'It is left as it is.' : 'They are left as they are.'} Where you have an exported file, import it.</p>
    </section>
  );
}
