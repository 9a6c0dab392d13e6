import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { bestFacing, type FacingCell, windAxisFacings } from '../../../core/place/facing-choice.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { formatDuration } from '../../../core/text/number-formats.ts';
import { useElementWidth } from '../../drawing/use-element-width.ts';
import { utcText } from '../../words/zoned-time.ts';
import { DayCellText } from './DayCellText.tsx';
import { dayAxes } from '../../../core/checks/day-grid.ts';
import { DayPicture } from './DayPicture.tsx';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import { useDesk } from '../desk-context.ts';
import type { Reading } from '../../../core/sky/reading-of.ts';
import { useDayCells } from '../use-day-cells.ts';

/** The whole day at once: which hour and which facing keep the sun out of the crowd's eyes and the pilot's. */
export function DayView(): VNode | null {
  const { settled, sky } = useDesk();
  const [now, its] = [settled.value, sky.value];
  return now === null || its === null ? null : <Day planned={now} sky={its} />;
}

const NARROW_PIXELS = 520;
const BEST_SHOWN = 5;

function Day({ planned, sky }: { readonly planned: PlannedJob; readonly sky: Reading }): VNode {
  const { editor } = useDesk();
  const { job, air } = planned;
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const stepMinutes = widthPixels < NARROW_PIXELS ? 60 : 30;
  const axes = useMemo(() => dayAxes(job, stepMinutes), [job.site, job.readTime.slice(0, 10), stepMinutes]);
  const rows = useDayCells(planned, sky, axes);
  const pointed = useSignal<FacingCell | null>(null);
  const cells = rows.flatMap((row) => row ?? []);
  const done = rows.length > 0 && rows.every((row) => row !== null);
  const best = done ? bestCells(cells) : [];
  const take = ({ facingRadians, readMilliseconds }: FacingCell): void =>
    editor.edit('hour and facing', (before) => ({
      ...before,
      facingDegreesTrue: Math.round(degreesFromRadians(facingRadians)) % 360,
      readTime: utcText(readMilliseconds),
    }));
  return (
    <div class="day-view" ref={element}>
      <p class="small">
        Blue: the crowd looks away from the sun, the deeper the farther. Hatched: into it. Dots: the pilot flies strokes into a low sun. Dark: no light. Dashed
        lines: facings that write along the wind. Touch a cell to take its hour and facing. Writing takes {formatDuration(planned.readSeconds)} before each hour
        shown{typeof job.site.crowdFacingDegreesTrue === 'number' ? '; dotted line: as the crowd faces of itself' : ''}.
      </p>
      {widthPixels > 0 && (
        <DayPicture
          axes={axes}
          rows={rows}
          timeZone={job.site.timeZone}
          widthPixels={widthPixels}
          now={{ readMilliseconds: Date.parse(job.readTime), facingDegrees: job.facingDegreesTrue }}
          best={best[0] ?? null}
          windFacingsDegrees={air.directionKnown ? windAxisFacings(air.wind).map(degreesFromRadians) : []}
          crowdFacingDegrees={job.site.crowdFacingDegreesTrue ?? null}
          onTake={take}
          onPoint={(cell) => (pointed.value = cell)}
        />
      )}
      <p class="day-pointed small" role="status">
        {done ? pointed.value === null ? ' ' : <DayCellText cell={pointed.value} timeZone={job.site.timeZone} /> : 'Working out the day'}
      </p>
      {best.length > 0 && (
        <ol class="day-best-cells">
          {best.map((cell) => (
            <li key={`${cell.readMilliseconds}/${cell.facingRadians}`}>
              <button type="button" onClick={() => take(cell)}>
                <DayCellText cell={cell} timeZone={job.site.timeZone} />
              </button>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}

/** The best cell, then the best of what lies well apart from those before: an hour and a half or 45 degrees. */
function bestCells(cells: readonly FacingCell[]): FacingCell[] {
  const chosen: FacingCell[] = [];
  let left = cells.filter(({ dark, sunTooNear }) => !dark && !sunTooNear);
  if (left.length === 0) left = [...cells];
  while (chosen.length < BEST_SHOWN) {
    const next = bestFacing(left);
    if (next === null) break;
    chosen.push(next);
    left = left.filter(
      (cell) =>
        Math.abs(cell.readMilliseconds - next.readMilliseconds) >= 90 * 60_000 ||
        Math.abs(Math.cos((cell.facingRadians - next.facingRadians) / 2)) < Math.cos(Math.PI / 8),
    );
  }
  return chosen;
}
