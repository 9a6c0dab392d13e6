import type { VNode } from 'preact';
import type { UpdateWatch } from '../../app/update-watch.ts';
import { useApplication } from '../application-context.ts';

const GIGABYTE = 1e9;
/** A flight's log is under 10 MB; under this, say so in time. */
const LITTLE_BYTES = 100e6;

/** What this device promises: that the app opens offline, and that what is stored stays. */
export function StorageStrip(): VNode {
  const { storage, updates } = useApplication();
  const persistence = storage.persistence.value;
  return (
    <dl class="storage-strip small">
      <div>
        <dt>Offline</dt>
        <dd data-shell={updates.shell.value}>{shellWords(updates)}</dd>
      </div>
      <div>
        <dt>Storage</dt>
        <dd data-persistence={persistence?.state ?? 'asking'}>
          {persistence === null ? 'asking the browser to keep it' : PERSISTENCE_WORDS[persistence.state]}
          {persistence?.freeBytes != null && `, ${freeText(persistence.freeBytes)} free`}
        </dd>
      </div>
    </dl>
  );
}

const SHELL_WORDS = {
  storing: 'storing the app on this device',
  complete: 'ready to open without a network',
  unsupported: 'not in this browser or address',
  failed: 'the app could not be stored; load the page again with a network',
} as const;

const PERSISTENCE_WORDS = {
  persistent: 'kept until you delete it',
  'best-effort': 'the browser may clear it; install the app, and export what matters',
  unknown: 'the browser does not say whether it is kept; export what matters',
} as const;

function shellWords({ shell, progress, installFault }: UpdateWatch): string {
  if (shell.value !== 'storing') return SHELL_WORDS[shell.value];
  if (installFault.value !== null) return `storing the app was broken off: ${installFault.value}; it is tried again by itself`;
  const far = progress.value;
  return far === null ? SHELL_WORDS.storing : `${SHELL_WORDS.storing}: ${far.stored} of ${far.total} files`;
}

function freeText(bytes: number): string {
  if (bytes < LITTLE_BYTES) return `only ${Math.floor(bytes / 1e6)} MB`;
  return bytes < GIGABYTE ? `${Math.floor(bytes / 1e6)} MB` : `${Math.floor(bytes / GIGABYTE)} GB`;
}
