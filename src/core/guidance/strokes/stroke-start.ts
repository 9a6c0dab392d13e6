import { type AirPose, airPoseAt } from '../../paths/air-path.ts';
import type { Flight, StrokeProgress } from '../guidance-state.ts';

/** A broken stroke is taken up again this much before its break, so that no gap shows. */
const OVERLAP_METRES = 25;

/** Where the smoke of a stroke is to begin: its start, or just before its break. */
export function strokeStart(flight: Flight, strokeIndex: number): AirPose {
  const stroke = flight.setup.strokes[strokeIndex]!;
  return airPoseAt(stroke.path, startAlongMetres(flight.progress[strokeIndex]!));
}

/** How far along the stroke its smoke is to begin. */
export function startAlongMetres(progress: StrokeProgress): number {
  return progress.status === 'to-fly' ? Math.max(0, progress.smokedMetres - OVERLAP_METRES) : 0;
}
