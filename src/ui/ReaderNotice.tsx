import type { VNode } from 'preact';
import { useApplication } from './application-context.ts';

/** Says that another tab does the writing of all but edited jobs, or that this browser cannot tell. */
export function ReaderNotice(): VNode | null {
  const { storage } = useApplication();
  if (storage.writer.value === 'reader') {
    return (
      <div class="notice caution" role="status" data-reader>
        <p>Quillwind is open in another tab. Edits of a job are stored from here too; all else this one only reads, until the other is closed.</p>
      </div>
    );
  }
  if (storage.writer.value === 'unguarded') {
    return (
      <div class="notice caution" role="status" data-unguarded>
        <p>This browser cannot tell whether Quillwind is open twice. Keep it open in one tab only.</p>
      </div>
    );
  }
  return null;
}
