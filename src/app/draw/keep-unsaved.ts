import { newId } from '../new-id.ts';
import { dropUnsaved, writeUnsaved } from '../jobs/unsaved-edits.ts';
import type { JobEditor } from './job-editor.ts';

/**
 * Saves when the page goes, however it goes. A page has no time left to wait for the database then: what is not stored
 * is written down beside it at once, and taken up at the next start. The returned function ends it.
 */
export function keepUnsavedOf(editor: Pick<JobEditor, 'flush' | 'unsaved'>): () => void {
  const mark = newId();
  const leave = (): void => {
    const edit = editor.unsaved();
    if (edit === null) return;
    writeUnsaved(() => localStorage, mark, edit);
    void editor.flush().then(() => {
      if (editor.unsaved() === null) dropUnsaved(() => localStorage, mark);
    });
  };
  addEventListener('pagehide', leave);
  addEventListener('beforeunload', leave);
  return () => {
    removeEventListener('pagehide', leave);
    removeEventListener('beforeunload', leave);
  };
}
