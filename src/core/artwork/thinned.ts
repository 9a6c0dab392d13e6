import type { FilledGrid } from './filled-grid.ts';

type Cells = Pick<FilledGrid, 'columns' | 'rows' | 'cells'>;

/** Steps to the eight neighbours, anticlockwise from the right one, as indexes of a grid so many columns wide. */
export function neighbourSteps(columns: number): readonly number[] {
  return [1, columns + 1, columns, columns - 1, -1, -columns - 1, -columns, -columns + 1];
}

/** How often the neighbours change from empty to filled on the way round: 1 at an end, 2 on a line, more where lines meet. */
export function linesMeeting(cells: Uint8Array, at: number, steps: readonly number[]): number {
  let count = 0;
  steps.forEach((step, index) => {
    if (cells[at + step] === 0 && cells[at + (steps[(index + 1) % 8] ?? 0)] === 1) count += 1;
  });
  return count;
}

/**
 * Lines one cell wide in the middle of a filled shape, connected as it is: the thinning of Zhang and Suen (A fast parallel
 * algorithm for thinning digital patterns, Communications of the ACM 27, 1984, from memory), with the lower bound of Lü and Wang (A comment on it,
 * Communications of the ACM 29, 1986, from memory), without which slanted lines two cells wide vanish; then every cell taken out that
 * only makes a step of a slanted line twice as wide.
 */
export function thinned({ columns, rows, cells }: Cells): Uint8Array {
  const left = cells.slice();
  const steps = neighbourSteps(columns);
  const [right = 0, , up = 0, , west = 0, , down = 0] = steps;
  let inside = Array.from({ length: columns * rows }, (_, at) => at).filter((at) => left[at] === 1);
  for (let taken = 1; taken > 0;) {
    taken = 0;
    for (const pass of [0, 1]) {
      const gone = inside.filter((at) => {
        const filled = steps.reduce((sum, step) => sum + (left[at + step] ?? 0), 0);
        if (filled < 3 || filled > 6 || linesMeeting(left, at, steps) !== 1) return false;
        const [r, u, l, d] = [left[at + right], left[at + up], left[at + west], left[at + down]];
        return pass === 0 ? !(u && r && d) && !(r && d && l) : !(u && r && l) && !(u && d && l);
      });
      for (const at of gone) left[at] = 0;
      taken += gone.length;
      inside = inside.filter((at) => left[at] === 1);
    }
  }
  // A cell on whose two sides at a right angle the line goes on, and on no other, is a doubled step.
  for (const at of inside) {
    const corner = steps.findIndex((step, index) => index % 2 === 0 && left[at + step] === 1 && left[at + (steps[(index + 2) % 8] ?? 0)] === 1);
    if (corner === -1) continue;
    const opposite = [4, 5, 6].some((turn) => left[at + (steps[(corner + turn) % 8] ?? 0)] === 1);
    if (!opposite && linesMeeting(left, at, steps) <= 2) left[at] = 0;
  }
  return left;
}

/** How far it is from each filled cell to the nearest empty one, in cells: the chamfer of 3 and 4 (Borgefors, 1986, from memory), within 8 %. */
export function depths({ columns, rows, cells }: Cells): Float64Array {
  const far = Float64Array.from(cells, (cell) => (cell === 0 ? 0 : Infinity));
  const steps = neighbourSteps(columns);
  const lower = (at: number, indexes: readonly number[]): void => {
    for (const index of indexes) far[at] = Math.min(far[at] ?? 0, (far[at + (steps[index] ?? 0)] ?? 0) + (index % 2 === 0 ? 1 : 4 / 3));
  };
  for (let at = columns + 1; at < columns * (rows - 1) - 1; at++) if (cells[at] === 1) lower(at, [4, 5, 6, 7]);
  for (let at = columns * (rows - 1) - 2; at > columns; at--) if (cells[at] === 1) lower(at, [0, 1, 2, 3]);
  return far;
}
