import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { useApplication } from './application-context.ts';

/** Offers a newer version, when one waits and no flight is in progress; nothing happens without a yes. */
export function UpdateOffer(): VNode | null {
  const { updates } = useApplication();
  const [later, setLater] = useState(false);
  if (!updates.offered.value || later) return null;
  return (
    <div class="notice" role="status" data-update-offer>
      <p>A newer version of Quillwind is on this device. Your jobs and flights stay as they are.</p>
      <div class="row">
        <button type="button" class="main" onClick={() => void updates.accept()}>
          Use it now
        </button>
        <button type="button" onClick={() => setLater(true)}>
          Later
        </button>
      </div>
    </div>
  );
}
