import './backup.css';
import type { VNode } from 'preact';
import { BACKUP_ENDING, type BackupDesk, type RestoreReport } from '../../app/backup/backup-desk.ts';
import { useApplication } from '../application-context.ts';
import { FileButton } from '../fields/FileButton.tsx';

/** Everything in one file and back; asks for it when a flight has ended since the last one. */
export function BackupPanel({ desk, dueOnly = false }: { readonly desk: BackupDesk; readonly dueOnly?: boolean }): VNode | null {
  const { flights } = useApplication();
  const state = desk.state.value;
  const due = desk.due.value ?? 0;
  const folder = desk.folder.state.value;
  const busy = state.kind === 'making' || state.kind === 'restoring';
  const flying = flights.inProgress.value;
  if (dueOnly && due === 0 && state.kind === 'idle') return null;
  return (
    <section class="backup" data-backup={state.kind} data-due={due}>
      {due > 0 && state.kind === 'idle' && (
        <p class="notice caution" role="status">
          <span>
            <strong>
              {due} {due === 1 ? 'flight' : 'flights'} since the last backup.
            </strong>{' '}
            What lies on this device alone is lost with it.
          </span>
        </p>
      )}
      <div class="row">
        <button type="button" class={due > 0 ? 'main' : ''} disabled={busy || flying} onClick={() => void desk.make()}>
          Make a backup
        </button>
        {!dueOnly && (
          <FileButton
            label="Backup to restore"
            accept={`.${BACKUP_ENDING}`}
            disabled={busy || flying}
            onFiles={([file]) => {
              if (file !== undefined) void desk.restore(file);
            }}
          >
            Restore a backup
          </FileButton>
        )}
        {folder.kind === 'none' && (
          <button type="button" class="plain" disabled={busy} onClick={() => void desk.folder.choose()}>
            Keep a folder for backups
          </button>
        )}
        {folder.kind === 'asks' && (
          <button type="button" class="plain" disabled={busy} onClick={() => void desk.folder.choose()}>
            Allow writing into {folder.name} again
          </button>
        )}
      </div>
      {busy && (
        <p role="status">
          <label>
            {state.kind === 'making' ? 'Making the backup' : 'Restoring'} <progress value={state.share} max={1} />
          </label>
        </p>
      )}
      {state.kind === 'made' && <p role="status">Backed up: {state.where}. It holds everything but passwords.</p>}
      {state.kind === 'failed' && (
        <p class="notice caution" role="alert">
          Not done. {state.reason} Nothing that is stored was changed or lost.
        </p>
      )}
      {state.kind === 'restored' && <Restored report={state.report} />}
      {!dueOnly && (
        <p class="small quiet">
          One file with all jobs, overlays, flights, ratings, pictures, the logbook and what is kept; no passwords. Restoring overwrites nothing: what is here
          stays.
          {folder.kind === 'allowed' && ` After each flight it is written into ${folder.name} by itself.`}
        </p>
      )}
    </section>
  );
}

function Restored({ report }: { readonly report: RestoreReport }): VNode {
  const { added, there, copied, keptHere, refused } = report;
  return (
    <div class={refused.length > 0 ? 'notice caution' : 'notice'} role="status" data-added={added} data-there={there} data-refused={refused.length}>
      <p>
        Restored: {added} {added === 1 ? 'part' : 'parts'} added, {there} here already.
      </p>
      {copied.length > 0 && <p>Different here, so put beside it: {copied.join(', ')}.</p>}
      {keptHere.length > 0 && <p>Different here and left as it is: {keptHere.join(', ')}.</p>}
      {refused.length > 0 && (
        <ul>
          {refused.map((line, index) => (
            <li key={index}>
              <bdi>{line}</bdi>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
