import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { rescueEverything } from '../../app/backup/rescue-everything.ts';

/** For data that this version may not open for writing: all of it in one file, for the version that can. */
export function RescueExport(): VNode {
  const said = useSignal('');
  const give = async (): Promise<void> => {
    said.value = 'Reading.';
    try {
      said.value = (await rescueEverything(Date.now())) ? 'Handed over. It holds what this version knows of.' : '';
    } catch (error) {
      said.value = error instanceof Error ? error.message : String(error);
    }
  };
  return (
    <>
      <button type="button" onClick={() => void give()}>
        Export everything
      </button>
      <span role="status">{said.value}</span>
    </>
  );
}
