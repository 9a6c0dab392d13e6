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

/** What was to be permitted and how far that has come, and when go or no-go is called. */
export function bookingChecks({ permissions, callMilliseconds, firstSmokeMilliseconds }: GoFacts): Check[] {
  const checks: Check[] = permissions.map(({ name, state, number, saidBy }, index) => ({
    id: `permission-${index}`,
    title: name === '' ? 'Permission, not named' : name,
    status: STATUS[state],
    value: words([PERMISSION_WORDS[state], number, saidBy].filter((part) => part !== '').join(', ')),
    limit: words('granted'),
    source: 'the booking',
    advice: ADVICE[state],
  }));
  if (callMilliseconds !== null) {
    const late = callMilliseconds >= firstSmokeMilliseconds;
    checks.push({
      id: 'call-hour',
      title: 'Go or no-go is called',
      status: late ? 'caution' : 'ok',
      value: instant(callMilliseconds),
      limit: instant(firstSmokeMilliseconds),
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
