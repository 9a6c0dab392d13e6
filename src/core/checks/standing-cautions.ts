import type { Check } from './check.ts';

/**
 * What no program can check, said each time: numbers from the rules of the air of the United States as the example;
 * local rules and licensed practice decide.
 */
export const STANDING_CAUTIONS: readonly Check[] = [
  caution(
    'waiver',
    'Waiver and authority',
    '14 CFR 91.303; AIM 4-1-22 (Form 7711-2)',
    'Ask whether the flight needs a waiver or a local permit, and carry it. A waiver lifts no state or local law.',
  ),
  caution('controller', 'Controller', 'AIM 4-1-22', 'Agree area, heights and times with the controller before take-off, and how to call the writing off.'),
  caution(
    'traffic',
    'Traffic',
    '14 CFR 91.113; 91.215 and 91.225 from memory',
    'See and avoid: writing draws eyes to the sky and heads into the cockpit. At and above 10,000 ft a transponder and ADS-B are usually required.',
  ),
  caution('formation', 'Formation', '14 CFR 91.111', 'Formation only by arrangement with every pilot in command, and never with passengers for hire.'),
  caution('people', 'People below', '14 CFR 91.119', 'Keep 1,000 ft above the highest obstacle within 2,000 ft of any gathering on climb and return as well.'),
  caution(
    'aerobatics',
    'Aerobatic limits',
    '14 CFR 91.303, 91.307(c)',
    'Aerobatic rules apply to any abrupt manoeuvre: not over people, not below 1,500 ft, visibility 3 miles; parachutes beyond 60 degrees of bank with others aboard.',
  ),
  caution(
    'smoke-oil',
    'Smoke oil and fire',
    'common practice, no source',
    'Handle, fill and vent the smoke oil as its sheet says; know where it can reach hot metal, and what to do if it burns.',
  ),
  caution(
    'disorientation',
    'In and near the smoke',
    'common practice, no source',
    'Smoke hides the horizon and other ships. Stay out of it; on instruments or away if the horizon goes.',
  ),
  caution(
    'crew',
    'Crew and aircraft',
    'common practice, no source',
    "Fitness, recency, weight and the aircraft's own limits with a full smoke tank are yours to judge.",
  ),
];

function caution(id: string, title: string, source: string, advice: string): Check {
  return { id, title, status: 'not-checked', value: null, limit: null, limitIs: null, source, advice };
}
