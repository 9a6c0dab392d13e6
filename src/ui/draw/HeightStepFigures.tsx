import type { VNode } from 'preact';
import { jobText } from '../../core/job/job-text.ts';
import { heightStepCost, READABLE_SHARE_OF_HEIGHT } from '../../core/plan/height-step.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatNumber } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { useUnitText } from '../fields/units-context.ts';

/** What writing at different heights does to the picture: parallax, and shear until the text is read. */
export function HeightStepFigures(): VNode | null {
  const { planned } = useDesk();
  const units = useUnitText();
  const now = planned.value;
  const stepped = now?.plan.ships.filter(({ heightStepMetres }) => heightStepMetres > 0) ?? [];
  if (now === null || stepped.length === 0) return null;
  const { plan, job, air } = now;
  return (
    <dl class="figure-rows">
      {stepped.map(({ shipIndex, heightStepMetres }) => {
        const cost = heightStepCost(
          heightStepMetres,
          air.shear ?? { eastPerSecond: 0, northPerSecond: 0 },
          jobText(job).viewElevationRadians,
          plan.durationSeconds,
          plan.letterHeightMetres,
        );
        const sum = `${formatNumber(100 * cost.shareOfHeight)} % of a letter's height`;
        return (
          <FigureRow
            key={shipIndex}
            label={`${job.ships[shipIndex]?.name ?? `Ship ${shipIndex + 1}`}, ${units.height.text(heightStepMetres)} higher`}
            name="height-step-share"
            value={cost.shareOfHeight.toFixed(3)}
            note={
              <>
                {units.height.text(cost.parallaxMetres)} by the slant of the view,{' '}
                {air.shear === null
                  ? 'the winds do not tell what shear adds'
                  : `${units.height.text(cost.shearMetres)} by the wind's change with height until it is read`}
                .{' '}
                {cost.reads ? (
                  'Words like this were still read.'
                ) : (
                  <strong class="lacks">Readers lost words over {formatNumber(100 * READABLE_SHARE_OF_HEIGHT)} %: take a smaller step.</strong>
                )}
              </>
            }
          >
            shifted by {sum}
          </FigureRow>
        );
      })}
    </dl>
  );
}
