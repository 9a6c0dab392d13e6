import type { JobConditions } from '../job/job.ts';
import type { CloudLayer } from '../place/air-rules.ts';
import { metresFromFeet, metresFromStatuteMiles } from '../units/quantity.ts';

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
