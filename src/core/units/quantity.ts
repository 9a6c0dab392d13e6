/**
 * The only conversions between SI and the pilot's units. Each reads target first and has its inverse.
 * Factors are exact by definition: international foot, nautical mile and statute mile (1959), pound
 * (avoirdupois, 1959), US gallon of 231 cubic inches.
 */

export const METRES_PER_FOOT = 0.3048;
export const METRES_PER_NAUTICAL_MILE = 1852;
export const METRES_PER_STATUTE_MILE = 1609.344;
export const KILOGRAMS_PER_POUND = 0.453_592_37;
export const LITRES_PER_US_GALLON = 3.785_411_784;
/** Standard gravity, metres per second squared (CGPM 1901). */
export const STANDARD_GRAVITY = 9.806_65;

const SECONDS_PER_HOUR = 3600;

export const metresFromFeet = (feet: number): number => feet * METRES_PER_FOOT;
export const feetFromMetres = (metres: number): number => metres / METRES_PER_FOOT;

export const metresFromNauticalMiles = (nauticalMiles: number): number => nauticalMiles * METRES_PER_NAUTICAL_MILE;
export const nauticalMilesFromMetres = (metres: number): number => metres / METRES_PER_NAUTICAL_MILE;

export const metresFromStatuteMiles = (statuteMiles: number): number => statuteMiles * METRES_PER_STATUTE_MILE;
export const statuteMilesFromMetres = (metres: number): number => metres / METRES_PER_STATUTE_MILE;

export const metresPerSecondFromKnots = (knots: number): number => (knots * METRES_PER_NAUTICAL_MILE) / SECONDS_PER_HOUR;
export const knotsFromMetresPerSecond = (metresPerSecond: number): number => (metresPerSecond * SECONDS_PER_HOUR) / METRES_PER_NAUTICAL_MILE;

/** @oracle */
export const metresPerSecondFromMilesPerHour = (milesPerHour: number): number => (milesPerHour * METRES_PER_STATUTE_MILE) / SECONDS_PER_HOUR;

export const kilogramsFromPounds = (pounds: number): number => pounds * KILOGRAMS_PER_POUND;
export const poundsFromKilograms = (kilograms: number): number => kilograms / KILOGRAMS_PER_POUND;

export const litresFromGallons = (gallons: number): number => gallons * LITRES_PER_US_GALLON;
