import type { CloudLayer } from '../job/conditions-si.ts';
import { metresFromFeet, metresFromStatuteMiles } from '../units/quantity.ts';

/**
 * Numbers of the rules of the air, the United States as the example. Local rules and licensed practice decide; these
 * only say what to look at.
 */

export interface CloudMinima {
  readonly visibilityMetres: number;
  readonly belowCloudMetres: number;
  readonly aboveCloudMetres: number;
  readonly asideMetres: number;
}

const TEN_THOUSAND_FEET_METRES = metresFromFeet(10_000);

/**
 * Visibility and distances from cloud under visual rules in class E (14 CFR 91.155): below 10,000 ft 3 statute miles,
 * 500 ft below, 1,000 above, 2,000 aside; at and above it 5 miles, 1,000 below, 1,000 above, 1 mile aside.
 */
export function cloudMinima(heightMetres: number): CloudMinima {
  const high = heightMetres >= TEN_THOUSAND_FEET_METRES;
  return {
    visibilityMetres: metresFromStatuteMiles(high ? 5 : 3),
    belowCloudMetres: metresFromFeet(high ? 1_000 : 500),
    aboveCloudMetres: metresFromFeet(1_000),
    asideMetres: high ? metresFromStatuteMiles(1) : metresFromFeet(2_000),
  };
}

/** How a height stands to the clouds; `unknown top` when it may be above or in a cloud whose top nobody reported. */
export type CloudStanding = 'clear' | 'partly hidden' | 'hidden from below' | 'too near' | 'in cloud' | 'unknown top' | 'not checked';

/** Coverage from which a layer below the text hides it: broken (5 to 7) and overcast (8). */
const HIDING_OKTAS = 5;
/** Scattered, 3 to 4, hides parts of it. */
const PARTLY_HIDING_OKTAS = 3;

const CLOUD_ORDER: readonly CloudStanding[] = ['clear', 'partly hidden', 'hidden from below', 'unknown top', 'too near', 'in cloud'];

/** The worst of what the clouds do to a height; null clouds are not checked, an empty list is a clear sky. */
export function cloudStanding(heightMetres: number, clouds: readonly CloudLayer[] | null): CloudStanding {
  if (clouds === null) return 'not checked';
  return clouds
    .map((cloud) => standingToOne(heightMetres, cloud))
    .reduce<CloudStanding>((worst, each) => (CLOUD_ORDER.indexOf(each) > CLOUD_ORDER.indexOf(worst) ? each : worst), 'clear');
}

function standingToOne(heightMetres: number, { baseMetres, topMetres, oktas }: CloudLayer): CloudStanding {
  const minima = cloudMinima(heightMetres);
  if (heightMetres < baseMetres) return baseMetres - heightMetres < minima.belowCloudMetres ? 'too near' : 'clear';
  if (topMetres === null) return 'unknown top';
  if (heightMetres <= topMetres) return 'in cloud';
  if (heightMetres - topMetres < minima.aboveCloudMetres) return 'too near';
  if (oktas >= HIDING_OKTAS) return 'hidden from below';
  return oktas >= PARTLY_HIDING_OKTAS ? 'partly hidden' : 'clear';
}

/** What the crew needs of oxygen, by cabin height as flown without pressure. */
export type OxygenNeed = 'none' | 'advised' | 'required' | 'required throughout';

const HALF_AN_HOUR_SECONDS = 1_800;

/**
 * 14 CFR 91.211(a): required above 12,500 ft for the time over 30 minutes, and above 14,000 ft throughout. AIM 8-1-2:
 * advised above 10,000 ft by day.
 */
export function oxygenNeed(heightMetres: number, secondsAtHeight: number): OxygenNeed {
  if (heightMetres > metresFromFeet(14_000)) return 'required throughout';
  if (heightMetres > metresFromFeet(12_500) && secondsAtHeight > HALF_AN_HOUR_SECONDS) return 'required';
  return heightMetres > TEN_THOUSAND_FEET_METRES ? 'advised' : 'none';
}
