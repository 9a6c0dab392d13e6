/**
 * The angle under which a letter's depth is seen when it hangs flat at a height, its middle at an elevation, its depth
 * along the sight: exact; near `H sin^2(e) / h`. 800 m at 3,000 m and 45 degrees: 7.662 degrees.
 *
 * @throws RangeError for an elevation outside (0, pi / 2] or a height not above 0
 */
export function shownDepthRadians(depthMetres: number, aboveEyeMetres: number, elevationRadians: number): number {
  checkView(aboveEyeMetres, elevationRadians);
  const distanceMetres = aboveEyeMetres / Math.tan(elevationRadians);
  const near = Math.atan2(distanceMetres - depthMetres / 2, aboveEyeMetres);
  const far = Math.atan2(distanceMetres + depthMetres / 2, aboveEyeMetres);
  return far - near;
}

/**
 * The angle under which a letter's width is seen, square to the sight: exact; near `W sin(e) / h`.
 *
 * @throws RangeError for an elevation outside (0, pi / 2] or a height not above 0
 *
 * @oracle
 */
export function shownWidthRadians(widthMetres: number, aboveEyeMetres: number, elevationRadians: number): number {
  checkView(aboveEyeMetres, elevationRadians);
  return 2 * Math.atan((widthMetres * Math.sin(elevationRadians)) / (2 * aboveEyeMetres));
}

/**
 * How much deeper letters must be made so that they show as high as they are wide at an elevation: `1 / sin(e)`.
 *
 * @oracle
 */
export function evenStretch(elevationRadians: number): number {
  checkView(1, elevationRadians);
  return 1 / Math.sin(elevationRadians);
}

function checkView(aboveEyeMetres: number, elevationRadians: number): void {
  if (!(aboveEyeMetres > 0 && aboveEyeMetres < Infinity)) throw new RangeError(`aboveEyeMetres must be above 0, not ${aboveEyeMetres}`);
  if (!(elevationRadians > 0 && elevationRadians <= Math.PI / 2)) {
    throw new RangeError(`elevationRadians must lie above 0 and at most at pi / 2, not ${elevationRadians}`);
  }
}
