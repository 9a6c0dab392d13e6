import type { Cues } from '../../../core/guidance/cues.ts';
import type { ToneName } from '../../../sound/cue-tones.ts';
import type { SpokenWord } from '../../../sound/spoken-words.ts';
import { heightWords } from './spoken-order.ts';

/** A signal and the words with it. */
export interface Announcement {
  readonly tone: ToneName | null;
  readonly words: readonly SpokenWord[];
}

/** Something that happened once and is to be said, unless it has passed before there was time. */
export interface SpokenEvent extends Announcement {
  /** 0 goes before everything and does not wait for the end of what is being said. */
  readonly rank: 0 | 2;
  readonly holds: (cues: Cues) => boolean;
}

/** What the step from one cue to the next has to say, but for turns and the countdown. */
export function spokenEvents(before: Cues, cues: Cues): SpokenEvent[] {
  const events: SpokenEvent[] = [];
  const height = cues.heightFeet !== null && cues.heightFeet !== before.heightFeet ? heightWords(cues.heightFeet) : [];
  const smokeEnds = before.smoke === 'on' && cues.smoke !== 'on';
  if (cues.phase === 'no-cue') {
    if (before.phase !== 'no-cue') {
      const words: SpokenWord[] = smokeEnds ? ['no-cue', 'smoke-off'] : ['no-cue'];
      events.push({ tone: 'no-cue', words, rank: 0, holds: ({ phase }) => phase === 'no-cue' });
    }
  } else {
    if (cues.smoke === 'on' && before.smoke !== 'on') events.push({ tone: 'smoke-on', words: ['smoke-on'], rank: 0, holds: ({ smoke }) => smoke === 'on' });
    if (smokeEnds) events.push({ tone: 'smoke-off', words: ['smoke-off'], rank: 0, holds: ({ smoke }) => smoke !== 'on' });
    const { phase } = cues;
    if (phase !== before.phase && (phase === 'go-around' || phase === 'hold' || phase === 'finished')) {
      events.push({ tone: phase, words: [phase === 'go-around' ? 'pass-again' : phase], rank: 2, holds: (now) => now.phase === phase });
    }
  }
  const formation = [...height, ...partWords(before, cues)];
  if (formation.length > 0)
    events.push({ tone: 'hold', words: formation, rank: 2, holds: ({ heightFeet, part }) => heightFeet === cues.heightFeet && part === cues.part });
  return events;
}

/** A ship of a formation that is established, that is to wait, or on its way out. */
function partWords(before: Cues, { part, established }: Cues): SpokenWord[] {
  if (established === true && before.established === false) return ['established'];
  if (part === before.part) return [];
  return part === 'circling' && before.part !== null ? ['wait'] : part === 'leaving' ? ['out'] : [];
}
