/** A solution with the diagonal of the matrix's inverse: the variances when the matrix is an information matrix. */
export interface ChainSolution {
  readonly solution: Float64Array;
  readonly variances: Float64Array;
}

/** A chain matrix eliminated once, ready for several right sides. */
interface Eliminated {
  readonly below: Float64Array;
  readonly count: number;
  readonly inverses: readonly Float64Array[];
  readonly couplings: readonly Float64Array[];
}

/**
 * Solves a symmetric positive definite system whose matrix is a chain of 3 x 3 blocks: `diagonal` holds the blocks on
 * the diagonal one after another, row-major, and `below` those left of them (the first is not used). Elimination from
 * the last block to the first and back again, in time linear in the number of blocks; the diagonal of the inverse by
 * the same recursion (Rauch-Tung-Striebel in information form).
 *
 * @throws RangeError for a matrix that is not positive definite
 */
export function solveChain3(diagonal: Float64Array, below: Float64Array, right: Float64Array, count: number): ChainSolution {
  const eliminated = eliminate(diagonal, below, count);
  return { solution: substituted(eliminated, right), variances: inverseDiagonal(eliminated) };
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
  const inverses: Float64Array[] = new Array<Float64Array>(count);
  const couplings: Float64Array[] = new Array<Float64Array>(count);
  let block: Float64Array = diagonal.slice(9 * (count - 1), 9 * count);
  for (let node = count - 1; node >= 0; node -= 1) {
    inverses[node] = inverse3(block);
    if (node === 0) break;
    const left = below.subarray(9 * node, 9 * node + 9);
    // left' * inverse couples this block to the one before it.
    couplings[node] = timesTransposedLeft(left, inverses[node]!);
    block = minus(diagonal.slice(9 * node - 9, 9 * node), times(couplings[node]!, left));
  }
  return { below, count, inverses, couplings };
}

function substituted({ below, count, inverses, couplings }: Eliminated, right: Float64Array): Float64Array {
  const reduced = right.slice();
  for (let node = count - 1; node > 0; node -= 1) {
    const coupling = couplings[node]!;
    for (let row = 0; row < 3; row += 1) {
      const at = 3 * node - 3 + row;
      reduced[at] = reduced[at]! - (coupling[3 * row]! * reduced[3 * node]! + coupling[3 * row + 1]! * reduced[3 * node + 1]! + coupling[3 * row + 2]! * reduced[3 * node + 2]!);
    }
  }
  const solution = new Float64Array(3 * count);
  const values = new Float64Array(3);
  for (let node = 0; node < count; node += 1) {
    const inverse = inverses[node]!;
    for (let row = 0; row < 3; row += 1) {
      values[row] = reduced[3 * node + row]!;
      for (let column = 0; column < 3 && node > 0; column += 1) values[row] = values[row]! - below[9 * node + 3 * row + column]! * solution[3 * node - 3 + column]!;
    }
    for (let row = 0; row < 3; row += 1) solution[3 * node + row] = inverse[3 * row]! * values[0]! + inverse[3 * row + 1]! * values[1]! + inverse[3 * row + 2]! * values[2]!;
  }
  return solution;
}

function inverseDiagonal({ count, inverses, couplings }: Eliminated): Float64Array {
  const variances = new Float64Array(3 * count);
  let spread = inverses[0]!;
  for (let node = 0; node < count; node += 1) {
    // inverse + coupling' * spread of the block before * coupling
    if (node > 0) spread = plus(inverses[node]!, times(timesTransposedLeft(couplings[node]!, spread), couplings[node]!));
    for (let row = 0; row < 3; row += 1) variances[3 * node + row] = spread[4 * row]!;
  }
  return variances;
}

function times(one: Float64Array, other: Float64Array): Float64Array {
  const product = new Float64Array(9);
  for (let row = 0; row < 3; row += 1) {
    for (let column = 0; column < 3; column += 1) {
      product[3 * row + column] = one[3 * row]! * other[column]! + one[3 * row + 1]! * other[3 + column]! + one[3 * row + 2]! * other[6 + column]!;
    }
  }
  return product;
}

function timesTransposedLeft(one: Float64Array, other: Float64Array): Float64Array {
  const transposed = Float64Array.of(one[0]!, one[3]!, one[6]!, one[1]!, one[4]!, one[7]!, one[2]!, one[5]!, one[8]!);
  return times(transposed, other);
}

function minus(one: Float64Array, other: Float64Array): Float64Array {
  return one.map((value, index) => value - other[index]!);
}

function plus(one: Float64Array, other: Float64Array): Float64Array {
  return one.map((value, index) => value + other[index]!);
}

function inverse3(m: Float64Array): Float64Array {
  const [a, b, c, d, e, f, g, h, i] = m as unknown as [number, number, number, number, number, number, number, number, number];
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (!(a > 0 && a * e - b * d > 0 && determinant > 0)) throw new RangeError('the chain matrix must be positive definite');
  return Float64Array.of(e * i - f * h, c * h - b * i, b * f - c * e, f * g - d * i, a * i - c * g, c * d - a * f, d * h - e * g, b * g - a * h, a * e - b * d).map((minor) => minor / determinant);
}
