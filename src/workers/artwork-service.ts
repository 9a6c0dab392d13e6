import type { Job } from '../core/job/job.ts';
import { type Artwork, artworkFromPathData } from '../core/artwork/artwork.ts';
import { pathDataFromSvg } from '../core/artwork/svg-paths.ts';
import { planArtwork } from '../core/artwork/plan-artwork.ts';
import type { Plan } from '../core/plan/plan.ts';

/** What the worker is sent. */
export interface ArtworkRequest {
  readonly job: Job;
  readonly svgText: string;
  readonly depthMetres: number;
  readonly turnRadiusMetres: number;
  /** Whether corners are rounded, and tight and short parts changed, so that more of it can be flown. */
  readonly changed: boolean;
  /** Whether filled shapes that are drawn like a thick line are flown by their middle line, all others by their edge. */
  readonly middles: boolean;
}

/** What comes back: a refusal, or first the strokes and then the order in which the lead would fly them. */
export type ArtworkAnswer =
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'read'; readonly artwork: Artwork; readonly passedOver: readonly string[]; readonly middleLines: number }
  /** Null when nothing in the drawing can be flown. */
  | { readonly kind: 'planned'; readonly plan: Plan | null };

/** Reads a drawing and plans it; answers as {@link ArtworkAnswer} says, never throws. */
export function answerArtwork(
  { job, svgText, depthMetres, turnRadiusMetres, changed, middles }: ArtworkRequest,
  answer: (answer: ArtworkAnswer) => void,
): void {
  try {
    const paths = pathDataFromSvg(svgText);
    if (!paths.ok) {
      answer({ kind: 'refused', reason: paths.reason });
      return;
    }
    const pathData = middles ? paths.pathData : paths.edgeData;
    const read = artworkFromPathData(pathData, { depthMetres, turnRadiusMetres, ...(changed ? {} : { mostStrayMetres: 0 }) });
    if (!read.ok) {
      answer({ kind: 'refused', reason: read.reason });
      return;
    }
    const asDrawn = paths.middleLines === 0 ? read : artworkFromPathData(paths.edgeData, { depthMetres, turnRadiusMetres });
    const artwork = asDrawn.ok ? { ...read.artwork, drawn: asDrawn.artwork.drawn } : read.artwork;
    answer({ kind: 'read', artwork, passedOver: paths.passedOver, middleLines: paths.middleLines });
    answer({ kind: 'planned', plan: planArtwork(job, artwork) });
  } catch (error) {
    answer({ kind: 'refused', reason: `The drawing cannot be read: ${error instanceof Error ? error.message : String(error)}.` });
  }
}
