/** A stretch of time, UTC. */
export interface TimeSpan {
  readonly fromMilliseconds: number;
  readonly toMilliseconds: number;
}

export interface FlightSpan extends TimeSpan {
  readonly flightId: string;
}

const sharedMilliseconds = (one: TimeSpan, other: TimeSpan): number =>
  Math.min(one.toMilliseconds, other.toMilliseconds) - Math.max(one.fromMilliseconds, other.fromMilliseconds);

/**
 * The flight during which a track was recorded: the open one where they overlap at all, else the one it shares most time
 * with; null where it overlaps none. The open one comes first since its span is its log's, the others' only their hours.
 */
export function flightOfTrack(track: TimeSpan, open: FlightSpan | null, others: readonly FlightSpan[]): string | null {
  if (open !== null && sharedMilliseconds(track, open) >= 0) return open.flightId;
  const [longest] = others
    .filter((flight) => sharedMilliseconds(track, flight) > 0)
    .toSorted((one, other) => sharedMilliseconds(track, other) - sharedMilliseconds(track, one));
  return longest?.flightId ?? null;
}
