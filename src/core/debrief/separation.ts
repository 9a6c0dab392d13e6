import { indexAt } from './air-track.ts';
import type { SmoothTrack } from './smooth-track.ts';

/** A ship's track with what ties it to the wall clock. */
export interface TimedTrack {
  readonly track: SmoothTrack;
  /** UTC at flight time 0. */
  readonly zeroMilliseconds: number;
}

/** The least distance two ships kept, level: heights are not looked at. */
export interface LeastSeparation {
  readonly separationMetres: number;
  /** UTC. */
  readonly atMilliseconds: number;
  /** For how long both had positions; separation outside of it is not known. */
  readonly sharedSeconds: number;
}

const STEP_MILLISECONDS = 500;
/** A position older or newer than this says nothing of now. */
const NEAR_SECONDS = 3;

/** How close two ships really came, looked at every half second while both have positions; null when they share no time. */
export function leastSeparation(one: TimedTrack, other: TimedTrack, fromMilliseconds: number, toMilliseconds: number): LeastSeparation | null {
  let least: { separationMetres: number; atMilliseconds: number } | null = null;
  let shared = 0;
  for (let atMilliseconds = fromMilliseconds; atMilliseconds <= toMilliseconds; atMilliseconds += STEP_MILLISECONDS) {
    const first = placeAt(one, atMilliseconds);
    const second = placeAt(other, atMilliseconds);
    if (first === null || second === null) continue;
    shared += 1;
    const separationMetres = Math.hypot(first.eastMetres - second.eastMetres, first.northMetres - second.northMetres);
    if (least === null || separationMetres < least.separationMetres) least = { separationMetres, atMilliseconds };
  }
  return least === null ? null : { ...least, sharedSeconds: (shared * STEP_MILLISECONDS) / 1000 };
}

/** Where a ship was over the ground; null without a position near in time. */
export function placeAt({ track, zeroMilliseconds }: TimedTrack, atMilliseconds: number): { readonly eastMetres: number; readonly northMetres: number } | null {
  const seconds = (atMilliseconds - zeroMilliseconds) / 1000;
  const index = indexAt(track.atSeconds, seconds);
  const next = index + 1;
  if (index < 0 || next >= track.atSeconds.length) return null;
  const from = track.atSeconds[index]!;
  const to = track.atSeconds[next]!;
  if (Math.min(seconds - from, to - seconds) > NEAR_SECONDS || track.segmentStarts.includes(next)) return null;
  const since = seconds - from;
  const share = since / (to - from);
  // The velocities of both ends, each carried to the moment, mixed.
  const along = (place: Float64Array, velocity: Float64Array): number =>
    (1 - share) * (place[index]! + velocity[index]! * since) + share * (place[next]! - velocity[next]! * (to - seconds));
  return { eastMetres: along(track.eastMetres, track.eastMetresPerSecond), northMetres: along(track.northMetres, track.northMetresPerSecond) };
}
