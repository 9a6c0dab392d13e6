import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { figuresFromWind } from '../../core/wire/hanging-figures.ts';
import { stillRefused } from './ground-words.ts';
import { useGround } from './ground-context.ts';

const SOURCE_WORDS = { briefed: '', link: 'by the lead, over the link', radio: 'by the figures you heard' } as const;

/** Where the word hangs: as briefed, as the lead tells it, or by three figures from the radio. */
export function GroundHung(): VNode {
  const { hung, takeFigures, hangAsBriefed } = useGround();
  const heard = useSignal('');
  const refused = useSignal<{ readonly heard: string; readonly reason: string } | null>(null);
  const wrong = stillRefused(refused.value, heard.value);
  const { source, wind } = hung.value;
  const figures = wind === null ? '' : figuresFromWind(wind);
  const take = (event: Event): void => {
    event.preventDefault();
    const reason = takeFigures(heard.value);
    refused.value = reason === null ? null : { heard: heard.value, reason };
    if (reason === null) heard.value = '';
  };
  return (
    <section class="ground-hung" aria-label="Where the word hangs">
      <p data-figure="hung" data-value={figures}>
        {wind === null ? 'The word hangs as briefed, for the wind of the forecast.' : `The word is hung for ${figures}, ${SOURCE_WORDS[source]}.`}
      </p>
      <form class="row" onSubmit={take}>
        <label class="row">
          <span>The lead’s three figures, from the radio</span>
          <input
            inputMode="numeric"
            autocomplete="off"
            placeholder="098 224 0"
            size={10}
            value={heard.value}
            onInput={(event) => (heard.value = event.currentTarget.value)}
          />
        </label>
        <button type="submit" disabled={heard.value.trim() === ''}>
          Hang by these
        </button>
        {wind !== null && (
          <button type="button" class="plain" onClick={hangAsBriefed}>
            As briefed
          </button>
        )}
      </form>
      {wrong !== null && (
        <p class="notice caution" role="alert">
          {wrong}.
        </p>
      )}
    </section>
  );
}
