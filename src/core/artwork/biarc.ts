/** A point of a drawing with the unit direction of travel through it; any unit of length. */
export interface FitPoint {
  readonly x: number;
  readonly y: number;
  readonly directionX: number;
  readonly directionY: number;
}

/** Part of a line (curvature 0) or circle, from its start. */
export interface FitArc {
  readonly startX: number;
  readonly startY: number;
  readonly directionX: number;
  readonly directionY: number;
  readonly length: number;
  /** Positive turning left with y up. */
  readonly curvature: number;
}

/**
 * Two arcs that leave `from` in its direction, arrive at `to` in its direction, and pass into each other without a
 * corner; the tangents up to their joint are equally long (Bolton 1975, "Biarc curves"). Null when there is none:
 * the ends coincide, or the second direction runs back along the way.
 *
 * From (0, 0) going east to (2, 0) going south: two arcs whose turns add up to a quarter turn to the right.
 */
export function biarc(from: FitPoint, to: FitPoint): readonly [FitArc, FitArc] | null {
  const x = to.x - from.x;
  const y = to.y - from.y;
  const squared = x * x + y * y;
  const along = x * (from.directionX + to.directionX) + y * (from.directionY + to.directionY);
  const bend = 2 * (1 - (from.directionX * to.directionX + from.directionY * to.directionY));
  // The root of bend d^2 + 2 along d - squared = 0, in the form that holds when the directions are equal.
  const denominator = along + Math.sqrt(along * along + bend * squared);
  if (!(squared > 0) || !(denominator > 1e-9 * Math.sqrt(squared))) return null;
  const reach = squared / denominator;
  const jointX = (from.x + to.x + reach * (from.directionX - to.directionX)) / 2;
  const jointY = (from.y + to.y + reach * (from.directionY - to.directionY)) / 2;
  const first = arcTo(from, jointX, jointY);
  const turnRadians = first.length * first.curvature;
  const cosine = Math.cos(turnRadians);
  const sine = Math.sin(turnRadians);
  const joint: FitPoint = {
    x: jointX,
    y: jointY,
    directionX: from.directionX * cosine - from.directionY * sine,
    directionY: from.directionX * sine + from.directionY * cosine,
  };
  return [first, arcTo(joint, to.x, to.y)];
}

/** The arc from a point in its direction to another point. */
function arcTo(from: FitPoint, x: number, y: number): FitArc {
  const chordX = x - from.x;
  const chordY = y - from.y;
  const chord = Math.hypot(chordX, chordY);
  const halfTurnRadians = Math.atan2(from.directionX * chordY - from.directionY * chordX, from.directionX * chordX + from.directionY * chordY);
  const straight = Math.abs(halfTurnRadians) < 1e-7;
  return {
    startX: from.x,
    startY: from.y,
    directionX: from.directionX,
    directionY: from.directionY,
    length: straight ? chord : (chord * halfTurnRadians) / Math.sin(halfTurnRadians),
    curvature: straight || chord === 0 ? 0 : (2 * Math.sin(halfTurnRadians)) / chord,
  };
}

/** How far a point lies from an arc. */
export function distanceToArc(x: number, y: number, arc: FitArc): number {
  const fromStartX = x - arc.startX;
  const fromStartY = y - arc.startY;
  if (arc.curvature === 0) {
    const along = Math.min(arc.length, Math.max(0, fromStartX * arc.directionX + fromStartY * arc.directionY));
    return Math.hypot(fromStartX - along * arc.directionX, fromStartY - along * arc.directionY);
  }
  const radius = 1 / Math.abs(arc.curvature);
  const side = Math.sign(arc.curvature);
  // From the centre: where the arc starts, and where the point lies.
  const startX = side * radius * arc.directionY;
  const startY = -side * radius * arc.directionX;
  const pointX = fromStartX + startX;
  const pointY = fromStartY + startY;
  const turn = 2 * Math.PI;
  const ahead = side * Math.atan2(startX * pointY - startY * pointX, startX * pointX + startY * pointY);
  const sweep = arc.length / radius;
  const within = ((ahead % turn) + turn) % turn;
  if (within <= sweep) return Math.abs(Math.hypot(pointX, pointY) - radius);
  const angle = side * sweep;
  const endX = startX * Math.cos(angle) - startY * Math.sin(angle);
  const endY = startX * Math.sin(angle) + startY * Math.cos(angle);
  return Math.min(Math.hypot(fromStartX, fromStartY), Math.hypot(pointX - endX, pointY - endY));
}
