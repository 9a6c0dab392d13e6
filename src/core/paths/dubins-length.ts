const TURN = 2 * Math.PI;
const SLACK_METRES = 1e-7;

function turnOf(radians: number): number {
  return radians - TURN * Math.floor(radians / TURN);
}

function snappedTurnOf(radians: number, slackRadians: number): number {
  const rest = turnOf(radians);
  return rest >= TURN - slackRadians ? 0 : rest;
}

/** Both turns of a word with a line in its middle, as {@link solveDubinsWord} rounds them. */
function bothTurnsRadians(
  firstSide: number,
  lastSide: number,
  fromRadians: number,
  lineRadians: number,
  toRadians: number,
  lineSlackRadians: number,
  circleSlackRadians: number,
): number {
  const first = turnOf(firstSide * (lineRadians - fromRadians));
  const last = turnOf(lastSide * (toRadians - lineRadians));
  if (TURN - first <= lineSlackRadians) return snappedTurnOf(lastSide * (toRadians - fromRadians), circleSlackRadians);
  if (TURN - last <= lineSlackRadians) return snappedTurnOf(firstSide * (toRadians - fromRadians), circleSlackRadians);
  return first + last;
}

/**
 * Length of the shortest turn-limited path, without making an object: the same answer as `shortestDubins` to
 * rounding, for the inner loop of the optimiser. Sines and cosines of both directions are passed because every
 * pose is used hundreds of times. Nothing is checked here; the radius must be positive.
 *
 * With `reversalMetres` the least of length plus reversals is returned: each change from one turn straight into the
 * opposite one counts that much, less what lies straight between the two.
 *
 * @param eastMetres from the first pose to the second
 * @param northMetres likewise
 * @param reversalMetres 0 for the plain length
 */
export function dubinsLengthMetres(
  eastMetres: number,
  northMetres: number,
  fromRadians: number,
  fromSine: number,
  fromCosine: number,
  toRadians: number,
  toSine: number,
  toCosine: number,
  radiusMetres: number,
  reversalMetres: number,
): number {
  const circleSlackRadians = SLACK_METRES / radiusMetres;
  const twoRadii = 2 * radiusMetres;
  let best = Infinity;

  // LSL and RSR: circles on the same side, the line runs along the line of centres.
  for (let side = 1; side >= -1; side -= 2) {
    const east = eastMetres - side * radiusMetres * (toSine - fromSine);
    const north = northMetres + side * radiusMetres * (toCosine - fromCosine);
    const centresMetres = Math.sqrt(east * east + north * north);
    if (centresMetres >= best) continue;
    const lineRadians = Math.atan2(north, east);
    const slack = centresMetres > SLACK_METRES ? SLACK_METRES / centresMetres : TURN;
    const turns = bothTurnsRadians(side, side, fromRadians, lineRadians, toRadians, slack, circleSlackRadians);
    const lengthMetres = centresMetres + radiusMetres * turns;
    if (lengthMetres < best) best = lengthMetres;

    // RLR and LRL share these circles.
    if (centresMetres <= 2 * twoRadii && best > Math.PI * radiusMetres) {
      const middle = TURN - 2 * Math.asin(centresMetres / (2 * twoRadii));
      const first = snappedTurnOf(side * (lineRadians - fromRadians) + middle / 2, circleSlackRadians);
      const last = snappedTurnOf(side * (toRadians - fromRadians) - first + middle, circleSlackRadians);
      const curvedMetres = radiusMetres * (first + middle + last) + 2 * reversalMetres;
      if (curvedMetres < best) best = curvedMetres;
    }
  }

  // LSR and RSL: circles on different sides, the line crosses the line of centres.
  for (let side = 1; side >= -1; side -= 2) {
    const east = eastMetres + side * radiusMetres * (toSine + fromSine);
    const north = northMetres - side * radiusMetres * (toCosine + fromCosine);
    const squared = east * east + north * north;
    const centresMetres = Math.sqrt(squared);
    if (centresMetres < twoRadii - SLACK_METRES) continue;
    const lineMetres = Math.sqrt(Math.max(0, squared - twoRadii * twoRadii));
    if (lineMetres >= best) continue;
    const lineRadians = Math.atan2(north, east) + side * Math.atan2(twoRadii, lineMetres);
    const slack = SLACK_METRES / centresMetres;
    const turns = bothTurnsRadians(side, -side, fromRadians, lineRadians, toRadians, slack, circleSlackRadians);
    const lengthMetres = Math.max(lineMetres, reversalMetres) + radiusMetres * turns;
    if (lengthMetres < best) best = lengthMetres;
  }
  return best;
}
