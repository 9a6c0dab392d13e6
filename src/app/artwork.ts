import type { Job } from '../core/job/job.ts';
import { turnRadiusMetres } from '../core/paths/turn.ts';
import { radiansFromDegrees } from '../core/units/angle.ts';
import { metresPerSecondFromKnots } from '../core/units/quantity.ts';
import { readArtwork } from '../workers/artwork-reader-client.ts';
import type { ArtworkAnswer, ArtworkRequest } from '../workers/artwork-service.ts';

/**
 * Reads a drawing for the lead of a job, at a depth of sky; see {@link readArtwork}. A job without a ship is refused.
 *
 * @returns what ends the reading
 */
export function readDrawing(
  job: Job,
  svgText: string,
  { depthMetres, changed, middles }: Pick<ArtworkRequest, 'depthMetres' | 'changed' | 'middles'>,
  onAnswer: (answer: ArtworkAnswer) => void,
): () => void {
  const [lead] = job.ships;
  if (lead === undefined) {
    onAnswer({ kind: 'refused', reason: 'The job has no ship to write the drawing.' });
    return () => {};
  }
  const radiusMetres = turnRadiusMetres(metresPerSecondFromKnots(lead.trueAirspeedKnots), radiansFromDegrees(lead.writingBankDegrees));
  return readArtwork({ job, svgText, depthMetres, turnRadiusMetres: radiusMetres, changed, middles }, onAnswer);
}
