import { clockText } from '../words/clock.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { DeskShip } from '../../app/debrief/desk-types.ts';
import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import { useDebrief } from './debrief-context.ts';
import { secondsWords } from './score-words.ts';

/** One touch moves a mark by so much. */
const NUDGE_SECONDS = 0.1;

/** Smoke marked by hand, as it was seen from the ground or in a video: on here, off here, moved by tenths. */
export function SmokeMarks({ ship, timeZone }: { readonly ship: DeskShip; readonly timeZone: string }): VNode {
  const { desk, player } = useDebrief();
  const begunSeconds = useSignal<number | null>(null);
  const seconds = (player.atMilliseconds.value - ship.log.zeroMilliseconds) / 1000;
  const clock = (at: number): string => clockText(ship.log.zeroMilliseconds + at * 1000, timeZone, { seconds: true });
  const put = (seen: readonly SeenSmoke[], words: string): void => void desk.markSeen(ship.key, seen, words);
  const changed = (index: number, change: Partial<SeenSmoke>): void => {
    const next = ship.seen.map((mark, at) => (at === index ? { ...mark, ...change } : mark));
    const moved = next[index];
    if (moved !== undefined && moved.offSeconds - moved.onSeconds > NUDGE_SECONDS / 2) put(next, 'A mark was moved.');
  };
  const begun = begunSeconds.value;
  return (
    <div class="smoke-marks">
      <p class="small quiet">
        Where somebody saw the smoke come and go, or a video shows it, mark it here: it counts before the switch and the cue, and tells the valve{'\u2019'}s
        latency. Bring the time line to the moment first.
      </p>
      <div class="row">
        {begun === null ? (
          <button type="button" onClick={() => (begunSeconds.value = seconds)} disabled={!Number.isFinite(seconds)}>
            Smoke on at {clock(seconds)}
          </button>
        ) : (
          <>
            <button
              type="button"
              class="main"
              disabled={!(seconds > begun)}
              onClick={() => {
                begunSeconds.value = null;
                put([...ship.seen, { onSeconds: begun, offSeconds: seconds }], 'Smoke was marked.');
              }}
            >
              Smoke off at {clock(seconds)}
            </button>
            <button type="button" class="plain" onClick={() => (begunSeconds.value = null)}>
              Not from {clock(begun)}
            </button>
          </>
        )}
        {ship.seen.length > 0 && (
          <button type="button" class="plain" onClick={() => put([], 'All marks were taken away.')}>
            Take all marks away
          </button>
        )}
      </div>
      {ship.seen.length > 0 && (
        <ol class="marks">
          {ship.seen.map((mark, index) => (
            <li key={`${mark.onSeconds} ${mark.offSeconds}`}>
              <MarkEnd
                label="on"
                clock={clock(mark.onSeconds)}
                onShow={() => player.seek(ship.log.zeroMilliseconds + mark.onSeconds * 1000)}
                onNudge={(by) => changed(index, { onSeconds: mark.onSeconds + by })}
              />
              <MarkEnd
                label="off"
                clock={clock(mark.offSeconds)}
                onShow={() => player.seek(ship.log.zeroMilliseconds + mark.offSeconds * 1000)}
                onNudge={(by) => changed(index, { offSeconds: mark.offSeconds + by })}
              />
              <span class="quiet small">{secondsWords(mark.offSeconds - mark.onSeconds)}</span>
              <button
                type="button"
                class="plain"
                onClick={() =>
                  put(
                    ship.seen.filter((_, at) => at !== index),
                    'A mark was taken away.',
                  )
                }
              >
                Take away
              </button>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}

interface MarkEndProps {
  readonly label: string;
  readonly clock: string;
  readonly onShow: () => void;
  readonly onNudge: (bySeconds: number) => void;
}

function MarkEnd({ label, clock, onShow, onNudge }: MarkEndProps): VNode {
  return (
    <span class="mark-end">
      <button type="button" class="plain" aria-label={`Smoke ${label} a tenth earlier`} onClick={() => onNudge(-NUDGE_SECONDS)}>
        {'\u2212'}
      </button>
      <button type="button" class="plain" onClick={onShow}>
        {label} {clock}
      </button>
      <button type="button" class="plain" aria-label={`Smoke ${label} a tenth later`} onClick={() => onNudge(NUDGE_SECONDS)}>
        +
      </button>
    </span>
  );
}
