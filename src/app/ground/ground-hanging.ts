import { type WindVector, windVectorFrom } from '../../core/earth/wind-vector.ts';
import { hangText } from '../../core/guidance/hanging/hang-text.ts';
import { hangingWish } from '../../core/guidance/hanging/hanging-wish.ts';
import { movedPlan } from '../../core/plan/moved-plan.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import type { Hung } from '../../link/ship-seen.ts';
import type { GroundPlan } from './ground-plan.ts';

/** Where the text hangs, as the ground knows it. */
export interface GroundHanging {
  readonly source: 'briefed' | 'link' | 'radio';
  /** For which wind; null as briefed. */
  readonly wind: WindVector | null;
  /** From the briefed place, as the ship told it; null where it follows from the wind alone. */
  readonly moved: { readonly eastMetres: number; readonly northMetres: number } | null;
}

/** Nothing else was heard. */
export const AS_BRIEFED: GroundHanging = { source: 'briefed', wind: null, moved: null };

/** What the lead told over the link. */
export function hangingFromLink({ windFromDegreesTrue, windSpeedMetresPerSecond, movedEastMetres, movedNorthMetres }: Hung): GroundHanging {
  if (windFromDegreesTrue === null || windSpeedMetresPerSecond === null) return { source: 'link', wind: null, moved: null };
  const wind = windVectorFrom({ fromRadians: radiansFromDegrees(windFromDegreesTrue), speedMetresPerSecond: windSpeedMetresPerSecond });
  return { source: 'link', wind, moved: { eastMetres: movedEastMetres, northMetres: movedNorthMetres } };
}

/** The plan with its text hung for a wind that was found, and what becomes of its smoke in that wind. */
export function hungPlan(briefed: GroundPlan, { wind, moved }: GroundHanging, measured: SmokeCalibration | null): GroundPlan {
  if (wind === null) return briefed;
  const { job, plan, air } = briefed;
  const { movedEastMetres, movedNorthMetres } = hangText(hangingWish(job, plan, air), wind);
  const hung = movedPlan(plan, {
    airEastMetres: plan.frame.middle.airEastMetres + (moved?.eastMetres ?? movedEastMetres),
    airNorthMetres: plan.frame.middle.airNorthMetres + (moved?.northMetres ?? movedNorthMetres),
  });
  const found = { ...air, wind, directionKnown: true, windMissing: null };
  return { ...briefed, plan: hung, air: found, ...readingOf({ plan: hung, air: found }, measured) };
}
