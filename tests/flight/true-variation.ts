import geomagnetism from 'geomagnetism';

/**
 * Magnetic variation of a place in the simulated world, east positive: the World Magnetic Model asked directly, apart
 * from the app. A compass there shows the true heading less this.
 */
export function trueVariationDegrees(
  place: { readonly latitudeDegrees: number; readonly longitudeDegrees: number },
  heightMetres: number,
  epochMilliseconds: number,
): number {
  return geomagnetism.model(new Date(epochMilliseconds)).point([place.latitudeDegrees, place.longitudeDegrees, heightMetres / 1000]).decl;
}
