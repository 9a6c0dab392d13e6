import { type Variation, variationDegrees } from '../earth/magnetic-variation.ts';
import type { Job } from './job.ts';

/** Magnetic variation as a job has it. */
export type JobVariation = Variation & {
  /** The day of a value entered by hand, RFC 3339; null where the model gave it. */
  readonly byHandOf: string | null;
};

/**
 * Magnetic variation at a job's site: the model's, or the pilot's own where one was entered and is to be used always, or the
 * model's years are over. How far a compass can be believed is the model's to say; beyond its years nobody does.
 */
export function jobVariation({ site }: Pick<Job, 'site'>, heightMetres: number, epochMilliseconds: number): JobVariation {
  const model = variationDegrees(site, heightMetres, epochMilliseconds);
  const hand = site.variationByHand;
  if (hand === null || (model.ok && !hand.always)) return { ...model, byHandOf: null };
  return { ok: true, variationDegrees: hand.eastDegrees, compass: model.ok ? model.compass : 'good', byHandOf: hand.ofTime };
}
