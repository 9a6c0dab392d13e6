import { typedNumber } from '../../src/core/text/typed-number.ts';
import { typedPosition } from '../../src/core/text/typed-position.ts';

/** A way to type something, and what it must be taken for. */
export interface TypedForm {
  readonly what: string;
  readonly typed: string;
  /** The value meant; null for text that stands for none. */
  readonly meant: readonly number[] | null;
}

/** What became of it. */
export interface TypedOutcome extends TypedForm {
  readonly outcome: 'right' | 'asked' | 'refused' | 'WRONG';
  readonly reading: string;
}

/** Point and comma, comma and point, thin space, apostrophe, and lakhs: five ways in which devices write numbers. */
const LOCALES = ['en-US', 'pt-BR', 'fr-FR', 'de-CH', 'en-IN'] as const;
const VALUES = [0.034, 1.64, 3.5, 104.3, 640, 1640, 3500, 12_500, 45_000.5, -12.5] as const;
const WIDE = [-100_000, 1_000_000] as const;

const METRES_A_FOOT = 0.3048;
const METRES_A_MILE = 1852;
/** Values with units, in the unit of the field. */
const UNITS: readonly (readonly [typed: string, unit: string, meant: number])[] = [
  ['3000 m', 'ft', 3000 / METRES_A_FOOT],
  ['3000m', 'ft', 3000 / METRES_A_FOOT],
  ['9842 ft', 'ft', 9842],
  ['180 km/h', 'kt', 180_000 / METRES_A_MILE],
  ['180 kmh', 'kt', 180_000 / METRES_A_MILE],
  ['50 m/s', 'kt', (50 * 3600) / METRES_A_MILE],
  ['120 mph', 'kt', (120 * 1609.344) / METRES_A_MILE],
  ['97 kt', 'kt', 97],
  ['180 kg', 'lb', 180 / 0.453_592_37],
  ['400 lb', 'lb', 400],
  ['150 l', 'gal', 150 / 3.785_411_784],
  ['33 imp gal', 'gal', (33 * 4.546_09) / 3.785_411_784],
  ['40 gal', 'gal', 40],
];

/** A place in each hemisphere, to a tenth of a minute. */
const PLACES: readonly (readonly [latitude: number, longitude: number])[] = [
  [43.8721, -74.4318],
  [-8.05, -34.87],
  [-12.4634, 130.8456],
  [45.764, 4.8357],
];

const RUBBISH: readonly (readonly [typed: string, unit: string])[] = [
  ['', ''],
  ['abc', ''],
  ['1,2,3', ''],
  ['1.2.3,4', ''],
  ['12 furlongs', 'ft'],
  ['3000 kg', 'ft'],
  ['--5', ''],
  ['1e3', ''],
  ['5-6', ''],
  ['1,23,4', ''],
  ['\u221e', ''],
  ['NaN', ''],
];

export function typedOutcomes(): TypedOutcome[] {
  const found: TypedOutcome[] = [];
  for (const locale of LOCALES) {
    const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 3 });
    for (const value of VALUES) {
      found.push(number({ what: locale, typed: format.format(value), meant: [value] }, ''));
      // As people type: no groups, the locale's own decimal sign.
      const plain = new Intl.NumberFormat(locale, { maximumFractionDigits: 3, useGrouping: false }).format(value);
      if (plain !== format.format(value)) found.push(number({ what: `${locale}, typed`, typed: plain, meant: [value] }, ''));
    }
    for (const [typed, unit, meant] of UNITS.slice(0, 10))
      found.push(number({ what: `${locale}, ${unit}`, typed: localised(typed, format), meant: [meant] }, unit));
  }
  for (const [typed, unit, meant] of UNITS) found.push(number({ what: unit, typed, meant: [meant] }, unit));
  for (const place of PLACES) for (const typed of positionForms(...place)) found.push(position({ what: 'position', typed, meant: place }));
  for (const [typed, unit] of RUBBISH) found.push(number({ what: 'rubbish', typed, meant: null }, unit));
  for (const typed of ['', '43.8', 'here', '43 N 12 N', '91, 0', '0, 181', '43 61 N 7 12 E', 'N E'])
    found.push(position({ what: 'no position', typed, meant: null }));
  return found;
}

/** The number of a text as a locale writes it. */
function localised(typed: string, format: Intl.NumberFormat): string {
  return typed.replace(/^\d+/, (digits) => format.format(Number(digits)));
}

function number(form: TypedForm, unit: string): TypedOutcome {
  const read = typedNumber(form.typed, WIDE, unit);
  const near = (value: number): boolean => form.meant?.some((meant) => Math.abs(value - meant) <= 1e-9 * Math.max(1, Math.abs(meant))) === true;
  if (read.ok) return { ...form, outcome: near(read.value) ? 'right' : 'WRONG', reading: String(read.value) };
  if (read.readings.length > 0) return { ...form, outcome: read.readings.some(near) ? 'asked' : 'WRONG', reading: read.readings.join(' or ') };
  return { ...form, outcome: 'refused', reading: read.reason };
}

function position(form: TypedForm): TypedOutcome {
  const read = typedPosition(form.typed);
  if (!read.ok) return { ...form, outcome: 'refused', reading: read.reason };
  const [latitude = Number.NaN, longitude = Number.NaN] = form.meant ?? [];
  // A tenth of a second of arc: 3 m.
  const right = Math.abs(read.latitudeDegrees - latitude) < 3e-5 && Math.abs(read.longitudeDegrees - longitude) < 3e-5;
  return { ...form, outcome: right ? 'right' : 'WRONG', reading: `${read.latitudeDegrees.toFixed(5)}, ${read.longitudeDegrees.toFixed(5)}` };
}

function positionForms(latitude: number, longitude: number): string[] {
  const [north, east] = [latitude < 0 ? 'S' : 'N', longitude < 0 ? 'W' : 'E'];
  const [lat, lon] = [Math.abs(latitude), Math.abs(longitude)];
  const minutes = (degrees: number): string => ((degrees % 1) * 60).toFixed(4);
  const parts = (degrees: number): readonly [number, number, string] => {
    const whole = Math.floor(degrees);
    const minute = Math.floor((degrees - whole) * 60 + 1e-9);
    return [whole, minute, Math.max(0, ((degrees - whole) * 60 - minute) * 60).toFixed(2)];
  };
  const [a, b, c] = parts(lat);
  const [d, e, f] = parts(lon);
  return [
    `${latitude}, ${longitude}`,
    `${latitude} ${longitude}`,
    `${latitude};${longitude}`,
    `${String(latitude).replace('.', ',')} ${String(longitude).replace('.', ',')}`,
    `${String(latitude).replace('.', ',')}; ${String(longitude).replace('.', ',')}`,
    `${lat} ${north} ${lon} ${east}`,
    `${north}${lat} ${east}${lon}`,
    `${lat}\u00b0 ${north}, ${lon}\u00b0 ${east}`,
    `${Math.floor(lat)}\u00b0 ${minutes(lat)}\u2032 ${north} ${Math.floor(lon)}\u00b0 ${minutes(lon)}\u2032 ${east}`,
    `${Math.floor(lat)} ${minutes(lat).replace('.', ',')} ${north} ${Math.floor(lon)} ${minutes(lon).replace('.', ',')} ${east}`,
    `${a}\u00b0${b}'${c}" ${north} ${d}\u00b0${e}'${f}" ${east}`,
    `${north} ${a} ${b} ${c} ${east} ${d} ${e} ${f}`,
    `${lon} ${east} ${lat} ${north}`,
  ];
}
