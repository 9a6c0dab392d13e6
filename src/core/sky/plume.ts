/**
 * How one trail of smoke spreads and fades: a Gaussian plume in a linear shear (Konopka 1995, J. Non-Equilib.
 * Thermodyn. 20; Schumann et al. 1995, JGR 100; in the form of Schumann 2012, Geosci. Model Dev. 5:543, eqs. 6 and
 * 29 to 31). The wake's own first mixing is not in it: the spread begins at a width of its own.
 */

/** What the air does to smoke. */
export interface SmokeAir {
  /** Horizontal diffusivity D_h, measured 5 to 20 m2/s in stable air near the tropopause (Schumann et al. 1995). */
  readonly horizontalSquareMetresPerSecond: number;
  /** Vertical diffusivity D_v, measured 0 to 0.6 m2/s (same). */
  readonly verticalSquareMetresPerSecond: number;
  /** Standard deviations of the trail when it is laid. */
  readonly initialHorizontalMetres: number;
  readonly initialVerticalMetres: number;
}

/** A trail's cross section: a normal distribution with this covariance. */
export interface PlumeSpread {
  /** s_h: standard deviation across the trail, level. */
  readonly horizontalMetres: number;
  /** s_v: standard deviation upward. */
  readonly verticalMetres: number;
  /** Of level and upward, positive where the upper smoke lies towards the positive side of the shear. */
  readonly covarianceSquareMetres: number;
}

/**
 * The spread of a trail at an age:
 * `s_h^2 = s_h0^2 + 2 D_h t + s^2 s_v0^2 t^2 + (2/3) s^2 D_v t^3`, `s_v^2 = s_v0^2 + 2 D_v t`,
 * covariance `s s_v0^2 t + s D_v t^2`.
 *
 * Worked: from 5 m both ways, D_h 5, D_v 0.15, shear 0.005 per second, after 600 s: s_h 82.401 m, s_v 14.318 m.
 *
 * @param ageSeconds since the smoke was laid, 0 or more
 * @param shearAcrossPerSecond of the wind across the trail (see {@link shearAcross}); along the trail it widens nothing
 * @throws RangeError for a negative age, diffusivity or width, or a value that is not finite
 */
export function plumeSpread(ageSeconds: number, shearAcrossPerSecond: number, air: SmokeAir): PlumeSpread {
  checkAtLeastZero('ageSeconds', ageSeconds);
  checkAtLeastZero('horizontalSquareMetresPerSecond', air.horizontalSquareMetresPerSecond);
  checkAtLeastZero('verticalSquareMetresPerSecond', air.verticalSquareMetresPerSecond);
  checkAtLeastZero('initialHorizontalMetres', air.initialHorizontalMetres);
  checkAtLeastZero('initialVerticalMetres', air.initialVerticalMetres);
  if (!Number.isFinite(shearAcrossPerSecond)) throw new RangeError(`shearAcrossPerSecond must be finite, not ${shearAcrossPerSecond}`);
  const t = ageSeconds;
  const s = shearAcrossPerSecond;
  const vertical0 = air.initialVerticalMetres ** 2;
  const diffusion = air.verticalSquareMetresPerSecond;
  const horizontal =
    air.initialHorizontalMetres ** 2 + 2 * air.horizontalSquareMetresPerSecond * t + s * s * vertical0 * t * t + (2 / 3) * s * s * diffusion * t ** 3;
  return {
    horizontalMetres: Math.sqrt(horizontal),
    verticalMetres: Math.sqrt(vertical0 + 2 * diffusion * t),
    covarianceSquareMetres: s * vertical0 * t + s * diffusion * t * t,
  };
}

/** Change of the wind with height, as seen by a trail. */
interface Shear {
  readonly eastPerSecond: number;
  readonly northPerSecond: number;
}

/**
 * The part of a shear that lies across a trail, positive to the left of its direction.
 * Shear towards the north of 0.01 per second lies wholly across a trail flown east, and not at all across one flown north.
 *
 * @param directionRadians of the trail, anticlockwise from east
 */
export function shearAcross(shear: Shear, directionRadians: number): number {
  return shear.northPerSecond * Math.cos(directionRadians) - shear.eastPerSecond * Math.sin(directionRadians);
}

/** What one metre of trail carries. */
export interface SmokeLoad {
  readonly kilogramsPerMetre: number;
  /** Light removed by a kilogram of droplets, m2 / kg. */
  readonly extinctionSquareMetresPerKilogram: number;
}

/**
 * Flow over true airspeed. 9 kg a minute at 60 m/s is 2.5 g a metre.
 *
 * @oracle
 */
