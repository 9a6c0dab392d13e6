/** A solution with the diagonal of the matrix's inverse: the variances when the matrix is an information matrix. */
export interface ChainSolution {
  readonly solution: Float64Array;
  readonly variances: Float64Array;
}

/** A chain matrix eliminated once, ready for several right sides: blocks of nine numbers one after another. */
interface Eliminated {
  readonly below: Float64Array;
  readonly count: number;
  readonly inverses: Float64Array;
  readonly couplings: Float64Array;
}

/** One number more that every block may lean on: its own diagonal, its row of the matrix, its right side. */
export interface Border {
  readonly corner: number;
  readonly row: Float64Array;
  readonly right: number;
}

/** As {@link ChainSolution}, with the border's own solution and variance. */
export interface BorderedSolution extends ChainSolution {
  readonly borderSolution: number;
  readonly borderVariance: number;
}

/** {@link solveChain3} with a border: one unknown coupled to all, taken out by its Schur complement. */
export function solveBorderedChain3(diagonal: Float64Array, below: Float64Array, right: Float64Array, count: number, border: Border): BorderedSolution {
  const eliminated = eliminate(diagonal, below, count);
  const alone = substituted(eliminated, right);
  const lean = substituted(eliminated, border.row);
  const dot = (values: Float64Array): number => border.row.reduce((sum, value, index) => sum + value * values[index]!, 0);
  const schur = border.corner - dot(lean);
  if (!(schur > 0)) throw new RangeError('the bordered chain matrix must be positive definite');
  const borderSolution = (border.right - dot(alone)) / schur;
  const chain = inverseDiagonal(eliminated);
  return {
    solution: alone.map((value, index) => value - lean[index]! * borderSolution),
    variances: chain.map((value, index) => value + (lean[index]! * lean[index]!) / schur),
    borderSolution,
    borderVariance: 1 / schur,
  };
}

function eliminate(diagonal: Float64Array, below: Float64Array, count: number): Eliminated {
  const inverses = new Float64Array(9 * count);
  const couplings = new Float64Array(9 * count);
  const block = diagonal.slice(9 * (count - 1), 9 * count);
  for (let node = count - 1; node >= 0; node -= 1) {
    const at = 9 * node;
    invert3(block, inverses, at);
    if (node === 0) break;
    // left' * inverse couples this block to the one before it.
    for (let row = 0; row < 3; row += 1) {
      for (let column = 0; column < 3; column += 1) {
        couplings[at + 3 * row + column] =
          below[at + row]! * inverses[at + column]! + below[at + 3 + row]! * inverses[at + 3 + column]! + below[at + 6 + row]! * inverses[at + 6 + column]!;
      }
    }
    for (let row = 0; row < 3; row += 1) {
      for (let column = 0; column < 3; column += 1) {
        const taken =
          couplings[at + 3 * row]! * below[at + column]! +
          couplings[at + 3 * row + 1]! * below[at + 3 + column]! +
          couplings[at + 3 * row + 2]! * below[at + 6 + column]!;
        block[3 * row + column] = diagonal[at - 9 + 3 * row + column]! - taken;
      }
    }
  }
  return { below, count, inverses, couplings };
}

function substituted({ below, count, inverses, couplings }: Eliminated, right: Float64Array): Float64Array {
  const reduced = right.slice();
  for (let node = count - 1; node > 0; node -= 1) {
    for (let row = 0; row < 3; row += 1) {
      const at = 9 * node + 3 * row;
      const before = 3 * node - 3 + row;
      reduced[before] =
        reduced[before]! - (couplings[at]! * reduced[3 * node]! + couplings[at + 1]! * reduced[3 * node + 1]! + couplings[at + 2]! * reduced[3 * node + 2]!);
    }
  }
  const solution = new Float64Array(3 * count);
  const values = new Float64Array(3);
  for (let node = 0; node < count; node += 1) {
    for (let row = 0; row < 3; row += 1) {
      const at = 9 * node + 3 * row;
      values[row] = reduced[3 * node + row]!;
      if (node > 0)
        values[row] =
          values[row]! - (below[at]! * solution[3 * node - 3]! + below[at + 1]! * solution[3 * node - 2]! + below[at + 2]! * solution[3 * node - 1]!);
    }
    for (let row = 0; row < 3; row += 1) {
      const at = 9 * node + 3 * row;
      solution[3 * node + row] = inverses[at]! * values[0]! + inverses[at + 1]! * values[1]! + inverses[at + 2]! * values[2]!;
    }
  }
  return solution;
}

function inverseDiagonal({ count, inverses, couplings }: Eliminated): Float64Array {
  const variances = new Float64Array(3 * count);
  const spread = new Float64Array(9);
  const half = new Float64Array(9);
  for (let node = 0; node < count; node += 1) {
    const at = 9 * node;
    // inverse + coupling' * spread of the block before * coupling
    if (node > 0) {
      for (let row = 0; row < 3; row += 1) {
        for (let column = 0; column < 3; column += 1)
          half[3 * row + column] =
            couplings[at + row]! * spread[column]! + couplings[at + 3 + row]! * spread[3 + column]! + couplings[at + 6 + row]! * spread[6 + column]!;
      }
    }
    for (let row = 0; row < 3; row += 1) {
      for (let column = 0; column < 3; column += 1) {
        const carried =
          node === 0
            ? 0
            : half[3 * row]! * couplings[at + column]! + half[3 * row + 1]! * couplings[at + 3 + column]! + half[3 * row + 2]! * couplings[at + 6 + column]!;
        spread[3 * row + column] = inverses[at + 3 * row + column]! + carried;
      }
      variances[3 * node + row] = spread[4 * row]!;
    }
  }
  return variances;
}

/** Inverts a positive definite 3 x 3 into `into` from `at` on. */
function invert3(m: Float64Array, into: Float64Array, at: number): void {
  const a = m[0]!;
  const b = m[1]!;
  const c = m[2]!;
  const d = m[3]!;
  const e = m[4]!;
  const f = m[5]!;
  const g = m[6]!;
  const h = m[7]!;
  const i = m[8]!;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (!(a > 0 && a * e - b * d > 0 && determinant > 0)) throw new RangeError('the chain matrix must be positive definite');
  into[at] = (e * i - f * h) / determinant;
  into[at + 1] = (c * h - b * i) / determinant;
  into[at + 2] = (b * f - c * e) / determinant;
  into[at + 3] = (f * g - d * i) / determinant;
  into[at + 4] = (a * i - c * g) / determinant;
  into[at + 5] = (c * d - a * f) / determinant;
  into[at + 6] = (d * h - e * g) / determinant;
  into[at + 7] = (b * g - a * h) / determinant;
  into[at + 8] = (a * e - b * d) / determinant;
}
