import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import { US_RULES } from '../../../core/place/rules-of-the-air.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';

/**
 * What to mind before this flight. Numbers from the rules of the air of the United States as the example: visibility
 * and cloud distance 14 CFR 91.155, oxygen 91.211 and AIM 8-1-2; local rules and licensed practice decide.
 */
export function FlightCautions({ preflight: { job, checks } }: { readonly preflight: Preflight }): VNode {
  const { altitudeFeet } = job.layer;
  const rules = checks.value?.rules ?? US_RULES;
  return (
    <section class="notice write-ground-cautions" aria-labelledby="write-cautions-title">
      <h2 id="write-cautions-title">Before you fly</h2>
      <ul>
        <li>The cues advise. Eyes outside first: not for navigation, not for keeping clear of others.</li>
        <li>Waiver, airspace and controller are the pilot’s to arrange; nothing of them was checked here.</li>
        {rules.id === US_RULES.id ? (
          <>
            {altitudeFeet >= 10_000 && (
              <li>At and above 10,000 ft: 5 statute miles of visibility, 1,000 ft above and below cloud, 1 statute mile beside it.</li>
            )}
            <li>{oxygenWords(altitudeFeet)}</li>
          </>
        ) : (
          <li>Visibility, distance from cloud and oxygen by your rules: {rules.name}.</li>
        )}
        {job.ships.length > 1 && <li>Formation only by arrangement between all pilots, briefed on the ground.</li>}
        <li>Smoke hides traffic and the horizon: never turn into your own trail. If in doubt: “{job.knockItOffWords}”.</li>
        <li>Another aircraft may come out of the smoke. On NO CUE: smoke off, wings level, eyes outside.</li>
      </ul>
    </section>
  );
}

function oxygenWords(altitudeFeet: number): string {
  const height = `${formatNumber(altitudeFeet)} ft`;
  if (altitudeFeet > 14_000) return `${height}: the crew breathes oxygen all the time.`;
  if (altitudeFeet > 12_500) return `${height}: the crew breathes oxygen after 30 minutes.`;
  if (altitudeFeet >= 10_000) return `${height}: oxygen is advised above 10,000 ft.`;
  return `${height}: below the heights for oxygen by rule; at night it is advised above 5,000 ft.`;
}
