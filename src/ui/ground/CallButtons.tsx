import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { GroundCall } from '../../core/wire/link-messages.ts';
import { GROUND_CALLS } from '../../core/wire/link-schemas.ts';
import type { GroundPlan } from '../../app/ground/ground-plan.ts';
import { useApplication } from '../application-context.ts';
import { useGround } from './ground-context.ts';
import { CALL_WORDS } from './ground-words.ts';

/** The few things that can be said to the ships. They read them; nothing acts on them. */
export function CallButtons({ plan }: { readonly plan: GroundPlan | null }): VNode {
  const { link } = useApplication();
  const { job, call, now, book } = useGround();
  const choosing = useSignal(false);
  void now.value;
  const room = link.room.value;
  const linked = room?.status.kind === 'linked';
  const radio = job.frequencies.map(({ use, megahertz }) => `${use} ${megahertz.toFixed(3)}`).join(', ');
  const say = (one: GroundCall): void => {
    if (one === 'letter-broken' && plan !== null) choosing.value = !choosing.value;
    else call(one, null);
  };
  const last = book.own.value?.entries.findLast((entry) => entry.kind === 'called');
  return (
    <section class="ground-calls" aria-labelledby="ground-calls-title">
      <h2 id="ground-calls-title">Call the ships</h2>
      <div class="ground-call-buttons">
        {GROUND_CALLS.map((each) => (
          <button key={each} type="button" data-call={each} aria-expanded={each === 'letter-broken' ? choosing.value : undefined} onClick={() => say(each)}>
            {CALL_WORDS[each]}
            {each === 'stop' && <span class="ground-stop-words">a word: it stops nothing</span>}
          </button>
        ))}
      </div>
      {choosing.value && plan !== null && (
        <div class="row" role="group" aria-label="Which letter is broken">
          {plan.window.letters.map(({ letterIndex, character }) => (
            <button
              key={letterIndex}
              type="button"
              data-letter={letterIndex}
              onClick={() => {
                choosing.value = false;
                call('letter-broken', { letterIndex, character });
              }}
            >
              {character}
            </button>
          ))}
        </div>
      )}
      {job.knockItOffWords !== '' && (
        <p class="small">
          To stop them, on the radio: <strong>“{job.knockItOffWords}”</strong>.
        </p>
      )}
      <p class="small" role="status" data-figure="call-way" data-value={linked ? 'link' : 'radio'}>
        {linked
          ? `${last?.kind === 'called' ? `${CALL_WORDS[last.call]}: ${(room?.waitingCount ?? 0) > 0 ? 'waiting to be sent.' : 'sent. '}` : ''}Ships show it as words. It does nothing else there, and nobody may have read it: what is urgent goes by radio.`
          : `No link now: say it on the radio${radio === '' ? '' : ` (${radio})`}. A touch here writes it down${room === null ? '' : ' and sends it when the link is back, with its age'}.`}
      </p>
    </section>
  );
}
