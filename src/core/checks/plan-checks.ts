import { radiansFromDegrees } from '../units/angle.ts';
import { metresFromNauticalMiles } from '../units/quantity.ts';
import type { Check, CheckStatus } from './check.ts';
import { distance, words } from './check-values.ts';
import type { GoFacts } from './go-facts.ts';
import { US_RULES } from '../place/rules-of-the-air.ts';
import type { ReadingWindow } from '../sky/reading-window.ts';

const AREA_MARGIN_METRES = metresFromNauticalMiles(1);
const STEEPEST_BANK_RADIANS = radiansFromDegrees(60);

/** Ships apart, bank, whether it reads, no-go areas and headings: what follows from the plan and its place. */
export function planChecks({
  separation,
  steepestBankRadians,
  window,
  readMilliseconds,
  firstSmokeMilliseconds,
  areas,
  variation,
  wind,
  rules = US_RULES,
}: GoFacts): Check[] {
  const readSeconds = (readMilliseconds - firstSmokeMilliseconds) / 1_000;
  const checks: Check[] = [];
  if (separation !== null) {
    checks.push({
      id: 'separation',
      title: 'Ships apart',
      status: separation.leastMetres < separation.wantedMetres ? 'stop' : 'ok',
      value: distance(separation.leastMetres),
      limit: distance(separation.wantedMetres),
      limitIs: 'least',
      source: `the job; ${rules.formationSource}`,
      advice: 'As planned, with the slips the plan allows for. In the air the eyes keep ships apart.',
    });
  }
  checks.push({
    id: 'bank',
    title: 'Steepest bank',
    status: steepestBankRadians > STEEPEST_BANK_RADIANS ? 'caution' : 'ok',
    value: { kind: 'angle', radians: steepestBankRadians },
    limit: { kind: 'angle', radians: STEEPEST_BANK_RADIANS },
    limitIs: 'most',
    source: '14 CFR 91.307(c)',
    advice: 'Beyond 60 degrees parachutes are required with anyone else aboard; the stall speed is up by 41 % at 60.',
  });
  const readable = window === null ? null : readableAt(readSeconds, window);
  checks.push({
    id: 'reading',
    title: 'Reads at the read time',
    // In still air nothing drifts too far, so a good answer is no answer.
    status: readable === null ? 'not-checked' : wind?.ok === false && readable.status === 'ok' ? 'caution' : readable.status,
    value: { kind: 'duration', seconds: readSeconds },
    limit: window === null ? null : { kind: 'duration', seconds: window.until.likelySeconds },
    limitIs: 'most',
    source: 'reckoned from spread, contrast, spacing and size; a range, not a promise',
    advice:
      readable === null
        ? 'No reading window was worked out.'
        : `${readable.advice}${wind?.ok === false ? ' Reckoned in still air: the wind at the layer is not known.' : ''}`,
  });
  const nearest = areas?.[0];
  checks.push({
    id: 'areas',
    title: 'No-go areas',
    status:
      areas === null ? 'not-checked' : nearest === undefined ? 'ok' : nearest.inside ? 'stop' : nearest.distanceMetres < AREA_MARGIN_METRES ? 'caution' : 'ok',
    value: nearest === undefined ? null : distance(nearest.distanceMetres),
    limit: distance(AREA_MARGIN_METRES),
    limitIs: 'least',
    source: 'the overlay loaded by the user',
    advice:
      areas === null
        ? 'No overlay was loaded.'
        : nearest === undefined
          ? "None of the overlay's areas is near."
          : `Nearest: ${nearest.area.name || 'an area without a name'}${nearest.area.heightsSaid === '' ? '' : `, ${nearest.area.heightsSaid}`}.`,
  });
  const compass = variation?.ok ? variation.compass : null;
  checks.push({
    id: 'variation',
    title: 'Magnetic headings',
    status: variation === null ? 'not-checked' : compass === 'good' ? 'ok' : 'caution',
    value: variation?.ok ? { kind: 'angle', radians: radiansFromDegrees(variation.variationDegrees) } : variation === null ? null : words(variation.reason),
    limit: null,
    limitIs: null,
    source: variation?.byHandOf == null ? 'World Magnetic Model 2025' : `entered by hand, of ${variation.byHandOf.slice(0, 10)}`,
    advice:
      compass === null
        ? 'Without variation headings are true.'
        : compass === 'good'
          ? 'Applied to every heading shown.'
          : 'So near the magnetic pole a compass is not to be relied on; fly true headings.',
  });
  return checks;
}

function readableAt(readSeconds: number, window: ReadingWindow): { readonly status: CheckStatus; readonly advice: string } {
  const first = window.first === null ? '' : ` ${window.first.character} goes first: ${window.first.endedBy}.`;
  // The last stroke ends at the read time, to the plan's rounding.
  if (readSeconds < window.fromSeconds - 0.5) return { status: 'stop', advice: 'The text is not finished at the read time; begin earlier or write less.' };
  if (readSeconds > window.until.highSeconds) return { status: 'stop', advice: `It is gone by the read time in every case.${first}` };
  if (readSeconds > window.until.lowSeconds) return { status: 'caution', advice: `In air that mixes more it is gone by the read time.${first}` };
  return { status: 'ok', advice: `It reads at the read time in all three cases.${first}` };
}
