import type { VNode } from 'preact';
import type { ObservedMoment } from '../../app/debrief/observed.ts';
import type { LostStretch } from '../../app/debrief/flown-events.ts';
import { useDebrief } from './debrief-context.ts';
import type { FlownScene } from './flown-scene.ts';
import type { FlightSpan } from './flight-player.ts';
import { observedWords } from './observed-words.ts';

export interface TimeLineProps {
  readonly scene: FlownScene;
  readonly span: FlightSpan;
  readonly observed: readonly ObservedMoment[];
  readonly lost: readonly LostStretch[];
}

const ROW_PIXELS = 16;
const LETTER_PIXELS = 18;

/** Smoke of each ship along the time, what the ground said above it, and what of the log was lost as a gap. */
export function TimeLine({ scene, span, observed, lost }: TimeLineProps): VNode {
  const { player } = useDebrief();
  const length = Math.max(1, span.toMilliseconds - span.fromMilliseconds);
  const percent = (milliseconds: number): number => (100 * (milliseconds - span.fromMilliseconds)) / length;
  const heightPixels = ROW_PIXELS * scene.ships.length;
  return (
    <div class="time-line" role="group" aria-label="Time line">
      {observed.length > 0 && (
        <div class="time-notes">
          {observed.map((moment, index) => (
            <button
              key={index}
              type="button"
              class={`time-note note-${moment.entry.kind}`}
              style={{ left: `${percent(moment.atMilliseconds)}%` }}
              title={observedWords(moment)}
              aria-label={observedWords(moment)}
              onClick={() => {
                player.pause();
                player.seekMilliseconds(moment.atMilliseconds);
              }}
            />
          ))}
        </div>
      )}
      <svg class="time-smoke" viewBox={`0 0 100 ${heightPixels}`} preserveAspectRatio="none" height={heightPixels} aria-hidden="true">
        {lost.map((stretch, index) => (
          <rect
            key={`lost-${index}`}
            class="time-lost"
            x={percent(stretch.fromMilliseconds)}
            width={Math.max(0.3, percent(stretch.toMilliseconds) - percent(stretch.fromMilliseconds))}
            y="0"
            height={heightPixels}
          />
        ))}
        {scene.ships.map((ship, row) =>
          ship.smoke.map(({ interval }, index) => {
            const from = percent(ship.zeroMilliseconds + interval.onSeconds * 1000);
            const to = percent(ship.zeroMilliseconds + interval.offSeconds * 1000);
            return (
              <rect
                key={`${row}-${index}`}
                class={`time-on time-${interval.source}`}
                x={from}
                width={Math.max(0.15, to - from)}
                y={row * ROW_PIXELS + 3}
                height={ROW_PIXELS - 6}
              />
            );
          }),
        )}
      </svg>
      <div class="time-letters" style={{ height: `${LETTER_PIXELS * scene.ships.length}px` }} aria-hidden="true">
        {scene.ships.map((ship, row) =>
          lettersOf(ship.smoke, ship.zeroMilliseconds).map(({ character, atMilliseconds }, index) => (
            <span key={`${row}-${index}`} style={{ left: `${percent(atMilliseconds)}%`, top: `${row * LETTER_PIXELS}px` }}>
              {character}
            </span>
          )),
        )}
      </div>
    </div>
  );
}

/** Each run of strokes of one letter, with its middle. */
function lettersOf(smoke: FlownScene['ships'][number]['smoke'], zeroMilliseconds: number): { readonly character: string; readonly atMilliseconds: number }[] {
  const runs: { letterIndex: number; character: string; from: number; to: number }[] = [];
  for (const { letterIndex, character, interval } of smoke) {
    const last = runs.at(-1);
    if (last !== undefined && last.letterIndex === letterIndex) last.to = interval.offSeconds;
    else runs.push({ letterIndex, character, from: interval.onSeconds, to: interval.offSeconds });
  }
  return runs.map(({ character, from, to }) => ({ character, atMilliseconds: zeroMilliseconds + ((from + to) / 2) * 1000 }));
}
