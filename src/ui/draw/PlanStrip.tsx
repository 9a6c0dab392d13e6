import type { VNode } from 'preact';
import { planGap } from '../../core/plan/plan.ts';
import { poundsFromKilograms, statuteMilesFromMetres } from '../../core/units/quantity.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';

/** How the checks stand, as a key that shows them. */
function StripChecks(): VNode | null {
  const { checks, pane } = useDesk();
  if (checks.value === null) return null;
  const count = (status: string): number => checks.value?.checks.filter((check) => check.status === status).length ?? 0;
  const [stops, cautions] = [count('stop'), count('caution')];
  return (
    <button type="button" class={`strip-checks ${checks.value.worst}`} onClick={() => (pane.value = 'checks')}>
      {stops > 0 && <span class="strip-stop">{stops} against</span>}
      {cautions > 0 && (
        <span class="strip-caution">
          {cautions} {cautions === 1 ? 'caution' : 'cautions'}
        </span>
      )}
      <span>{checks.value.notChecked} not checked</span>
    </button>
  );
}

/** The plan in one line that stays in sight while its numbers are turned. */
export function PlanStrip(): VNode {
  const { planned, problem, busyFraction } = useDesk();
  const now = planned.value;
  const busy = busyFraction.value;
  const state = problem.value !== null ? 'No plan' : busy !== null ? 'Planning' : '';
  const parts =
    now === null
      ? []
      : [
          formatDuration(now.plan.durationSeconds),
          `${formatNumber(
            now.plan.ships.reduce((sum, ship) => sum + statuteMilesFromMetres(ship.distanceMetres), 0),
            1,
          )} mi`,
          ...now.plan.ships.map(
            (ship) => `${formatNumber(poundsFromKilograms(ship.oilKilograms))} of ${formatNumber(now.job.ships[ship.shipIndex]?.smokeOilPounds ?? 0)} lb`,
          ),
          planGap(now.plan) < 5e-5 ? 'proven best' : `within ${formatNumber(100 * planGap(now.plan), 1)} % of best`,
        ];
  return (
    <div class="plan-strip" data-state={state === '' ? 'planned' : state.toLowerCase()} aria-live="off">
      <strong class="strip-words">{now?.plan.text.replaceAll('\n', ' / ') ?? ''}</strong>
      {parts.map((part) => (
        <span key={part}>{part}</span>
      ))}
      <StripChecks />
      <span class="strip-state">{state}</span>
      <progress max={1} value={busy ?? 1} hidden={busy === null} aria-label="Planning" />
    </div>
  );
}
