import { airPathLengthMetres, type AirPose, advanceAirPose } from '../paths/air-path.ts';
import type { Leg } from './plan.ts';

/**
 * Where a ship is, at even steps of time: `eastMetres[i]`, `northMetres[i]` at `firstSeconds + i * stepSeconds`.
 * `smoke[i]` is 1 while the valve is open.
 */
export interface ShipMotion {
  readonly firstSeconds: number;
  readonly stepSeconds: number;
  readonly eastMetres: Float64Array;
  readonly northMetres: Float64Array;
  readonly smoke: Uint8Array;
}

/** Samples legs that follow each other; way is made evenly within a leg. */
export function shipMotion(legs: readonly Leg[], stepSeconds: number): ShipMotion {
  const firstSeconds = legs[0]?.startSeconds ?? 0;
  const lastSeconds = legs.at(-1)?.endSeconds ?? 0;
  const count = Math.floor((lastSeconds - firstSeconds) / stepSeconds + 1e-9) + 1;
  const eastMetres = new Float64Array(count);
  const northMetres = new Float64Array(count);
  const smoke = new Uint8Array(count);
  let sample = 0;
  for (const leg of legs) {
    const durationSeconds = leg.endSeconds - leg.startSeconds;
    const metresPerSecond = durationSeconds > 0 ? airPathLengthMetres(leg.path) / durationSeconds : 0;
    let pose: AirPose = leg.path.start;
    let piece = 0;
    let pieceStartMetres = 0;
    for (; sample < count; sample += 1) {
      const atSeconds = firstSeconds + sample * stepSeconds;
      if (atSeconds > leg.endSeconds + 1e-9) break;
      const alongMetres = Math.max(0, (atSeconds - leg.startSeconds) * metresPerSecond);
      for (;;) {
        const segment = leg.path.segments[piece];
        if (segment === undefined || alongMetres <= pieceStartMetres + segment.lengthMetres) break;
        pose = advanceAirPose(pose, segment.lengthMetres, segment.curvaturePerMetre);
        pieceStartMetres += segment.lengthMetres;
        piece += 1;
      }
      const segment = leg.path.segments[piece];
      const at = segment === undefined ? pose : advanceAirPose(pose, alongMetres - pieceStartMetres, segment.curvaturePerMetre);
      eastMetres[sample] = at.airEastMetres;
      northMetres[sample] = at.airNorthMetres;
      smoke[sample] = leg.kind === 'smoke' ? 1 : 0;
    }
  }
  return { firstSeconds, stepSeconds, eastMetres, northMetres, smoke };
}
