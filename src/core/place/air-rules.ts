import type { CloudLayer } from '../job/conditions-si.ts';
import { type CloudRule, type RulesOfTheAir, US_RULES } from './rules-of-the-air.ts';

/** The distances from cloud and the visibility that a set of rules asks for at a height above mean sea level. */
export function cloudMinima(heightMetres: number, rules: RulesOfTheAir = US_RULES): CloudRule {
  const [first] = rules.cloud;
  if (first === undefined) throw new RangeError(`${rules.id} has no rule about cloud`);
  return rules.cloud.reduce((holds, rule) => (heightMetres >= rule.fromMetres ? rule : holds), first);
}

/** How a height stands to the clouds; `unknown top` when it may be above or in a cloud whose top nobody reported. */
export type CloudStanding = 'clear' | 'partly hidden' | 'hidden from below' | 'too near' | 'in cloud' | 'unknown top' | 'not checked';

/** Coverage from which a layer below the text hides it: broken (5 to 7) and overcast (8). */
const HIDING_OKTAS = 5;
/** Scattered, 3 to 4, hides parts of it. */
const PARTLY_HIDING_OKTAS = 3;

const CLOUD_ORDER: readonly CloudStanding[] = ['clear', 'partly hidden', 'hidden from below', 'unknown top', 'too near', 'in cloud'];

/** The worst of what the clouds do to a height; null clouds are not checked, an empty list is a clear sky. */
export function cloudStanding(heightMetres: number, clouds: readonly CloudLayer[] | null, rules: RulesOfTheAir = US_RULES): CloudStanding {
  if (clouds === null) return 'not checked';
  return clouds
    .map((cloud) => standingToOne(heightMetres, cloud, cloudMinima(heightMetres, rules)))
    .reduce<CloudStanding>((worst, each) => (CLOUD_ORDER.indexOf(each) > CLOUD_ORDER.indexOf(worst) ? each : worst), 'clear');
}

function standingToOne(heightMetres: number, { baseMetres, topMetres, oktas }: CloudLayer, minima: CloudRule): CloudStanding {
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

/** What a set of rules asks for at a height above mean sea level, for so long at it. */
export function oxygenNeed(heightMetres: number, secondsAtHeight: number, { oxygen }: RulesOfTheAir = US_RULES): OxygenNeed {
  const above = (limitMetres: number | null): boolean => limitMetres !== null && heightMetres > limitMetres;
  if (above(oxygen.throughoutMetres)) return 'required throughout';
  if (above(oxygen.afterHalfHourMetres) && secondsAtHeight > HALF_AN_HOUR_SECONDS) return 'required';
  return above(oxygen.advisedMetres) ? 'advised' : 'none';
}
