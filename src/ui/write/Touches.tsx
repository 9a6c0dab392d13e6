import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import type { Touch } from '../../app/flight/touch.ts';
import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { CuePhase } from '../../core/guidance/cues.ts';
import { FlyButton } from './FlyButton.tsx';
import { HeldButton } from './HeldButton.tsx';

export interface TouchesProps {
  readonly phase: ReadonlySignal<CuePhase>;
  /** Before the first smoke the datum may be moved; afterwards a stroke may be done again. */
  readonly begun: ReadonlySignal<boolean>;
  /** Hung for the wind that was found: until the first smoke that may be refused. */
  readonly hung: ReadonlySignal<boolean>;
  /** The word's place is doubted: put it here, or say that it is right. */
  readonly placeDoubted: ReadonlySignal<boolean>;
  /** By how much the clock jumped, while only the pilot can say why; null else. */
  readonly askedSeconds: ReadonlySignal<number | null>;
  readonly onClockAnswered: (slept: boolean) => void;
  readonly undoableTouch: ReadonlySignal<FlightFact['kind'] | null>;
  /** Ships of a formation hang their text alike: before the first smoke all may take a new hack instead. */
  readonly inFormation: ReadonlySignal<boolean>;
  readonly onNewHack: () => void;
  readonly onTouch: (touch: Touch) => void;
  /** Where to go when the flight is over; null until then. */
  readonly onLeave: (() => void) | null;
}

/** A new hack puts the first smoke so far ahead that every ship can be on its circle and at the layer again. */
export const NEW_HACK_SECONDS = 360;

/** A finger on its way to DATUM or BRIEFED when the smoke begins must not do the stroke again, nor skip it. */
const SWAPPED_MILLISECONDS = 1_000;

/** What the second touch undoes. */
const UNDO_WORDS: Partial<Record<FlightFact['kind'], string>> = { strokeSkipped: 'skip', hangingRefused: 'as briefed', restOrdered: 'choice' };

/**
 * The four touches of a flight, always in the same places. After use a touch becomes its own undo until the next
 * stroke; what everybody must hear of is held.
 */
export function Touches({
  phase,
  begun,
  hung,
  placeDoubted,
  askedSeconds,
  onClockAnswered,
  undoableTouch,
  inFormation,
  onNewHack,
  onTouch,
  onLeave,
}: TouchesProps): VNode {
  const undoable = undoableTouch.value;
  const undoWord = undoable === null ? undefined : UNDO_WORDS[undoable];
  const first: Touch = begun.value ? 'strokeRedone' : 'datumMovedHere';
  const finished = phase.value === 'finished';
  const begunAt = useRef(begun.value ? -Infinity : Infinity);
  if (begun.value && begunAt.current === Infinity) begunAt.current = performance.now();
  const unlessSwapped = (touch: Touch) => (): void => {
    if (!begun.value || performance.now() - begunAt.current >= SWAPPED_MILLISECONDS) onTouch(touch);
  };
  const asked = askedSeconds.value;
  const askedWords = asked === null ? '' : asked < 120 ? `${Math.round(asked)} s` : `${Math.round(asked / 60)} min`;
  return (
    <div class="write-touches" role="group" aria-label="In flight">
      {finished ? (
        <>
          <FlyButton words={['LEAVE', 'to Debrief']} onPress={onLeave ?? (() => {})} />
          {undoable !== 'knockedOff' && begun.value && <FlyButton words={['REDO', 'last stroke']} onPress={() => onTouch('strokeRedone')} />}
        </>
      ) : (
        <>
          {asked !== null ? (
            <FlyButton words={['SCREEN', `was off ${askedWords}`]} onPress={() => onClockAnswered(true)} />
          ) : undoable === first ? (
            <FlyButton words={['UNDO', begun.value ? 'redo' : 'datum']} onPress={() => onTouch('lastTouchUndone')} undo />
          ) : begun.value && (inFormation.value || !placeDoubted.value) ? (
            <FlyButton words={['REDO', 'stroke']} onPress={unlessSwapped('strokeRedone')} />
          ) : inFormation.value ? (
            <HeldButton class="write-touch" onHeld={onNewHack}>
              <strong>NEW HACK</strong>
              <span>{NEW_HACK_SECONDS / 60} min, hold</span>
            </HeldButton>
          ) : (
            // Without a position there is no here.
            <FlyButton words={['DATUM', 'here, now']} onPress={() => onTouch('datumMovedHere')} disabled={phase.value === 'no-cue'} />
          )}
          {asked !== null ? (
            <FlyButton words={['CLOCK', 'was set']} onPress={() => onClockAnswered(false)} />
          ) : undoWord !== undefined ? (
            <FlyButton words={['UNDO', undoWord]} onPress={() => onTouch('lastTouchUndone')} undo />
          ) : !begun.value && hung.value ? (
            // There is nothing to skip yet, but where the text hangs may be refused.
            <FlyButton words={['BRIEFED', 'place']} onPress={() => onTouch('hangingRefused')} />
          ) : (
            <FlyButton words={['SKIP', 'stroke']} onPress={unlessSwapped('strokeSkipped')} />
          )}
          {placeDoubted.value && phase.value !== 'hold' ? (
            <FlyButton words={['GO ON', 'place is right']} onPress={() => onTouch('holdReleased')} />
          ) : phase.value === 'hold' || undoable === 'held' ? (
            <FlyButton words={['GO ON', 'end hold']} onPress={() => onTouch('holdReleased')} undo />
          ) : (
            <FlyButton words={['HOLD', 'smoke off']} onPress={() => onTouch('held')} />
          )}
        </>
      )}
      {finished && undoable === 'knockedOff' ? (
        <HeldButton class="write-touch write-knock undo" onHeld={() => onTouch('lastTouchUndone')}>
          <strong>UNDO</strong>
          <span>hold down</span>
        </HeldButton>
      ) : (
        !finished && (
          <HeldButton class="write-touch write-knock" onHeld={() => onTouch('knockedOff')}>
            <strong>
              KNOCK
              <br />
              IT OFF
            </strong>
            <span>hold down</span>
          </HeldButton>
        )
      )}
    </div>
  );
}
