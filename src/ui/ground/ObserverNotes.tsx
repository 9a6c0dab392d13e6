import { counted } from '../../core/text/counted.ts';
import { clockText } from '../words/clock.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { type ObserverEntry, standingEntries } from '../../core/wire/observer-log.ts';
import { OBSERVER_LIMITS } from '../../core/wire/observer-log-schema.ts';
import { onLastHack } from '../../core/wire/on-last-hack.ts';
import { useGround } from './ground-context.ts';
import { CALL_WORDS, countWords, RATING_WORDS } from './ground-words.ts';
import { FileButton } from '../fields/FileButton.tsx';

/** Notes in words, the list of everything written down, and its way to the debrief. */
export function ObserverNotes(): VNode {
  const desk = useGround();
  const { book, job } = desk;
  const text = useSignal('');
  const refused = useSignal<string | null>(null);
  const entries = onLastHack(standingEntries(book.own.value?.entries ?? [])).toReversed();
  const take = (): void => {
    desk.note(text.value);
    text.value = '';
  };
  return (
    <section class="ground-notes" aria-labelledby="ground-notes-title">
      <h2 id="ground-notes-title">Notes</h2>
      {book.notSaved.value !== null && (
        <p class="notice caution" role="alert">
          NOTES NOT SAVED. {book.notSaved.value} They wait on this page and are tried again.
        </p>
      )}
      <form
        class="ground-note-entry"
        onSubmit={(event) => {
          event.preventDefault();
          take();
        }}
      >
        <label class="field">
          <span>A note, stamped with the time</span>
          <textarea rows={2} maxLength={OBSERVER_LIMITS.noteCharacters} value={text.value} onInput={(event) => (text.value = event.currentTarget.value)} />
        </label>
        <button type="submit" disabled={text.value.trim() === ''}>
          Write it down
        </button>
      </form>
      <ol class="ground-entries" reversed>
        {entries.map((entry) => (
          <li key={entry.sequence}>
            <span class="ground-entry-time">
              {entry.sinceDatumSeconds === null ? clockText(entry.atMilliseconds, job.site.timeZone, { seconds: true }) : countWords(entry.sinceDatumSeconds)}
            </span>
            <span>{entryWords(entry)}</span>
            <button type="button" class="plain small" aria-label={`Withdraw: ${entryWords(entry)}`} onClick={() => desk.withdraw(entry.sequence)}>
              Withdraw
            </button>
          </li>
        ))}
      </ol>
      <p class="quiet small">For the debrief: hand the log over to the pilot, who takes it there by “Import a track or a log”.</p>
      <div class="row">
        <label class="field ground-name">
          <span>Observer’s name</span>
          <input value={book.observerName.value} maxLength={60} onChange={(event) => book.setName(event.currentTarget.value)} />
        </label>
        <button type="button" disabled={entries.length === 0} onClick={() => void desk.exportLog()}>
          Hand over the log
        </button>
        <FileButton
          label="Observer’s log to take"
          accept=".json,application/json"
          onFiles={([file]) => {
            if (file !== undefined) void book.importFile(file).then((reason) => (refused.value = reason));
          }}
        >
          Take another’s log
        </FileButton>
      </div>
      {refused.value !== null && (
        <p class="notice caution" role="alert">
          {refused.value}
        </p>
      )}
      {book.others.value.length > 0 && (
        <p class="small" data-figure="other-logs" data-value={book.others.value.length}>
          With logs of{' '}
          {book.others.value
            .map(({ observerName, entries: theirs }) => `${observerName === '' ? 'an observer without a name' : observerName} (${theirs.length})`)
            .join(', ')}
          .
        </p>
      )}
      {book.damagedCount.value > 0 && <p class="fault">{counted(book.damagedCount.value, 'entry', 'entries')} stored here cannot be read any more.</p>}
    </section>
  );
}

function entryWords(entry: ObserverEntry): string {
  switch (entry.kind) {
    case 'hack':
      return { radio: 'Clock set by radio', link: 'Clock set by the lead', plan: 'Clock back to the plan' }[entry.source];
    case 'hung':
      return entry.figures === null ? 'Word hung as briefed again' : `Word hung for ${entry.figures}, by radio`;
    case 'rated':
      return `${entry.character}: ${RATING_WORDS[entry.rating].toLowerCase()}`;
    case 'noted':
      return entry.text;
    case 'called':
      return `Called: ${CALL_WORDS[entry.call].toLowerCase()}${entry.character === null ? '' : `, ${entry.character}`}`;
    case 'withdrawn':
      return 'Withdrawn';
  }
}
