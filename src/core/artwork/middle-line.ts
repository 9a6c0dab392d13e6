import { outlinesFromPathData } from './artwork-outline.ts';
import { type FilledGrid, filledGrid } from './filled-grid.ts';
import { type CellLine, thinLines } from './thin-lines.ts';
import { depths, thinned } from './thinned.ts';

/** A shape is a line when it is nowhere wider than this share of its own longer side and of its lines' length. */
const WIDEST_SHARE = 0.3;
/** Cells between the points that a line is drawn through. */
const POINT_CELLS = 5;
/** Points from its end over which the direction of a line is taken. */
const LED_POINTS = 3;
/** Rounds in which the steps of the cells are smoothed. */
const SMOOTHINGS = 6;

interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * The middle line of a filled shape that is drawn like a thick line: a letter of a logo, a brush stroke, an arrow's shaft.
 * Ends reach as far as the shape does; where lines cross, each is led straight on.
 *
 * A bar of 100 by 10 becomes one line of 100. A disc, a heart or a star has no middle line that would tell what it is, and
 * keeps its edge.
 *
 * @param pathData closed subpaths (SVG 2 section 9.3), filled by the nonzero rule
 * @returns path data of open and closed curves; null where the shape is no line
 */
export function middleLine(pathData: string): string | null {
  const read = outlinesFromPathData(pathData);
  const grid = read.ok ? filledGrid(read.outlines) : null;
  if (grid === null) return null;
  const far = depths(grid);
  const widest = 2 * far.reduce((most, each) => Math.max(most, each), 0);
  if (widest > WIDEST_SHARE * Math.max(grid.columns, grid.rows)) return null;
  const lines = thinLines(thinned(grid), grid.columns, far).filter(({ cells }) => cells.length > 1);
  const length = lines.reduce((sum, { cells }) => sum + cells.length, 0);
  if (widest > WIDEST_SHARE * length) return null;
  return lines.map((line) => curve(smoothed(line, grid, far), line.ring)).join('');
}

/** Points along a line, freed of the steps of the cells; a free end is led straight on to the shape's own end. */
function smoothed({ cells, ring, freeStart, freeEnd }: CellLine, grid: FilledGrid, far: Float64Array): Point[] {
  const { columns, originX, originY, cellSide } = grid;
  // Near its end the line in the middle runs into a corner.
  const cornerCells = (end: readonly number[]): number => Math.min(Math.floor(cells.length / 3), Math.ceil(2 * Math.max(...end.map((cell) => far[cell] ?? 0))));
  const from = freeStart ? cornerCells(cells.slice(0, POINT_CELLS * 4)) : 0;
  const to = cells.length - (freeEnd ? cornerCells(cells.slice(-POINT_CELLS * 4)) : 0);
  let points = cells.slice(from, to).map((cell): Point => ({ x: cell % columns, y: Math.floor(cell / columns) }));
  for (let round = 0; round < SMOOTHINGS; round++) {
    points = points.map((point, index) => {
      const before = points[index - 1] ?? (ring ? points.at(-1) : undefined);
      const after = points[index + 1] ?? (ring ? points[0] : undefined);
      if (before === undefined || after === undefined) return point;
      return { x: (before.x + 2 * point.x + after.x) / 4, y: (before.y + 2 * point.y + after.y) / 4 };
    });
  }
  const count = Math.max(ring ? 8 : 2, Math.round(points.length / POINT_CELLS));
  const drawn = Array.from({ length: count }, (_, index): Point => {
    const at = ring ? Math.floor((index * points.length) / count) : Math.round((index * (points.length - 1)) / (count - 1));
    return points[at] ?? { x: 0, y: 0 };
  });
  const whole = [
    ...(freeStart ? [ledOn(drawn[0], drawn[LED_POINTS] ?? drawn.at(-1), grid)] : []),
    ...drawn,
    ...(freeEnd ? [ledOn(drawn.at(-1), drawn.at(-1 - LED_POINTS) ?? drawn[0], grid)] : []),
  ];
  return whole.map(({ x, y }) => ({ x: originX + x * cellSide, y: originY + y * cellSide }));
}

/** From an end straight on, as the line came there, to where the shape ends. */
function ledOn(end: Point = { x: 0, y: 0 }, inner: Point = end, { columns, rows, cells }: FilledGrid): Point {
  const apart = Math.hypot(end.x - inner.x, end.y - inner.y);
  if (apart === 0) return end;
  const [stepX, stepY] = [(end.x - inner.x) / apart, (end.y - inner.y) / apart];
  let beyond = 0;
  const isInside = (): boolean => {
    const [x, y] = [Math.round(end.x + stepX * (beyond + 1)), Math.round(end.y + stepY * (beyond + 1))];
    return x > 0 && y > 0 && x < columns && y < rows && cells[y * columns + x] === 1;
  };
  while (isInside()) beyond += 1;
  return { x: end.x + stepX * (beyond + 0.5), y: end.y + stepY * (beyond + 0.5) };
}

/** A smooth curve through points (Catmull and Rom, 1974, as cubic Béziers), y down as in path data. */
function curve(points: readonly Point[], ring: boolean): string {
  const at = (index: number): Point => (ring ? points.at(index % points.length) : points[Math.min(Math.max(index, 0), points.length - 1)]) ?? { x: 0, y: 0 };
  const told = ({ x, y }: Point): string => `${x.toPrecision(8)} ${(-y).toPrecision(8)}`;
  const pieces = Array.from({ length: ring ? points.length : points.length - 1 }, (_, index) => {
    const [before, from, to, after] = [at(index - 1), at(index), at(index + 1), at(index + 2)];
    const leave = { x: from.x + (to.x - before.x) / 6, y: from.y + (to.y - before.y) / 6 };
    const arrive = { x: to.x - (after.x - from.x) / 6, y: to.y - (after.y - from.y) / 6 };
    return `C${told(leave)} ${told(arrive)} ${told(to)}`;
  });
  return `M${told(at(0))}${pieces.join('')}${ring ? 'Z' : ''}`;
}
