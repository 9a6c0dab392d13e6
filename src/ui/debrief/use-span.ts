import { useEffect, useMemo } from 'preact/hooks';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { useDebrief } from './debrief-context.ts';
import type { FlightSpan } from './flight-player.ts';
import type { FlownScene } from './flown-scene.ts';

/** Smoke is looked at for this long after the last of it at most. */
const STANDING_MILLISECONDS = 30 * 60_000;
/** Opened so long after the last smoke, on the finished word. */
const OPENED_MILLISECONDS = 20_000;

/** What the line of time holds: from the first smoke to the end of reading, or the whole flight. */
export type Stretch = 'word' | 'flight';

/** The span that is played, told to `onSpan` when it changes; the player then stands on the finished word, or where it stood. */
export function useSpan(
  scene: FlownScene | null,
  window: ReadingWindow | null,
  stretch: Stretch,
  onSpan: (span: FlightSpan | null) => void,
): FlightSpan | null {
  const { player } = useDebrief();
  const span = useMemo(() => spanOf(scene, window, stretch), [scene, window, stretch]);
  useEffect(() => {
    onSpan(span);
    if (span === null || scene === null) return;
    const at = player.atMilliseconds.peek();
    if (at >= span.fromMilliseconds && at <= span.toMilliseconds) player.seekMilliseconds(at);
    else player.seekMilliseconds(scene.lastSmokeMilliseconds === null ? scene.toMilliseconds : scene.lastSmokeMilliseconds + OPENED_MILLISECONDS);
  }, [span]);
  return span;
}

function spanOf(scene: FlownScene | null, window: ReadingWindow | null, stretch: Stretch): FlightSpan | null {
  if (scene === null) return null;
  const { firstSmokeMilliseconds: first, lastSmokeMilliseconds: last } = scene;
  if (first === null || last === null || stretch === 'flight')
    return { fromMilliseconds: scene.fromMilliseconds, toMilliseconds: Math.max(scene.toMilliseconds, (last ?? 0) + OPENED_MILLISECONDS) };
  const readsMilliseconds = window === null ? 0 : first + 1000 * window.until.likelySeconds;
  return { fromMilliseconds: first, toMilliseconds: Math.max(last + OPENED_MILLISECONDS, Math.min(readsMilliseconds, last + STANDING_MILLISECONDS)) };
}
