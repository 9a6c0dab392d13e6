import type { ArtworkOutline } from './artwork-outline.ts';

/** A filled shape as square cells; row 0 is the lowest. The outermost cells are always empty. */
export interface FilledGrid {
  readonly columns: number;
  readonly rows: number;
  /** 1 where the middle of the cell is inside, row by row. */
  readonly cells: Uint8Array;
  /** The middle of cell (0, 0), and a cell's side, in the outlines' unit. */
  readonly originX: number;
  readonly originY: number;
  readonly cellSide: number;
}

/** Cells along a shape's longer side: a line a fortieth of it wide is five cells wide. */
const CELLS = 200;

/** The inside of outlines by the nonzero rule (SVG 2 section 13.4.1), open ones closed; null when they have no extent. */
export function filledGrid(outlines: readonly ArtworkOutline[]): FilledGrid | null {
  const rings = outlines.map(({ pieces }) => pieces.flatMap(({ xs, ys }) => xs.map((x, index) => ({ x, y: ys[index] ?? 0 }))));
  const points = rings.flat();
  const [minX, maxX] = extent(points.map(({ x }) => x));
  const [minY, maxY] = extent(points.map(({ y }) => y));
  const cellSide = Math.max(maxX - minX, maxY - minY) / CELLS;
  if (!(cellSide > 0 && Number.isFinite(cellSide))) return null;
  const columns = Math.ceil((maxX - minX) / cellSide) + 3;
  const rows = Math.ceil((maxY - minY) / cellSide) + 3;
  const originX = minX - cellSide;
  const originY = minY - cellSide;
  const cells = new Uint8Array(columns * rows);
  for (let row = 1; row < rows - 1; row++) {
    const y = originY + row * cellSide;
    const crossings = rings.flatMap((ring) => crossingsAt(ring, y)).sort((one, other) => one.x - other.x);
    let winding = 0;
    crossings.forEach(({ x, turn }, index) => {
      winding += turn;
      const next = crossings[index + 1];
      if (winding === 0 || next === undefined) return;
      const from = Math.max(1, Math.ceil((x - originX) / cellSide));
      const to = Math.min(columns - 2, Math.floor((next.x - originX) / cellSide));
      for (let column = from; column <= to; column++) cells[row * columns + column] = 1;
    });
  }
  return { columns, rows, cells, originX, originY, cellSide };
}

/** Where a ring crosses a level line, and whether upwards (1) or downwards (-1). */
function crossingsAt(ring: readonly { readonly x: number; readonly y: number }[], y: number): { readonly x: number; readonly turn: number }[] {
  return ring.flatMap((from, index) => {
    const to = ring[(index + 1) % ring.length] ?? from;
    if (from.y <= y === to.y <= y) return [];
    return [{ x: from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y), turn: to.y > from.y ? 1 : -1 }];
  });
}

function extent(values: readonly number[]): readonly [least: number, most: number] {
  return values.reduce(([least, most], value) => [Math.min(least, value), Math.max(most, value)] as const, [Infinity, -Infinity] as const);
}
