import type { ObservedMoment } from '../../app/debrief/observed.ts';

const RATINGS = { reads: 'reads', weak: 'is weak', broken: 'is broken', 'not-seen': 'is not seen' } as const;

/** What an observer wrote, in one line. */
export function observedWords({ entry, observerName }: ObservedMoment): string {
  const who = observerName === '' ? 'The ground' : observerName;
  switch (entry.kind) {
    case 'rated':
      return `${who}: ${entry.character} ${RATINGS[entry.rating]}`;
    case 'noted':
      return `${who}: ${entry.text}`;
    case 'called':
      return `${who} called: ${entry.call.replaceAll('-', ' ')}${entry.character === null ? '' : ` (${entry.character})`}`;
    case 'hack':
      return `${who} took the time`;
    case 'hung':
      return entry.figures === null ? `${who} hung the word as briefed again` : `${who} hung the word for ${entry.figures}`;
    case 'withdrawn':
      return `${who} withdrew a note`;
  }
}
