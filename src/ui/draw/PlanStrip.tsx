import type { VNode } from 'preact';
import { FREE_ORDER } from '../../app/draw/other-plans.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { planGap } from '../../core/plan/plan.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { useUnitText } from '../fields/units-context.ts';

/** How the checks stand, as a key that shows them. */
function StripChecks(): VNode | null {
  const { checks, pane } = useDesk();
  if (checks.value === null) return null;
  const count = (status: string): number => checks.value?.checks.filter((check) => check.status === status).length ?? 0;
  const [stops, cautions] = [count('stop'), count('caution')];
  return (
    <button type="button" class={`strip-checks ${checks.value.worst}`} onClick={() => (pane.value = 'checks')}>
      {stops > 0 && <span class="strip-stop">{stops} no-go</span>}
      {cautions > 0 && (
        <span class="strip-caution">
          {cautions} {cautions === 1 ? 'caution' : 'cautions'}
        </span>
      )}
      <span>{checks.value.notChecked} not checked</span>
    </button>
  );
}

/** Less than this is not worth the words. */
const LEAST_SAVED_SHARE = 0.001;

/** How good the plan is: among what the options allow, where they keep from free order. */
function gapWords({ plan }: PlannedJob, limited: boolean): string {
  const among = limited ? ' for these options' : '';
  return planGap(plan) < 5e-5 ? `proven best${among}` : `within ${formatNumber(100 * planGap(plan), 1)} % of best${among}`;
}

/** What the options cost against strokes in any order, and the key that frees them. */
function FreeOrder({ moreShare }: { readonly moreShare: number }): VNode {
  const { editor } = useDesk();
  return (
    <button
      type="button"
      class="strip-free"
      onClick={() => editor.edit('free order', (job) => ({ ...job, options: { ...job.options, letterOrder: 'free', progress: 'free' } }))}
    >
      {`${formatNumber(100 * moreShare, 1)} % more than free order`}
    </button>
  );
}

/** The plan in one line that stays in sight while its numbers are turned. */
export function PlanStrip(): VNode {
  const { planned, problem, busyFraction, otherPlans, editor } = useDesk();
  const units = useUnitText();
  const now = planned.value;
  const busy = busyFraction.value;
  const free = otherPlans.value.get(FREE_ORDER) ?? null;
  const freer = now !== null && free !== null && free.plan.text === now.plan.text ? now.plan.durationSeconds / free.plan.durationSeconds - 1 : null;
  const state = problem.value !== null ? 'No plan' : busy !== null ? 'Planning' : '';
  const parts =
    now === null
      ? []
      : problem.value !== null
        ? ['pictures and figures are of the last plan']
        : [
            formatDuration(now.plan.durationSeconds),
            units.crowdDistance.text(
              now.plan.ships.reduce((sum, ship) => sum + ship.distanceMetres, 0),
              1,
            ),
            ...now.plan.ships.map((ship) => `${units.mass.number(ship.oilKilograms)} of ${units.mass.own(now.job.ships[ship.shipIndex]?.smokeOilPounds ?? 0)}`),
            gapWords(now, freer !== null),
          ];
  return (
    <div
      class="plan-strip"
      data-state={state === '' ? 'planned' : state.toLowerCase()}
      data-ships={editor.job.value.ships.length > 1 ? 'several' : 'one'}
      aria-live="off"
    >
      <strong class="strip-words">{now?.plan.text.replaceAll('\n', ' / ') ?? ''}</strong>
      {parts.map((part) => (
        <span key={part}>{part}</span>
      ))}
      {problem.value === null && freer !== null && freer > LEAST_SAVED_SHARE && <FreeOrder moreShare={freer} />}
      <StripChecks />
      <span class="strip-state">{state}</span>
      <progress max={1} value={busy ?? 1} hidden={busy === null} aria-label="Planning" />
    </div>
  );
}
