import type { VNode } from 'preact';
import type { ReadingWindow, WindowEnd } from '../../core/sky/reading-window.ts';
import { STANDING_LIMITS } from '../../core/sky/standing-span.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { minutesRange } from '../words/reads-text.ts';
import { askewWords } from '../words/reads.ts';

export interface SkyWindowProps {
  readonly window: ReadingWindow;
  readonly readSeconds: number;
  readonly shearKnown: boolean;
}

const ENDS: Readonly<Record<WindowEnd, string>> = {
  spread: 'its smoke has spread too wide',
  faint: 'it is too faint against the sky',
  merged: 'its strokes have run together',
  'too far': 'the wind has carried it too far',
  'still reading': 'it still reads after three hours',
};

const SHORT_ENDS: Readonly<Record<WindowEnd, string>> = {
  spread: 'too wide',
  faint: 'too faint',
  merged: 'run together',
  'too far': 'too far',
  'still reading': 'still reads',
};

/** How long the text reads, which letter goes first, when and why; as ranges, because nobody knows the air better. */
export function SkyWindow({ window, readSeconds, shearKnown }: SkyWindowProps): VNode {
  const { fromSeconds, until, first, letters } = window;
  const whole = until.likelySeconds > fromSeconds;
  const inside = readSeconds >= fromSeconds && readSeconds <= until.lowSeconds;
  return (
    <div class="sky-window">
      <p>
        {whole ? (
          <>
            The whole text reads from <strong>{formatDuration(fromSeconds)}</strong> until{' '}
            <strong>{minutesRange(until.lowSeconds, until.highSeconds)} minutes</strong> after the first smoke, likely {formatDuration(until.likelySeconds)}.
          </>
        ) : (
          <>
            <strong>The whole text never reads at once:</strong> its first letter is lost at about {formatDuration(until.likelySeconds)}, before the last is
            written at {formatDuration(fromSeconds)}. Write larger, faster, with more ships, or less.
          </>
        )}{' '}
        {first === null ? '' : `First goes ${first.character}: ${ENDS[first.endedBy]}.`}
        {standsWords(window)}
        {whole && until.lowSeconds < fromSeconds ? ' If the smoke fades soonest, the first letter is lost before the last is written.' : ''}
      </p>
      <p class="small">
        The read time is {formatDuration(readSeconds)} after the first smoke
        {inside
          ? ', inside the window even if the smoke fades soonest.'
          : whole && readSeconds <= until.highSeconds
            ? ': the text reads then if the air is kind.'
            : '.'}
        {shearKnown ? '' : ' Shear is not known from one row of wind; each case assumes its own.'}
      </p>
      <div class="scrolls" role="region" tabIndex={0} aria-label="Letters and how long they read">
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Letter</th>
              <th scope="col" class="number">
                Written
              </th>
              <th scope="col" class="number">
                Reads until, min
              </th>
              <th scope="col">Then</th>
              <th scope="col" class="number">
                Unseen, min
              </th>
            </tr>
          </thead>
          <tbody>
            {letters.map((letter) => (
              <tr key={letter.letterIndex}>
                <th scope="row">{letter.character}</th>
                <td class="number">{formatDuration(letter.fromSeconds)}</td>
                <td class="number">{minutesRange(letter.until.lowSeconds, letter.until.highSeconds)}</td>
                <td>{SHORT_ENDS[letter.endedBy]}</td>
                <td class="number">{range(letter.gone.lowSeconds, letter.gone.highSeconds)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}

/** That the wind turns it while its smoke still reads; empty when it does not. */
function standsWords(window: ReadingWindow): string {
  const askew = askewWords(window, formatDuration);
  const lean = Math.round(degreesFromRadians(STANDING_LIMITS.leanRadians));
  return askew === '' ? '' : ` To a crowd that faces it, it stands ${askew}: it leans by more than ${lean}\u00b0 or hangs too low, and is read less and less.`;
}

function range(lowSeconds: number, highSeconds: number): string {
  return `${formatNumber(lowSeconds / 60)} to ${formatNumber(highSeconds / 60)}`;
}
