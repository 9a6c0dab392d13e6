/** A ship's place and way over the ground, as believed or told. */
export interface ShipMoving {
  readonly eastMetres: number;
  readonly northMetres: number;
  readonly eastMetresPerSecond: number;
  readonly northMetresPerSecond: number;
  /** Of its way over the ground, anticlockwise positive. */
  readonly turnRateRadiansPerSecond: number;
}

/** How near two ships will be, if both go on as they do. */
export interface Nearing {
  readonly metres: number;
  readonly inSeconds: number;
  /** Where the other is now, seen along the own way: where to look. */
  readonly side: 'left' | 'right' | 'ahead' | 'behind';
}

const STEP_SECONDS = 1;

function after(ship: ShipMoving, seconds: number): { readonly east: number; readonly north: number; readonly eastRate: number; readonly northRate: number } {
  let { eastMetres: east, northMetres: north, eastMetresPerSecond: eastRate, northMetresPerSecond: northRate } = ship;
  const turn = ship.turnRateRadiansPerSecond * STEP_SECONDS;
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  for (let passed = 0; passed < seconds; passed += STEP_SECONDS) {
    east += eastRate * STEP_SECONDS;
    north += northRate * STEP_SECONDS;
    [eastRate, northRate] = [eastRate * cosine - northRate * sine, eastRate * sine + northRate * cosine];
  }
  return { east, north, eastRate, northRate };
}

/**
 * The nearest two ships come within a time, each turning on as it turns now, in steps of a second. Two ships 1,000 m
 * apart that fly towards each other at 50 m/s: 0 m in 10 s, ahead.
 */
export function nearing(own: ShipMoving, other: ShipMoving, withinSeconds: number): Nearing {
  let metres = Infinity;
  let inSeconds = 0;
  for (let seconds = 0; seconds <= withinSeconds; seconds += STEP_SECONDS) {
    const here = after(own, seconds);
    const there = after(other, seconds);
    const apart = Math.hypot(there.east - here.east, there.north - here.north);
    if (apart >= metres) continue;
    metres = apart;
    inSeconds = seconds;
  }
  return { metres, inSeconds, side: sideOf(own, other) };
}

function sideOf(own: ShipMoving, other: ShipMoving): Nearing['side'] {
  const east = other.eastMetres - own.eastMetres;
  const north = other.northMetres - own.northMetres;
  const ahead = east * own.eastMetresPerSecond + north * own.northMetresPerSecond;
  const right = east * own.northMetresPerSecond - north * own.eastMetresPerSecond;
  if (Math.abs(ahead) > Math.abs(right)) return ahead > 0 ? 'ahead' : 'behind';
  return right > 0 ? 'right' : 'left';
}
