import { windAt, windProfileFromJob } from '../../core/earth/wind-profile.ts';
import { CALM, windFromVector } from '../../core/earth/wind-vector.ts';
import type { Job } from '../../core/formats/job.ts';
import { typeset } from '../../core/letters/typeset.ts';
import { placeTextMiddle } from '../../core/planning/place.ts';
import type { Plan } from '../../core/planning/plan.ts';
import { type PlanProblem, planText } from '../../core/planning/plan-text.ts';
import { turnRadiusMetres } from '../../core/planning/turn.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import { feetFromMetres, kilogramsFromPounds, metresFromFeet, metresPerSecondFromKnots } from '../../core/units/quantity.ts';

/** A plan to be flown, or why there is none, in words that say what to change. */
export type PlanForFlight = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly reason: string };

/**
 * The plan of a job's first ship, letter after letter, placed for the job's read time: ready as the last stroke ends.
 * Some tenths of a second for a short word.
 */
export function planForFlight(job: Job): PlanForFlight {
  const ship = job.ships[0];
  if (ship === undefined) return { ok: false, reason: 'The job has no ship.' };
  const heightMetres = metresFromFeet(job.letters.heightFeet);
  const speed = metresPerSecondFromKnots(ship.trueAirspeedKnots);
  const writingBankRadians = radiansFromDegrees(ship.writingBankDegrees);
  const setting = typeset(job.text, {
    heightMetres,
    spacingHeights: job.letters.spacingHeights,
    depthStretch: job.letters.depthStretch,
    corners: job.options.corners,
    turnRadiusMetres: turnRadiusMetres(speed, writingBankRadians),
  });
  if (!setting.ok) return setting;
  const profile = windProfileFromJob(job.winds);
  if (!profile.ok) return { ok: false, reason: `The winds cannot be used: ${profile.reason}.` };
  const found = windAt(profile.profile, metresFromFeet(job.layer.altitudeFeet));
  if (!found.ok) return { ok: false, reason: `The winds cannot be used: ${found.reason}.` };
  const wind = found.directionKnown ? found.wind : CALM;
  const facingRadians = radiansFromDegrees(job.facingDegreesTrue);
  const planned = (middle: Plan['frame']['middle']) =>
    planText(setting.layout.letters, {
      text: job.text,
      frame: { facingRadians, middle },
      letterHeightMetres: heightMetres,
      textWidthMetres: setting.layout.widthMetres,
      trueAirspeedMetresPerSecond: speed,
      writingBankRadians,
      turningBankRadians: radiansFromDegrees(ship.turningBankDegrees),
      rollRateRadiansPerSecond: radiansFromDegrees(ship.rollRateDegreesPerSecond),
      runInSeconds: job.options.runInSeconds,
      runOutSeconds: job.options.runOutSeconds,
      letterOrder: job.options.letterOrder,
      progress: job.options.progress,
      corners: job.options.corners,
      windFromRadians: found.directionKnown ? windFromVector(wind).fromRadians : null,
      oilKilogramsPerSecond: kilogramsFromPounds(ship.smokeOilPoundsPerMinute) / 60,
    });
  // Where the text is does not change how it is flown, only where it must be to be read at the right place.
  const anywhere = planned({ airEastMetres: 0, airNorthMetres: 0 });
  if (!anywhere.ok) return { ok: false, reason: problemWords(anywhere.problem) };
  const layerAboveSiteMetres = metresFromFeet(job.layer.altitudeFeet) - metresFromFeet(job.site.elevationFeet);
  const wish = { facingRadians, viewElevationRadians: radiansFromDegrees(job.viewElevationDegrees), layerAboveSiteMetres };
  const placed = planned(placeTextMiddle(wish, wind, anywhere.plan.durationSeconds));
  return placed.ok ? { ok: true, plan: placed.plan } : { ok: false, reason: problemWords(placed.problem) };
}

function problemWords(problem: PlanProblem): string {
  switch (problem.kind) {
    case 'nothing-to-write':
      return 'There is nothing to write: type a text on the Plan screen.';
    case 'too-small':
      return `The letters are too small to fly: at least ${Math.ceil(feetFromMetres(problem.smallest.heightMetres) / 10) * 10} ft are needed. Make them larger, bank more or fly slower.`;
    case 'no-heading-allowed':
      return 'The sun allows no heading at that hour: change the hour or the facing.';
  }
}
