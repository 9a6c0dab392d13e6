import type { VNode } from 'preact';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';
import { highWords } from '../words/high-words.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';

export interface LookDrawingProps {
  readonly azimuthRadians: number;
  readonly elevationRadians: number;
  readonly text: string;
}

const WIDTH = 320;
const HEIGHT = 190;
const GROUND = 164;
const EYE = { x: 58, y: GROUND - 42 };
const SIGHT = 168;

/** A person looking up at the text, and beside them the same from above with north at the top. */
export function LookDrawing({ azimuthRadians, elevationRadians, text }: LookDrawingProps): VNode {
  const shown = Math.max(0, elevationRadians);
  const at = (radians: number, length: number): string =>
    `${(EYE.x + length * Math.cos(radians)).toFixed(1)} ${(EYE.y - length * Math.sin(radians)).toFixed(1)}`;
  const arc = `M${at(0, 62)}A62 62 0 0 0 ${at(shown, 62)}`;
  const fists = Array.from({ length: Math.floor(degreesFromRadians(shown) / 10) }, (_, index) => ((index + 1) * 10 * Math.PI) / 180);
  const word = { x: Math.min(WIDTH - 70, EYE.x + SIGHT * Math.cos(shown)), y: Math.max(26, EYE.y - SIGHT * Math.sin(shown)) };
  const top = { x: WIDTH - 44, y: GROUND - 34 };
  const [east, north] = [Math.sin(azimuthRadians), Math.cos(azimuthRadians)];
  return (
    <svg
      class="look-drawing"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`Look ${formatBearing(degreesFromRadians(azimuthRadians))} degrees true, ${highWords(elevationRadians)}`}
    >
      <path class="look-ground" d={`M6 ${GROUND}C60 ${GROUND - 3} 120 ${GROUND + 3} 214 ${GROUND}`} />
      <path class="look-level" d={`M${EYE.x} ${EYE.y}H${EYE.x + 120}`} />
      <path class="look-arc" d={arc} />
      {fists.map((radians) => (
        <path key={radians} class="look-tick" d={`M${at(radians, 57)}L${at(radians, 67)}`} />
      ))}
      <path class="look-sight" d={`M${at(shown, 12)}L${at(shown, SIGHT - 34)}`} />
      <g class="look-person">
        <circle cx={EYE.x - 4} cy={EYE.y + 1} r="8" />
        <path
          d={`M${EYE.x - 6} ${EYE.y + 10}L${EYE.x - 8} ${GROUND - 14}L${EYE.x - 14} ${GROUND}M${EYE.x - 8} ${GROUND - 14}L${EYE.x - 1} ${GROUND}M${EYE.x - 7} ${EYE.y + 15}L${at(shown, 16)}`}
        />
      </g>
      <text class="look-word" x={word.x} y={word.y} text-anchor="middle">
        {[...text.replace(/\s+/g, ' ')].slice(0, 8).join('')}
        {[...text].length > 8 ? '\u2026' : ''}
      </text>
      <text class="look-degrees" x={EYE.x + 74} y={EYE.y - 10}>
        {elevationRadians < 0 ? highWords(elevationRadians) : `${formatNumber(degreesFromRadians(elevationRadians))}°`}
      </text>
      <g class="look-above">
        <path class="look-north" d={`M${top.x} ${top.y + 26}V${top.y - 26}M${top.x - 4} ${top.y - 20}L${top.x} ${top.y - 27}L${top.x + 4} ${top.y - 20}`} />
        <text class="look-degrees" x={top.x} y={top.y - 33} text-anchor="middle">
          N
        </text>
        <path class="look-sight" d={`M${top.x} ${top.y}L${(top.x + 34 * east).toFixed(1)} ${(top.y - 34 * north).toFixed(1)}`} />
        <circle class="look-here" cx={top.x} cy={top.y} r="4.5" />
        <text class="look-degrees" x={top.x} y={GROUND + 18} text-anchor="middle">
          {formatBearing(degreesFromRadians(azimuthRadians))}
          {'\u00b0'}
        </text>
      </g>
    </svg>
  );
}
