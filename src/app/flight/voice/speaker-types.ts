import type { ReadonlySignal } from '@preact/signals';
import type { Cues } from '../../../core/guidance/cues.ts';
import type { FlightFact } from '../../../core/guidance/flight-event.ts';
import type { SoundState } from '../../../sound/sound.ts';

/** What is being said. */
export interface Spoken {
  /** Its running number, a space, its words; empty before the first. */
  readonly text: string;
  /** How long it lasts, by its clips. */
  readonly seconds: number;
}

/** An order that the pilot was told, as a fact for the guidance. */
export type OrderSaid = Extract<FlightFact, { kind: 'orderSaid' }>;

/** Says aloud what the pilot should hear. */
export interface Speaker {
  /**
   * Takes in the cues of a moment; returns what begins to be said now, null for nothing.
   *
   * @param atSeconds of the flight's own clock
   */
  follow(cues: Cues, atSeconds: number): { readonly spoken: Spoken; readonly order: OrderSaid | null } | null;
  /** Another ship is close: said next. */
  sayClose(): void;
}

/** The voice of a flight with the sound that it needs. */
export interface FlightVoice {
  readonly state: ReadonlySignal<SoundState>;
  /** Lets the sound begin; browsers allow it only inside a touch or a key press. */
  unlock(): void;
  /** @param before the cues that nothing need be said of */
  speakerFrom(before: Cues): Speaker;
  /** Says "smoke on", so that it is heard before it matters. */
  tryOut(): void;
  end(): void;
}
