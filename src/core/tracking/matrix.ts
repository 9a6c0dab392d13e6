/**
 * Square and rectangular matrices as row-major arrays: entry (row, column) of an m x n matrix stands at
 * `row * n + column`. Only what the estimator needs.
 */
export type Matrix = readonly number[];

/** `left` (rows x inner) times `right` (inner x columns). */
export function product(left: Matrix, right: Matrix, rows: number, inner: number, columns: number): number[] {
  const result = new Array<number>(rows * columns).fill(0);
  for (let row = 0; row < rows; row += 1) {
    for (let middle = 0; middle < inner; middle += 1) {
      const factor = left[row * inner + middle]!;
      if (factor === 0) continue;
      for (let column = 0; column < columns; column += 1) {
        result[row * columns + column]! += factor * right[middle * columns + column]!;
      }
    }
  }
  return result;
}

/** The transpose of a rows x columns matrix. */
export function transposed(matrix: Matrix, rows: number, columns: number): number[] {
  const result = new Array<number>(rows * columns).fill(0);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) result[column * rows + row] = matrix[row * columns + column]!;
  }
  return result;
}

/** The inverse of a 2 x 2 matrix. @throws RangeError when it is singular */
export function inverse2(matrix: Matrix): number[] {
  const [a, b, c, d] = matrix as [number, number, number, number];
  const determinant = a * d - b * c;
  if (!(Math.abs(determinant) > 0)) throw new RangeError(`inverse2: determinant is ${determinant}`);
  return [d / determinant, -b / determinant, -c / determinant, a / determinant];
}
