import type { VNode } from 'preact';
import { useDesk } from '../desk-context.ts';

/** Whether the edits are saved, with undo and redo by name. */
export function EditState(): VNode {
  const { editor } = useDesk();
  const saved = editor.saveState.value;
  const undo = editor.undoName.value;
  const redo = editor.redoName.value;
  return (
    <div class="edit-state">
      <span class="quiet small" role="status" data-save={saved.kind}>
        {saved.kind === 'saved'
          ? 'All saved'
          : saved.kind === 'saving'
            ? 'Saving'
            : saved.kind === 'held'
              ? `Saved again once it is whole: ${saved.reason}`
              : ''}
      </span>
      <button type="button" class="plain" disabled={undo === null} onClick={() => editor.undo()} title={undo === null ? '' : `Take back: ${undo}`}>
        Undo
      </button>
      <button type="button" class="plain" disabled={redo === null} onClick={() => editor.redo()} title={redo === null ? '' : `Bring back: ${redo}`}>
        Redo
      </button>
      {saved.kind === 'failed' && (
        <div class="notice caution" role="alert">
          <p>Not saved: {saved.reason}. The changes are on this page only; do not close it.</p>
          <button type="button" onClick={() => void editor.flush()}>
            Save again
          </button>
        </div>
      )}
    </div>
  );
}
