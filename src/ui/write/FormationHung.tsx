import { type ReadonlySignal, useComputed, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { FlightHere } from '../../app/flight/flight-here.ts';
import type { FlightFact } from '../../core/guidance/flight-event.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { foundWind } from '../../core/guidance/hanging/found-wind.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';
import { formationHungWords } from './formation-hung-words.ts';
import { leadTimeWords } from './lead-time-words.ts';

export interface FormationHungProps {
  readonly flight: Pick<FlightHere, 'cues' | 'state' | 'receive'>;
  /** As chosen, once that is known. */
  readonly units: ReadonlySignal<UnitText | null>;
}

/**
 * Where a formation hangs its word, before the first smoke: the lead hangs it by a touch for the wind it found and says that as
 * three figures; a ship with a link takes it by itself and may refuse it, every other ship types the figures. Figures that do not fit
 * their check are refused with the reason. A lead with another datum comes before all of that.
 */
export function FormationHung({ flight, units }: FormationHungProps): VNode {
  const open = useSignal(false);
  const heard = useSignal('');
  const wrong = useSignal<string | null>(null);
  /** As it was found first: figures that change while they are read out help nobody. */
  const found = useSignal('');
  const now = useComputed(() => {
    void flight.cues.value;
    const state = flight.state();
    const leads = state.phase !== 'idle' && state.flight.setup.shipIndex === 0;
    const wind = leads && found.peek() === '' ? foundWind(state) : null;
    if (wind !== null) found.value = figuresFromWind(wind);
    return formationHungWords(state, found.value, units.value ?? unitText());
  });
  const time = useComputed(() => {
    void flight.cues.value;
    return leadTimeWords(flight.state());
  });
  const hang = (fact: FlightFact): void => {
    heard.value = '';
    wrong.value = null;
    // Folded again: on a small screen the form lies over the heading.
    open.value = false;
    flight.receive(fact);
  };
  const take = (event: Event): void => {
    event.preventDefault();
    const read = windFromFigures(heard.value);
    if (read.ok) hang({ kind: 'hangingGiven', wind: read.wind });
    else wrong.value = read.reason;
  };
  const touch = useComputed(() => (time.value === null ? (now.value?.touch?.label ?? null) : null));
  const typed = useComputed(() => now.value?.typed.words ?? '');
  const allowed = useComputed(() => now.value?.typed.allowed ?? false);
  return (
    <section class="write-hung" aria-label="Where the word hangs" aria-live="polite" hidden={useComputed(() => now.value === null && time.value === null)}>
      {useComputed(() =>
        time.value === null ? null : (
          <>
            <strong class="write-lead-time" data-figure="lead-time">
              {time.value.words}
            </strong>
            {time.value.touches.map(({ label, fact }) => (
              <button type="button" key={label} onClick={() => hang(fact)}>
                {label}
              </button>
            ))}
          </>
        ),
      )}
      <button
        type="button"
        class="write-hung-line"
        data-figure="formation-hung"
        data-value={useComputed(() => now.value?.hung ?? '')}
        data-apart={useComputed(() => (now.value?.apart === true ? 'yes' : 'no'))}
        aria-expanded={open}
        hidden={useComputed(() => time.value !== null)}
        onClick={() => (open.value = !open.value)}
      >
        Word hung {useComputed(() => (now.value === null ? '' : now.value.hung + now.value.more))}
      </button>
      {useComputed(() =>
        touch.value === null ? null : (
          <button type="button" class="plain" onClick={() => now.value?.touch != null && hang(now.value.touch.fact)}>
            {touch.value}
          </button>
        ),
      )}
      {useComputed(() =>
        open.value && allowed.value ? (
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
            <button type="button" class="plain" onClick={() => hang({ kind: 'hangingGiven', wind: null })}>
              As briefed
            </button>
          </form>
        ) : null,
      )}
      {useComputed(() => (open.value && typed.value !== '' ? <p class="notice caution">{typed.value}.</p> : null))}
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
