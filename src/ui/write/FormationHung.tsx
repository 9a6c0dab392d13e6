import { useComputed, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { FlightHere } from '../../app/flight/flight-here.ts';
import type { WindVector } from '../../core/earth/wind-vector.ts';
import { foundWind } from '../../core/guidance/hanging/found-wind.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';

/**
 * Where a formation hangs its word, while the ship is at its own height: the lead says the wind it found as three figures, and every
 * ship types them, the lead too. Figures that do not fit their check are refused with the reason.
 */
export function FormationHung({ flight }: { readonly flight: Pick<FlightHere, 'cues' | 'state' | 'receive'> }): VNode {
  const open = useSignal(false);
  const heard = useSignal('');
  const wrong = useSignal<string | null>(null);
  /** As it was found first: figures that change while they are read out help nobody. */
  const found = useSignal('');
  const now = useComputed(() => {
    void flight.cues.value;
    const state = flight.state();
    if (state.phase !== 'repositioning') return null;
    const { formation, hanging, setup } = state.flight;
    if (formation === null || formation.toLayerSinceSeconds !== null || (formation.part !== 'joining' && formation.part !== 'circling')) return null;
    const wind = setup.shipIndex === 0 && found.peek() === '' ? foundWind(state) : null;
    if (wind !== null) found.value = figuresFromWind(wind);
    return hanging === null || hanging.kind === 'as-briefed' ? 'as briefed' : `for ${figuresFromWind(hanging.wind)}`;
  });
  const hang = (wind: WindVector | null): void => {
    heard.value = '';
    wrong.value = null;
    // Folded again: on a small screen the form lies over the heading.
    open.value = false;
    flight.receive({ kind: 'hangingGiven', wind });
  };
  const take = (event: Event): void => {
    event.preventDefault();
    const read = windFromFigures(heard.value);
    if (read.ok) hang(read.wind);
    else wrong.value = read.reason;
  };
  const shown = useComputed(() => now.value ?? '');
  return (
    <section class="write-hung" aria-label="Where the word hangs" hidden={useComputed(() => now.value === null)}>
      <button
        type="button"
        class="write-hung-line"
        data-figure="formation-hung"
        data-value={shown}
        aria-expanded={open}
        onClick={() => (open.value = !open.value)}
      >
        Word hung {shown}
        {useComputed(() => (found.value === '' ? '' : `. Found ${found.value}: say it`))}
      </button>
      {useComputed(() =>
        open.value ? (
          <form class="row" onSubmit={take}>
            <input
              aria-label="Lead’s figures"
              inputMode="numeric"
              autocomplete="off"
              placeholder="098 224 0"
              size={9}
              value={heard}
              onInput={(event) => (heard.value = event.currentTarget.value)}
            />
            <button type="submit">Hang</button>
            <button type="button" class="plain" onClick={() => hang(null)}>
              As briefed
            </button>
          </form>
        ) : null,
      )}
      {useComputed(() =>
        wrong.value === null ? null : (
          <p class="notice caution" role="alert">
            {wrong.value}.
          </p>
        ),
      )}
    </section>
  );
}
