import { useEffect, useMemo, useState } from 'preact/hooks';
import type { FacingCell } from '../../core/place/facing-choice.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { type DayAxes, dayRequest, dayRow } from '../../core/checks/day-grid.ts';
import type { Reading } from '../../core/sky/reading-of.ts';

/** Rows of cells by facing, as far as they are worked out; null while a row is still missing. */
export type DayRows = readonly (readonly FacingCell[] | null)[];

const REST_MILLISECONDS = 250;

/** Works a day's cells out one facing at a time, so that the page stays free; anew when what they depend on changes. */
export function useDayCells(planned: PlannedJob, sky: Reading, axes: DayAxes): DayRows {
  const request = useMemo(() => dayRequest(planned, sky), [planned, sky]);
  // The text's own facing does not matter to the picture, nor what only moves it.
  const key = JSON.stringify([{ ...request, strokes: planned.plan.durationSeconds }, axes]);
  const [rows, setRows] = useState<DayRows>([]);
  useEffect(() => {
    let row = 0;
    const found: (readonly FacingCell[] | null)[] = axes.facingsDegrees.map(() => null);
    let timer = setTimeout(function next() {
      const facing = axes.facingsDegrees[row];
      if (facing === undefined) return;
      found[row] = dayRow(request, facing, axes.readTimesMilliseconds);
      row += 1;
      setRows([...found]);
      timer = setTimeout(next);
    }, REST_MILLISECONDS);
    return () => clearTimeout(timer);
  }, [key]);
  return rows;
}
