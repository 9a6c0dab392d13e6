import type { VNode } from 'preact';
import { formatNumber } from '../../core/text/number-formats.ts';
import { useDebrief } from './debrief-context.ts';

/** What was just done and can be undone, what was refused and why, and what of the log is missing. */
export function DeskNotices(): VNode {
  const { desk } = useDebrief();
  const done = desk.done.value;
  const notice = desk.notice.value;
  const state = desk.state.value;
  const missing = state.kind === 'open' ? missingWords(state.flown) : [];
  return (
    <div class="desk-notices">
      {notice !== null && (
        <div class="notice" role={notice.kind === 'imported' ? 'status' : 'alert'} data-notice={notice.kind}>
          {notice.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <button type="button" class="plain" onClick={() => desk.dismissNotice()}>
            Close
          </button>
        </div>
      )}
      {done !== null && (
        <div class="row done" role="status">
          <span>{done.words}</span>
          <button type="button" onClick={() => void done.undo()}>
            Undo
          </button>
        </div>
      )}
      {missing.length > 0 && (
        <div class="notice" data-notice="missing">
          {missing.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      )}
    </div>
  );
}

function missingWords({
  lost,
  unreadRows,
  cutRows,
}: {
  readonly lost: readonly { readonly rows: number; readonly fromMilliseconds: number; readonly toMilliseconds: number }[];
  readonly unreadRows: number;
  readonly cutRows: number;
}): string[] {
  const words: string[] = [];
  const rows = lost.reduce((sum, stretch) => sum + stretch.rows, 0);
  const seconds = lost.reduce((sum, stretch) => sum + (stretch.toMilliseconds - stretch.fromMilliseconds) / 1000, 0);
  if (rows > 0)
    words.push(
      `${formatNumber(rows)} rows of the log are lost, about ${formatNumber(seconds, 1)} s, shown hatched on the time line. Nothing is drawn across them.`,
    );
  if (unreadRows > 0) words.push(`${formatNumber(unreadRows)} rows were written by another version and say nothing to this one.`);
  if (cutRows > 0) words.push('The row that was being written when the page died is cut off.');
  return words;
}
