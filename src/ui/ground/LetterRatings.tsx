import { clockInRow } from '../words/clock.ts';
import type { VNode } from 'preact';
import { LETTER_RATINGS } from '../../core/wire/link-schemas.ts';
import { standingEntries } from '../../core/wire/observer-log.ts';
import { type LetterNow, type LetterStage, skyNow } from '../../core/sky/look-plan.ts';
import { type LookProps, useGround } from './ground-context.ts';
import { readsWords } from '../words/reads.ts';
import { RATING_WORDS, STAGE_WORDS, waitWords } from './ground-words.ts';

/** A letter is rated once it has been laid. */
const RATED_STAGES: readonly LetterStage[] = ['stands', 'fading', 'gone'];

/** Every letter: whether it should be there, until when it should read, and how the observer finds it. */
export function LetterRatings({ plan, sinceDatumSeconds }: LookProps): VNode {
  const { job, book, datum, observerPlace, rate } = useGround();
  const { letters } = skyNow(plan.plan, plan.window, sinceDatumSeconds, {
    eye: observerPlace.eye.value,
    wind: plan.air.wind,
    layerAboveSiteMetres: plan.air.layerAboveSiteMetres,
  });
  const entries = standingEntries(book.own.value?.entries ?? []);
  const datumMilliseconds = datum.value?.datumMilliseconds ?? Number.NaN;
  const at = (seconds: number): string => clockInRow(datumMilliseconds + seconds * 1000, job.site.timeZone).hours;
  const { zone } = clockInRow(datumMilliseconds, job.site.timeZone);
  return (
    <section aria-labelledby="ground-letters-title">
      <h2 id="ground-letters-title">How it reads</h2>
      <ul class="ground-letters">
        {letters.map((letter) => {
          const last = entries.findLast((entry) => entry.kind === 'rated' && entry.letterIndex === letter.letterIndex);
          const rating = last?.kind === 'rated' ? last.rating : null;
          return (
            <li key={letter.letterIndex} class="ground-letter" data-letter={letter.letterIndex} data-stage={letter.stage} data-rating={rating ?? ''}>
              <span class="ground-letter-glyph">{letter.character}</span>
              <span class="ground-letter-words">
                <strong>{STAGE_WORDS[letter.stage]}</strong>
                <span class="quiet small">{windowWords(letter, sinceDatumSeconds, at, zone)}</span>
              </span>
              {(RATED_STAGES.includes(letter.stage) || rating !== null) && (
                <span class="ground-letter-ratings" role="group" aria-label={`How ${letter.character} reads`}>
                  {LETTER_RATINGS.map((each) => (
                    <button
                      key={each}
                      type="button"
                      aria-pressed={rating === each}
                      data-rating={each}
                      onClick={() => rate(letter.letterIndex, letter.character, each)}
                    >
                      {RATING_WORDS[each]}
                    </button>
                  ))}
                </span>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function windowWords(
  { stage, begunSeconds, completedSeconds, until }: LetterNow,
  sinceDatumSeconds: number,
  at: (seconds: number) => string,
  zone: string,
): string {
  switch (stage) {
    case 'to come':
      return `from ${at(begunSeconds)} ${zone}, in ${waitWords(begunSeconds - sinceDatumSeconds)}`;
    case 'being written':
      return `done in ${waitWords(completedSeconds - sinceDatumSeconds)}`;
    case 'stands':
    case 'fading':
      return until.highSeconds <= completedSeconds
        ? 'too faint to read by the plan'
        : `reads ${readsWords(null, { ...until, lowSeconds: Math.max(completedSeconds, until.lowSeconds) }, at, zone)}`;
    case 'gone':
      return 'no longer seen';
  }
}
