/**
 * Where a point east, north of a site at a height lies on the WGS 84 ellipsoid: through earth-centred coordinates, back
 * by Bowring's formula (Survey Review 23, 1976), good to a micrometre here. Written apart from the app's own frame.
 */
export function placeOnEarth(
  eastMetres: number,
  northMetres: number,
  heightMetres: number,
  site: { readonly latitudeDegrees: number; readonly longitudeDegrees: number; readonly elevationMetres: number },
): { latitudeDegrees: number; longitudeDegrees: number } {
  const a = 6_378_137;
  const f = 1 / 298.257_223_563;
  const b = a * (1 - f);
  const e2 = f * (2 - f);
  const phi = (site.latitudeDegrees * Math.PI) / 180;
  const lambda = (site.longitudeDegrees * Math.PI) / 180;
  const n = a / Math.sqrt(1 - e2 * Math.sin(phi) ** 2);
  // The tangent plane falls away below the sphere: lift the point back to its height.
  const up = heightMetres - site.elevationMetres - (eastMetres ** 2 + northMetres ** 2) / (2 * (n + heightMetres));
  const ground = {
    x: (n + site.elevationMetres) * Math.cos(phi) * Math.cos(lambda),
    y: (n + site.elevationMetres) * Math.cos(phi) * Math.sin(lambda),
    z: (n * (1 - e2) + site.elevationMetres) * Math.sin(phi),
  };
  const x = ground.x - Math.sin(lambda) * eastMetres - Math.sin(phi) * Math.cos(lambda) * northMetres + Math.cos(phi) * Math.cos(lambda) * up;
  const y = ground.y + Math.cos(lambda) * eastMetres - Math.sin(phi) * Math.sin(lambda) * northMetres + Math.cos(phi) * Math.sin(lambda) * up;
  const z = ground.z + Math.cos(phi) * northMetres + Math.sin(phi) * up;
  const p = Math.hypot(x, y);
  const theta = Math.atan2(z * a, p * b);
  const latitude = Math.atan2(z + ((a * a - b * b) / b) * Math.sin(theta) ** 3, p - e2 * a * Math.cos(theta) ** 3);
  return { latitudeDegrees: (latitude * 180) / Math.PI, longitudeDegrees: (Math.atan2(y, x) * 180) / Math.PI };
}
