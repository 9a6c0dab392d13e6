import type { VNode } from 'preact';
import { useApplication } from '../application-context.ts';

/** What became of the last import, deletion or copy, with what can still be done about it. */
export function ShelfNoticeBar(): VNode | null {
  const { jobs } = useApplication();
  const notice = jobs.notice.value;
  if (notice === null) return null;
  const close = (
    <button type="button" onClick={() => jobs.dismissNotice()}>
      Close
    </button>
  );
  switch (notice.kind) {
    case 'imported':
      return (
        <div class="notice" role="status">
          <p>Imported: {notice.names.join(', ')}.</p>
          <div class="row">{close}</div>
        </div>
      );
    case 'removed':
      return (
        <div class="notice" role="status">
          <p>{notice.name} was deleted. Its flights are kept.</p>
          <div class="row">
            <button type="button" class="main" onClick={() => void jobs.undoRemove()}>
              Undo
            </button>
            {close}
          </div>
        </div>
      );
    case 'refused':
      return (
        <div class="notice refusal" role="alert">
          <h2>Nothing was imported</h2>
          <ul>
            {notice.refused.map(({ fileName, reason }) => (
              <li key={fileName}>
                <strong>
                  <bdi>{fileName}</bdi>
                </strong>
                {': '}
                {reason}
              </li>
            ))}
          </ul>
          {notice.readableCount > 0 && <p>The other files are in order ({notice.readableCount}); import them without these.</p>}
          <div class="row">{close}</div>
        </div>
      );
    case 'failed':
      return (
        <div class="notice refusal" role="alert">
          <h2>{notice.what}</h2>
          <p>{notice.reason}</p>
          <div class="row">{close}</div>
        </div>
      );
  }
}
