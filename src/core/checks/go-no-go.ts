import { bookingChecks } from './booking-checks.ts';
import type { Check, CheckStatus } from './check.ts';
import type { GoFacts } from './go-facts.ts';
import { planChecks } from './plan-checks.ts';
import { shipChecks } from './ship-checks.ts';
import { type RulesOfTheAir, US_RULES } from '../place/rules-of-the-air.ts';
import { STANDING_CAUTIONS } from './standing-cautions.ts';
import { weatherChecks } from './weather-checks.ts';

export interface GoNoGo {
  readonly checks: readonly Check[];
  /** Worst of what was checked. Never "safe": see the ones that were not. */
  readonly worst: 'ok' | 'caution' | 'stop';
  readonly notChecked: number;
  /** Whose limits these are. */
  readonly rules: RulesOfTheAir;
}

/** Every check, in the order in which a pilot would ask, then what nobody can check from here. */
export function goNoGo(facts: GoFacts): GoNoGo {
  const checks = [...weatherChecks(facts), ...shipChecks(facts), ...planChecks(facts), ...bookingChecks(facts), ...STANDING_CAUTIONS];
  const has = (status: CheckStatus): boolean => checks.some((check) => check.status === status);
  return {
    checks,
    worst: has('stop') ? 'stop' : has('caution') ? 'caution' : 'ok',
    rules: facts.rules ?? US_RULES,
    notChecked: checks.filter((check) => check.status === 'not-checked').length,
  };
}
