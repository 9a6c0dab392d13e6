import { metresFromFeet, metresFromStatuteMiles } from '../units/quantity.ts';
import type { JobConditions } from './job.ts';

/** A layer of cloud. */
export interface CloudLayer {
  /** Above mean sea level. */
  readonly baseMetres: number;
  /** Null when it is not known. */
  readonly topMetres: number | null;
  /** Eighths of the sky, 1 to 8. */
  readonly oktas: number;
}

/** The clouds in SI; null when nobody has looked. */
export function cloudsOf({ clouds }: JobConditions): CloudLayer[] | null {
  return (
    clouds?.map(({ baseFeet, topFeet, oktas }) => ({
      baseMetres: metresFromFeet(baseFeet),
      topMetres: topFeet === null ? null : metresFromFeet(topFeet),
      oktas,
    })) ?? null
  );
}

/** The visibility in SI; null when nobody has looked. */
export function visibilityOf({ visibilityStatuteMiles }: JobConditions): number | null {
  return visibilityStatuteMiles === null ? null : metresFromStatuteMiles(visibilityStatuteMiles);
}
