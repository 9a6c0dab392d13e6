import type { JobPermission } from '../job/job.ts';
import type { Check } from './check.ts';
import { instant, NO_SOURCE, words } from './check-values.ts';
import type { GoFacts } from './go-facts.ts';

const STATUS: Readonly<Record<JobPermission['state'], Check['status']>> = { granted: 'ok', asked: 'caution', 'to-ask': 'caution', refused: 'stop' };
const ADVICE: Readonly<Record<JobPermission['state'], string>> = {
  granted: 'Carry it, and keep to its hours and heights.',
  asked: 'Not answered yet: ask again before the call.',
  'to-ask': 'Nobody has asked for it yet.',
  refused: 'It was refused: without it this is not flown.',
};

/** What was to be permitted and how far that has come, how the ships are loaded, and when go or no-go is called. */
export function bookingChecks({ permissions, loadings: ships, callMilliseconds, firstSmokeMilliseconds }: GoFacts): Check[] {
  const checks: Check[] = permissions.map(({ name, state, number, saidBy }, index) => ({
    id: `permission-${index}`,
    title: name === '' ? 'Permission, not named' : name,
    status: STATUS[state],
    value: words([PERMISSION_WORDS[state], number, saidBy].filter((part) => part !== '').join(', ')),
    limit: words('granted'),
    limitIs: 'wanted' as const,
    source: 'the booking',
    advice: ADVICE[state],
  }));
  for (const [index, { name, loadings }] of ships.entries()) {
    if (loadings === null) continue;
    const wrong = loadings.filter(({ status }) => status !== 'within');
    const [worst = loadings[0]] = wrong;
    checks.push({
      id: `balance-${index}`,
      title: `Weight and balance, ${name}`,
      status: wrong.length > 0 ? 'stop' : 'ok',
      value: worst === undefined ? null : words(`${Math.round(worst.pounds)} lb at ${worst.armInches.toFixed(1)} in, ${worst.tanks}: ${worst.status}`),
      limit: null,
      limitIs: null,
      source: 'the pilot\u2019s own figures; FAA-H-8083-1B, chapter 2',
      advice: 'Added up from what was entered. The aircraft\u2019s papers decide.',
    });
  }
  if (callMilliseconds !== null) {
    const late = callMilliseconds >= firstSmokeMilliseconds;
    checks.push({
      id: 'call-hour',
      title: 'Go or no-go is called',
      status: late ? 'caution' : 'ok',
      value: instant(callMilliseconds),
      limit: instant(firstSmokeMilliseconds),
      limitIs: 'most',
      source: NO_SOURCE,
      advice: late ? 'The call lies after the first smoke.' : 'Decided then, by the pilot, with the winds of that hour.',
    });
  }
  return checks;
}

/** A permission's state as it is said. */
export const PERMISSION_WORDS: Readonly<Record<JobPermission['state'], string>> = {
  'to-ask': 'to ask',
  asked: 'asked',
  granted: 'granted',
  refused: 'refused',
};
