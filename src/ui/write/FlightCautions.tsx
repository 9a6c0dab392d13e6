import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { formatNumber } from '../../core/text/number-formats.ts';

/**
 * What to mind before this flight. Numbers from the rules of the air of the United States as the example: visibility
 * and cloud distance 14 CFR 91.155, oxygen 91.211 and AIM 8-1-2; local rules and licensed practice decide.
 */
export function FlightCautions({ job }: { readonly job: Job }): VNode {
  const { altitudeFeet } = job.layer;
  return (
    <section class="notice write-ground-cautions" aria-labelledby="write-cautions-title">
      <h2 id="write-cautions-title">Before you fly</h2>
      <ul>
        <li>The cues advise. Eyes outside first: not for navigation, not for keeping clear of others.</li>
        <li>Waiver, airspace and controller are the pilot’s to arrange; nothing of them was checked here.</li>
        {altitudeFeet >= 10_000 && <li>At and above 10,000 ft: 5 statute miles of visibility, 1,000 ft above and below cloud, 1 mile beside it.</li>}
        <li>{oxygenWords(altitudeFeet)}</li>
        {job.ships.length > 1 && <li>Formation only by arrangement between all pilots, briefed on the ground.</li>}
        <li>Smoke hides traffic and the horizon: never turn into your own trail. If in doubt: “{job.knockItOffWords}”.</li>
        <li>Everybody else may be in the smoke too. When the screen says NO CUE, the smoke is yours.</li>
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
