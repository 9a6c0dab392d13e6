/** Normal equations gathered row by row: `A x = b` with A symmetric. */
export interface NormalEquations {
  readonly count: number;
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

export function emptyEquations(count: number): NormalEquations {
  return { count, matrix: new Float64Array(count * count), right: new Float64Array(count) };
}

/** Adds a measurement: `row . x = value`, with a weight (one over its variance). */
export function addRow({ count, matrix, right }: NormalEquations, row: readonly number[], value: number, weight: number): void {
  for (let i = 0; i < count; i++) {
    const scaled = weight * row[i]!;
    right[i]! += scaled * value;
    for (let j = 0; j < count; j++) matrix[i * count + j]! += scaled * row[j]!;
  }
}

/** The inverse of a symmetric positive definite matrix, by Cholesky's factors; null when it is none. */
export function inverseOf(matrix: Float64Array, count: number): Float64Array | null {
  const lower = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * count + j]!;
      for (let k = 0; k < j; k++) sum -= lower[i * count + k]! * lower[j * count + k]!;
      if (i !== j) lower[i * count + j] = sum / lower[j * count + j]!;
      else if (sum > 0) lower[i * count + i] = Math.sqrt(sum);
      else return null;
    }
  }
  const inverse = new Float64Array(count * count);
  for (let column = 0; column < count; column++) {
    const x = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= lower[i * count + k]! * x[k]!;
      x[i] = sum / lower[i * count + i]!;
    }
    for (let i = count - 1; i >= 0; i--) {
      let sum = x[i]!;
      for (let k = i + 1; k < count; k++) sum -= lower[k * count + i]! * x[k]!;
      x[i] = sum / lower[i * count + i]!;
    }
    for (let i = 0; i < count; i++) inverse[i * count + column] = x[i]!;
  }
  return inverse;
}

/** A symmetric matrix times a vector. */
export function times(matrix: Float64Array, vector: ArrayLike<number>): number[] {
  const count = vector.length;
  return Array.from({ length: count }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < count; j++) sum += matrix[i * count + j]! * vector[j]!;
    return sum;
  });
}
