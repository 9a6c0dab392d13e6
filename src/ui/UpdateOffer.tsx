import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { useApplication } from './application-context.ts';

/** Offers a newer version, when one waits and no flight is in progress; nothing happens without a yes. */
export function UpdateOffer(): VNode | null {
  const { updates } = useApplication();
  const [answer, setAnswer] = useState<'none' | 'yes' | 'later'>('none');
  if (!updates.offered.value || answer === 'later') return null;
  return (
    <div class="notice" role="status" data-update-offer>
      {answer === 'yes' ? (
        <p>The newer version is being opened.</p>
      ) : (
        <>
          <p>A newer version of Quillwind is on this device. Your jobs and flights stay as they are.</p>
          <div class="row">
            <button
              type="button"
              class="main"
              onClick={() => {
                setAnswer('yes');
                void updates.accept().then((taken) => setAnswer(taken ? 'yes' : 'none'));
              }}
            >
              Use it now
            </button>
            <button type="button" onClick={() => setAnswer('later')}>
              Later
            </button>
          </div>
        </>
      )}
    </div>
  );
}
