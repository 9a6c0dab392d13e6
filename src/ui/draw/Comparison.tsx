import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { LetterPicture } from '../drawing/LetterPicture.tsx';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { planePathFromAir } from '../drawing/plane-path.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { useDesk } from './desk-context.ts';
import { jobDifferences } from '../../app/draw/job-differences.ts';
import { useUnitText } from '../fields/units-context.ts';

/** Keeps a plan as A while the desk goes on as B, and shows what differs. */
export function Comparison(): VNode | null {
  const { planned, keptPlan, editor } = useDesk();
  const units = useUnitText();
  const b = planned.value;
  const a = keptPlan.value;
  if (b === null) return null;
  if (a === null) {
    return (
      <section class="comparison">
        <button type="button" onClick={() => (keptPlan.value = b)}>
          Keep this plan as A, and compare
        </button>
      </section>
    );
  }
  const rows = [
    compared('First smoke to last', a, b, ({ plan }) => plan.durationSeconds, formatDuration),
    compared(
      `Way, ${units.distance.unit}`,
      a,
      b,
      ({ plan }) => plan.ships.reduce((sum, ship) => sum + units.distance.of(ship.distanceMetres), 0),
      (value) => formatNumber(value, 1),
    ),
    compared('Smoke on', a, b, ({ plan }) => plan.ships.reduce((sum, ship) => sum + ship.smokeSeconds, 0), formatDuration),
    compared(
      `Smoke oil, ${units.mass.unit}`,
      a,
      b,
      ({ plan }) => plan.ships.reduce((sum, ship) => sum + units.mass.of(ship.oilKilograms), 0),
      (value) => formatNumber(value),
    ),
    compared(
      'Switched on',
      a,
      b,
      ({ plan }) => plan.ships.reduce((sum, ship) => sum + ship.toggles, 0),
      (value) => formatNumber(value),
    ),
  ];
  return (
    <section class="comparison" aria-label="Two plans compared">
      <h2>A against B</h2>
      <div class="compared-pictures">
        <ComparedPicture name="A" of={a} />
        <ComparedPicture name="B" of={b} />
      </div>
      <div class="scrolls" role="region" tabIndex={0} aria-label="Numbers of both plans">
        <table class="figures">
          <thead>
            <tr>
              <td />
              <th scope="col" class="number">
                A
              </th>
              <th scope="col" class="number">
                B
              </th>
              <th scope="col" class="number">
                B less A
              </th>
            </tr>
          </thead>
          <tbody>{rows}</tbody>
        </table>
      </div>
      <ul class="differences small">
        {jobDifferences(a.job, b.job).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <div class="row">
        <button type="button" onClick={() => editor.edit('back to A', () => a.job)}>
          Go back to A
        </button>
        <button type="button" class="plain" onClick={() => (keptPlan.value = null)}>
          Stop comparing
        </button>
      </div>
    </section>
  );
}

function compared(label: string, a: PlannedJob, b: PlannedJob, of: (planned: PlannedJob) => number, write: (value: number) => string): VNode {
  const difference = of(b) - of(a);
  const percent = of(a) > 0 ? ` (${difference < 0 ? '\u2212' : '+'}${formatNumber((100 * Math.abs(difference)) / of(a), 0)} %)` : '';
  return (
    <tr key={label}>
      <th scope="row">{label}</th>
      <td class="number">{write(of(a))}</td>
      <td class="number">{write(of(b))}</td>
      <td class="number">{Math.abs(difference) < 1e-9 ? 'same' : `${difference > 0 ? '+' : ''}${write(difference)}${percent}`}</td>
    </tr>
  );
}

function ComparedPicture({ name, of: { plan } }: { readonly name: string; readonly of: PlannedJob }): VNode {
  const strokes = useMemo(
    () => plan.ships.flatMap(({ legs }) => legs.filter(({ kind }) => kind === 'smoke').map(({ path }) => planePathFromAir(path))),
    [plan],
  );
  return (
    <figure>
      <LetterPicture
        strokes={strokes}
        letterHeightMetres={plan.letterHeightMetres}
        facingRadians={plan.frame.facingRadians}
        shares={null}
        maximumHeightPixels={140}
        description={`Plan ${name}: ${plan.text}`}
      />
      <figcaption>{name}</figcaption>
    </figure>
  );
}
