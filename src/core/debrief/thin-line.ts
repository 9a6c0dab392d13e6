/**
 * The points of a line that a drawing needs: indexes from `from` to `to` (both kept, ascending) such that no point
 * left out lies farther than `toleranceMetres` from the line drawn (Douglas and Peucker 1973, Cartographica 10:112,
 * without recursion). A straight line of any number of points needs two.
 *
 * @throws RangeError for a tolerance that is not above 0
 */
export function thinLine(xs: Float64Array, ys: Float64Array, from: number, to: number, toleranceMetres: number): number[] {
  if (!(toleranceMetres > 0)) throw new RangeError(`toleranceMetres must be above 0, not ${toleranceMetres}`);
  if (to <= from) return to === from ? [from] : [];
  const kept = new Uint8Array(to - from + 1);
  kept[0] = 1;
  kept[to - from] = 1;
  const open: number[] = [from, to];
  const limit = toleranceMetres * toleranceMetres;
  while (open.length > 0) {
    const last = open.pop()!;
    const first = open.pop()!;
    let farthest = -1;
    let greatest = limit;
    const x = xs[first]!;
    const y = ys[first]!;
    const dx = xs[last]! - x;
    const dy = ys[last]! - y;
    const square = dx * dx + dy * dy;
    for (let index = first + 1; index < last; index += 1) {
      const px = xs[index]! - x;
      const py = ys[index]! - y;
      const along = px * dx + py * dy;
      // From the chord itself, not from its endless line: a turn back on itself is far from it.
      let distance = px * px + py * py;
      if (along >= square) distance = (px - dx) * (px - dx) + (py - dy) * (py - dy);
      else if (along > 0) {
        const across = px * dy - py * dx;
        distance = (across * across) / square;
      }
      if (distance > greatest) {
        greatest = distance;
        farthest = index;
      }
    }
    if (farthest < 0) continue;
    kept[farthest - from] = 1;
    open.push(first, farthest, farthest, last);
  }
  const indexes: number[] = [];
  for (let index = from; index <= to; index += 1) if (kept[index - from] === 1) indexes.push(index);
  return indexes;
}
