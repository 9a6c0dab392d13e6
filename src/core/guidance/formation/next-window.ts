import type { LatenessWindow } from '../../plan/plan.ts';
import type { FormationEntry } from './formation-setup.ts';

/** A window that can still be met, and when the circle is to be left for it. */
export interface NextWindow {
  readonly window: LatenessWindow;
  readonly entry: FormationEntry;
  /** Monotonic. */
  readonly leaveAtSeconds: number;
  /** How late the ship is to be at its stroke. */
  readonly lateSeconds: number;
}

/** How a ship differs from the one that was planned. */
export interface OwnPace {
  /** How far it falls behind by the middle of its longest stroke, negative when it is faster than planned. */
  readonly fallsBehindSeconds: number;
  /** How much longer the way from its circle takes it. */
  readonly longerWaySeconds: number;
}

/** A window is aimed at so far behind its beginning: before it a ship has no way to lose time, after it one to hurry. */
const INTO_SECONDS = 4.8;
/** Nothing is aimed nearer to a window's ends than this. */
const SPARE_SECONDS = 0.6;
/** A circle is left late by up to this much, and still inside the window. */
const MISSED_BY_SECONDS = 2.5;

/**
 * The lateness at its strokes that a ship aims at in a window: its middle, or some seconds after its beginning; a ship that falls
 * behind so much sooner, one that gains on its strokes so much later, as far as the window goes.
 */
export function aimedLateness({ fromSeconds, toSeconds }: LatenessWindow, fallsBehindSeconds: number): number {
  const middling = Math.min(fromSeconds + INTO_SECONDS, (fromSeconds + toSeconds) / 2);
  return Math.min(Math.max(fromSeconds + SPARE_SECONDS, middling - fallsBehindSeconds), middling + GAINED_SECONDS);
}

const GAINED_SECONDS = 1.5;

/**
 * The soonest window of a way into the ship's part that can still be met; null when none is left.
 *
 * @param readyAtSeconds when the ship can be where its circle is left, at the layer
 */
export function nextWindow(entry: FormationEntry, datumAtSeconds: number, readyAtSeconds: number, pace: OwnPace): NextWindow | null {
  const planned = datumAtSeconds + entry.leaveSeconds;
  for (const window of entry.windows) {
    const lateSeconds = aimedLateness(window, pace.fallsBehindSeconds);
    const latest = planned + window.toSeconds - SPARE_SECONDS - Math.max(0, pace.longerWaySeconds);
    if (latest < readyAtSeconds) continue;
    const leaving = Math.min(window.toSeconds - MISSED_BY_SECONDS, Math.max(window.fromSeconds + SPARE_SECONDS, lateSeconds - pace.longerWaySeconds));
    return { window, entry, lateSeconds, leaveAtSeconds: planned + leaving };
  }
  return null;
}
