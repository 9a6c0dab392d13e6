import { linesMeeting, neighbourSteps } from './thinned.ts';

/** A line through cells of a grid, from cell to neighbouring cell; a ring's last cell is beside its first. */
export interface CellLine {
  readonly cells: readonly number[];
  readonly ring: boolean;
  /** Whether its first and last cells lie free, where no other line meets it. */
  readonly freeStart: boolean;
  readonly freeEnd: boolean;
}

interface Branch {
  readonly cells: readonly number[];
  /** The crossings at its two ends; null where it ends free. */
  readonly crossings: readonly [number | null, number | null];
}

/** A branch shorter than so many depths of the shape at its crossing is only a bump or a corner of its edge; the corner of a square is 1.41 away. */
const CORNER_DEPTHS = 1.5;
/** Branches that bend by more than this where they meet are two lines. */
const STRAIGHT_ON_RADIANS = Math.PI / 3;

/**
 * The lines of a thinned shape: traced from end to end, freed of the short branches that run into its corners, and led
 * straight on where several meet.
 *
 * @param thin 1 on the lines, which are a cell wide
 * @param depths of each cell of the shape that was thinned, in cells
 */
export function thinLines(thin: Uint8Array, columns: number, depths: Float64Array): CellLine[] {
  const { branches, rings } = traced(thin, columns);
  const kept = withoutCorners(branches, depths);
  const mates = straightOn(kept, columns, depths);
  return [...joined(kept, mates), ...rings.map((cells): CellLine => ({ cells, ring: true, freeStart: false, freeEnd: false }))];
}

/** Branches between crossings and ends, and rings without either. Cells of a crossing that touch are one crossing. */
function traced(thin: Uint8Array, columns: number): { readonly branches: Branch[]; readonly rings: number[][] } {
  const steps = neighbourSteps(columns);
  const neighbours = (at: number): number[] => steps.map((step) => at + step).filter((next) => thin[next] === 1);
  const line = [...thin.keys()].filter((at) => thin[at] === 1);
  const crossingOf = new Map<number, number>();
  for (const at of line.filter((each) => linesMeeting(thin, each, steps) > 2)) {
    if (crossingOf.has(at)) continue;
    const open = [at];
    for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
      crossingOf.set(cell, at);
      open.push(...neighbours(cell).filter((next) => !crossingOf.has(next) && linesMeeting(thin, next, steps) > 2));
    }
  }
  const seen = new Set<number>();
  /** On from a cell to the next crossing or end, over cells that were not seen yet. */
  const walk = (from: number, behind: number | null): { readonly cells: number[]; readonly crossing: number | null } => {
    const cells = [from];
    seen.add(from);
    for (let at = from; ;) {
      const near = neighbours(at).filter((next) => next !== behind);
      const crossing = near.find(
        (next) => crossingOf.has(next) && (cells.length > 1 || crossingOf.get(next) !== (behind === null ? null : crossingOf.get(behind))),
      );
      if (crossing !== undefined) return { cells, crossing: crossingOf.get(crossing) ?? null };
      const next = near.find((each) => !seen.has(each) && !crossingOf.has(each));
      if (next === undefined) return { cells, crossing: null };
      seen.add(next);
      cells.push(next);
      at = next;
    }
  };
  const branches: Branch[] = [];
  for (const [cell, crossing] of crossingOf) {
    for (const first of neighbours(cell)) {
      if (crossingOf.has(first) || seen.has(first)) continue;
      const { cells, crossing: far } = walk(first, cell);
      branches.push({ cells: [crossing, ...cells, ...(far === null ? [] : [far])], crossings: [crossing, far] });
    }
  }
  for (const at of line) {
    if (seen.has(at) || crossingOf.has(at) || neighbours(at).length > 1) continue;
    const { cells } = walk(at, null);
    branches.push({ cells, crossings: [null, null] });
  }
  const rings = line.flatMap((at) => (seen.has(at) || crossingOf.has(at) ? [] : [walk(at, null).cells]));
  return { branches, rings };
}

