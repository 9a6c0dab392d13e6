import type { VNode } from 'preact';
import type { FacingCell } from '../../../core/place/facing-choice.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { formatBearing } from '../../../core/text/number-formats.ts';
import { clockInRow, clockText } from '../../words/clock.ts';
import type { DayAxes } from '../../../core/checks/day-grid.ts';
import type { DayRows } from '../use-day-cells.ts';

export interface DayPictureProps {
  readonly axes: DayAxes;
  readonly rows: DayRows;
  readonly timeZone: string;
  readonly widthPixels: number;
  /** What the job is set to; may lie between cells. */
  readonly now: { readonly readMilliseconds: number; readonly facingDegrees: number };
  readonly best: FacingCell | null;
  /** Facings that write along the wind. */
  readonly windFacingsDegrees: readonly number[];
  /** Where the crowd faces of itself; null when it does not matter. */
  readonly crowdFacingDegrees: number | null;
  readonly onTake: (cell: FacingCell) => void;
  readonly onPoint: (cell: FacingCell | null) => void;
}

const LEFT_PIXELS = 44;
const TOP_PIXELS = 22;
const ROW_PIXELS = 19;
const NAMES: Readonly<Record<number, string>> = { 0: 'N', 90: 'E', 180: 'S', 270: 'W' };

/** The whole day, hour against facing: blue where the crowd looks away from the sun, hatched where into it, dotted where the pilot does. */
export function DayPicture({ axes, rows, timeZone, widthPixels, now, best, windFacingsDegrees, crowdFacingDegrees, onTake, onPoint }: DayPictureProps): VNode {
  const { readTimesMilliseconds: times, facingsDegrees: facings } = axes;
  const [first = 0, second = 1] = times;
  const cellPixels = (widthPixels - LEFT_PIXELS - 6) / times.length;
  const heightPixels = TOP_PIXELS + facings.length * ROW_PIXELS + 8;
  const x = (milliseconds: number): number => LEFT_PIXELS + ((milliseconds - first) / Math.max(1, second - first)) * cellPixels;
  const y = (degrees: number): number => TOP_PIXELS + (degrees / 360) * facings.length * ROW_PIXELS;
  const every = Math.max(1, Math.ceil(46 / cellPixels));
  return (
    <svg
      class="day-picture"
      width={widthPixels}
      height={heightPixels}
      viewBox={`0 0 ${widthPixels} ${heightPixels}`}
      role="img"
      aria-label="Hours of the day against facings; the table of the best cells below says the same in words"
      onPointerLeave={() => onPoint(null)}
    >
      <defs>
        <pattern id="into-sun" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="6" height="6" class="too-near" />
          <path d="M0 0V6" class="too-near-line" />
        </pattern>
      </defs>
      {times.map((time, index) =>
        index % every === 0 ? (
          <text key={time} class="day-hour" x={LEFT_PIXELS + (index + 0.5) * cellPixels} y={14}>
            {index === 0 ? clockText(time, timeZone) : clockInRow(time, timeZone).hours}
          </text>
        ) : null,
      )}
      {facings.map((degrees, row) => (
        <g key={degrees}>
          {degrees % 45 === 0 && (
            <text class="day-facing" x={LEFT_PIXELS - 8} y={TOP_PIXELS + (row + 0.5) * ROW_PIXELS} dy="0.35em">
              {NAMES[degrees] ?? formatBearing(degrees)}
            </text>
          )}
          {rows[row]?.map((cell, column) => (
            <g key={column} class="day-cell" onClick={() => onTake(cell)} onPointerEnter={() => onPoint(cell)}>
              <rect
                x={LEFT_PIXELS + column * cellPixels}
                y={TOP_PIXELS + row * ROW_PIXELS}
                width={cellPixels + 0.4}
                height={ROW_PIXELS + 0.4}
                {...cellLook(cell)}
              />
              {cell.glareShare > 0.02 && !cell.dark && (
                <circle
                  class="glare"
                  cx={LEFT_PIXELS + (column + 0.5) * cellPixels}
                  cy={TOP_PIXELS + (row + 0.5) * ROW_PIXELS}
                  r={Math.min(cellPixels / 2, 1.2 + 6 * cell.glareShare)}
                />
              )}
            </g>
          ))}
        </g>
      ))}
      {windFacingsDegrees.map((degrees) => (
        <path key={degrees} class="day-wind" d={`M${LEFT_PIXELS} ${y(degrees) + ROW_PIXELS / 2}H${widthPixels - 6}`} />
      ))}
      {crowdFacingDegrees !== null && <path class="day-crowd" d={`M${LEFT_PIXELS} ${y(crowdFacingDegrees) + ROW_PIXELS / 2}H${widthPixels - 6}`} />}
      {best !== null && (
        <rect
          class="day-best"
          x={x(best.readMilliseconds) + 1}
          y={y(Math.round(degreesFromRadians(best.facingRadians))) + 1}
          width={cellPixels - 2}
          height={ROW_PIXELS - 2}
        />
      )}
      <rect class="day-now" x={x(now.readMilliseconds)} y={y(now.facingDegrees)} width={cellPixels} height={ROW_PIXELS} />
    </svg>
  );
}

/** Pale at 25 degrees from the sun, the full colour from 90 on. */
function cellLook(cell: FacingCell): { readonly class: string; readonly 'fill-opacity'?: string } {
  if (cell.dark || cell.sunMarginRadians === null) return { class: 'dark' };
  if (cell.sunTooNear) return { class: 'into-sun' };
  const share = (degreesFromRadians(cell.sunMarginRadians) - 25) / 65;
  return { class: 'clear-of-sun', 'fill-opacity': Math.min(1, 0.12 + 0.88 * Math.max(0, share)).toFixed(2) };
}