export function trailKilogramsPerMetre(kilogramsPerSecond: number, trueAirspeedMetresPerSecond: number): number {
  checkAtLeastZero('kilogramsPerSecond', kilogramsPerSecond);
  if (!(trueAirspeedMetresPerSecond > 0)) throw new RangeError(`trueAirspeedMetresPerSecond must be above 0, not ${trueAirspeedMetresPerSecond}`);
  return kilogramsPerSecond / trueAirspeedMetresPerSecond;
}

/**
 * Optical depth through the middle of a trail seen from straight below: `k m / (sqrt(2 pi) s_h)`.
 * 2.5 g a metre at 6,800 m2 / kg, spread to 50 m: 0.1356.
 */
export function opticalDepthFromBelow(load: SmokeLoad, spread: PlumeSpread): number {
  return columnDepth(load, spread.horizontalMetres);
}

/** A unit vector, east, north, up. */
interface SightLine {
  readonly east: number;
  readonly north: number;
  readonly up: number;
}

/**
 * Optical depth and shown spread of a trail along a slanted line of sight: the column density of a line source is its
 * mass per metre over the sine of the angle between trail and sight, spread by the cross section's deviation in the
 * direction square to both. From straight below it is {@link opticalDepthFromBelow}.
 *
 * @param sight unit vector of the line of sight
 * @param directionRadians of the trail, anticlockwise from east
 * @returns `spreadMetres`, the trail's standard deviation as seen, and the depth at its middle
 */
export function slantView(
  load: SmokeLoad,
  spread: PlumeSpread,
  directionRadians: number,
  sight: SightLine,
): { readonly opticalDepth: number; readonly spreadMetres: number } {
  const cosine = Math.cos(directionRadians);
  const sine = Math.sin(directionRadians);
  // Trail direction cross sight, in the trail's own axes: left of it, and up.
  const left = -sight.up;
  const up = sight.north * cosine - sight.east * sine;
  const across = Math.hypot(left, up);
  // Along the trail itself the column has no end; three degrees off is as deep as it gets here.
  const obliquity = Math.max(across, 0.05);
  if (across === 0) return { opticalDepth: columnDepth(load, spread.horizontalMetres) / obliquity, spreadMetres: spread.horizontalMetres };
  const a = left / across;
  const z = up / across;
  const variance = a * a * spread.horizontalMetres ** 2 + 2 * a * z * spread.covarianceSquareMetres + z * z * spread.verticalMetres ** 2;
  const spreadMetres = Math.sqrt(Math.max(0, variance));
  return { opticalDepth: columnDepth(load, spreadMetres) / obliquity, spreadMetres };
}

/** How much a smoke of an optical depth stands out from the sky behind it, 0 to 1: `1 - exp(-depth)`. */
export function contrastFromDepth(opticalDepth: number): number {
  return -Math.expm1(-opticalDepth);
}

/**
 * What is left of a contrast after a distance through evenly hazy air (Koschmieder 1924): visibility is where a black
 * object's contrast has fallen to 0.02, `exp(-ln(50) R / V)`.
 *
 * @param visibilityMetres null for air that takes nothing
 */
export function contrastThroughAir(contrast: number, rangeMetres: number, visibilityMetres: number | null): number {
  if (visibilityMetres === null) return contrast;
  if (!(visibilityMetres > 0)) throw new RangeError(`visibilityMetres must be above 0, not ${visibilityMetres}`);
  return contrast * Math.exp((-Math.log(50) * rangeMetres) / visibilityMetres);
}

/** How deep all haze would lie, were it as thick as at the ground: the source of {@link levelRangeMetres} within 1 % up to 4 km. */
const HAZE_HEIGHT_METRES = 1_200;

/**
 * How far level, near the ground, air takes as much contrast as on a slant way from there up to a height: haze lies
 * low and thins by a factor e each 1,200 m (McClatchey et al. 1972, AFCRL-72-0497, table of the air of 23 km of
 * visibility; in air of 5 km the way is up to 16 % shorter). Haze that a strong sun has stirred higher, or that lies under an
 * inversion aloft, takes more.
 *
 * @param heightMetres of the far end above the eye; at or below 0 the way is level
 */
export function levelRangeMetres(rangeMetres: number, heightMetres: number): number {
  if (!(heightMetres > 0)) return rangeMetres;
  return (rangeMetres * HAZE_HEIGHT_METRES * -Math.expm1(-heightMetres / HAZE_HEIGHT_METRES)) / heightMetres;
}

function columnDepth(load: SmokeLoad, spreadMetres: number): number {
  const kilograms = load.kilogramsPerMetre * load.extinctionSquareMetresPerKilogram;
  if (kilograms === 0) return 0;
  return kilograms / (Math.sqrt(2 * Math.PI) * spreadMetres);
}

function checkAtLeastZero(name: string, value: number): void {
  if (!(value >= 0 && value < Infinity)) throw new RangeError(`${name} must be 0 or more, not ${value}`);
}
