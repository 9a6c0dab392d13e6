import type { Signal } from '@preact/signals';
import { wordStanding } from '../../core/guidance/hanging/word-standing.ts';
import { type CautionSources, flightCautions } from './flight-cautions.ts';
import type { Flying } from './fly-flight.ts';
import { followRest } from './follow-rest.ts';

/** What a flight does beside its cues, begun once they stand: the cautions, how the word will stand, and what is left ordered anew. Returns its end. */
export function afterFirstCue(flying: Flying, cautions: Signal<(sources: CautionSources) => readonly string[]>): () => void {
  cautions.value = flightCautions;
  flying.foretellBy(wordStanding);
  return followRest(flying);
}