/** Without the branches into corners; what is left at a crossing afterwards may end free or run straight on there. */
function withoutCorners(branches: readonly Branch[], depths: Float64Array): Branch[] {
  const isCorner = ({ cells, crossings: [start, end] }: Branch): boolean =>
    start !== null && end === null && cells.length < CORNER_DEPTHS * (depths[start] ?? 0);
  const kept = branches.filter((branch) => !isCorner(branch));
  const count = (crossing: number | null): number => kept.filter(({ crossings }) => crossing !== null && crossings.includes(crossing)).length;
  return kept.map((branch): Branch => {
    const [start, end] = branch.crossings;
    const alone = (crossing: number | null): number | null => (count(crossing) > 1 || start === end ? crossing : null);
    return { ...branch, crossings: [alone(start), alone(end)] };
  });
}

/** An end of a branch: its number, and 0 for its first cell or 1 for its last. */
type BranchEnd = `${number} ${0 | 1}`;

/** Which ends of branches are led on into each other: at every crossing the straightest pairs first. */
function straightOn(branches: readonly Branch[], columns: number, depths: Float64Array): ReadonlyMap<BranchEnd, BranchEnd> {
  const mates = new Map<BranchEnd, BranchEnd>();
  const ends = branches.flatMap(({ cells, crossings }, index) =>
    ([0, 1] as const).flatMap((end) => {
      const crossing = crossings[end];
      if (crossing === null) return [];
      const reach = Math.min(cells.length - 1, 2 + Math.ceil(2 * (depths[crossing] ?? 0)));
      const far = cells.at(end === 0 ? reach : -1 - reach) ?? crossing;
      const outRadians = Math.atan2(Math.floor(far / columns) - Math.floor(crossing / columns), (far % columns) - (crossing % columns));
      return [{ crossing, key: `${index} ${end}` as BranchEnd, outRadians }];
    }),
  );
  const meeting = new Map<number, number>();
  for (const { crossing } of ends) meeting.set(crossing, (meeting.get(crossing) ?? 0) + 1);
  const pairs = ends
    .flatMap((one, index) =>
      ends.slice(index + 1).flatMap((other) => {
        if (one.crossing !== other.crossing) return [];
        const bendRadians = Math.PI - Math.abs(Math.atan2(Math.sin(one.outRadians - other.outRadians), Math.cos(one.outRadians - other.outRadians)));
        return [{ one: one.key, other: other.key, bendRadians, only: meeting.get(one.crossing) === 2 }];
      }),
    )
    .toSorted((one, other) => one.bendRadians - other.bendRadians);
  for (const { one, other, bendRadians, only } of pairs) {
    if (mates.has(one) || mates.has(other) || (bendRadians > STRAIGHT_ON_RADIANS && !only)) continue;
    mates.set(one, other);
    mates.set(other, one);
  }
  return mates;
}

/** Branches one after another along their mates. */
function joined(branches: readonly Branch[], mates: ReadonlyMap<BranchEnd, BranchEnd>): CellLine[] {
  const used = new Set<number>();
  const lines: CellLine[] = [];
  const follow = (first: number, entered: 0 | 1): { readonly cells: number[]; readonly last: BranchEnd; readonly ring: boolean } => {
    const cells: number[] = [];
    for (let [index, end] = [first, entered]; ;) {
      used.add(index);
      const own = branches[index]?.cells ?? [];
      cells.push(...(end === 0 ? own : own.toReversed()).slice(cells.length === 0 ? 0 : 1));
      const last: BranchEnd = `${index} ${end === 0 ? 1 : 0}`;
      const mate = mates.get(last);
      if (mate === undefined) return { cells, last, ring: false };
      const [next = 0, nextEnd = 0] = mate.split(' ').map(Number);
      if (used.has(next)) return { cells: cells.slice(0, -1), last, ring: next === first && nextEnd === entered };
      [index, end] = [next, nextEnd as 0 | 1];
    }
  };
  const isFree = (key: BranchEnd): boolean => {
    const [index = 0, end = 0] = key.split(' ').map(Number);
    return branches[index]?.crossings[end] === null;
  };
  const begin = (index: number, end: 0 | 1): void => {
    if (used.has(index)) return;
    const { cells, last, ring } = follow(index, end);
    lines.push({ cells, ring, freeStart: !ring && isFree(`${index} ${end}`), freeEnd: !ring && isFree(last) });
  };
  // Where nothing leads in; what is left then are rings.
  branches.forEach((_, index) => {
    if (!mates.has(`${index} 0`)) begin(index, 0);
    else if (!mates.has(`${index} 1`)) begin(index, 1);
  });
  branches.forEach((_, index) => begin(index, 0));
  return lines;
}
