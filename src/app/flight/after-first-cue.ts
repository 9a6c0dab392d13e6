import type { Signal } from '@preact/signals';
import { type WordStanding, wordStanding } from '../../core/guidance/hanging/word-standing.ts';
import { crowdCaution } from './crowd-caution.ts';
import type { Flying } from './fly-flight.ts';
import { followRest } from './follow-rest.ts';

/** What a flight does beside its cues, begun once they stand: how the word will stand, and what is left ordered anew. Returns its end. */
export function afterFirstCue(flying: Flying, caution: Signal<(standing: WordStanding) => string | null>): () => void {
  caution.value = crowdCaution;
  flying.foretellBy(wordStanding);
  return followRest(flying);
}
