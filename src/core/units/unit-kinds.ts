import { KILOGRAMS_PER_POUND, LITRES_PER_US_GALLON, METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE, METRES_PER_STATUTE_MILE } from './quantity.ts';

const LITRES_PER_IMPERIAL_GALLON = 4.546_09;
/** The conventional inch of mercury (NIST SP 811, appendix B: 3.386 389 E+03 Pa). */
export const HECTOPASCALS_PER_INCH_OF_MERCURY = 33.863_89;

/** What a person may enter a kind of value in: how many of the kind's first unit each unit is, by how it is written. */
export const UNIT_KINDS = {
  height: { ft: 1, m: 1 / METRES_PER_FOOT },
  speed: {
    kt: 1,
    'km/h': 1000 / METRES_PER_NAUTICAL_MILE,
    mph: METRES_PER_STATUTE_MILE / METRES_PER_NAUTICAL_MILE,
    'm/s': 3600 / METRES_PER_NAUTICAL_MILE,
  },
  distance: { NM: 1, km: 1000 / METRES_PER_NAUTICAL_MILE, 'statute mi': METRES_PER_STATUTE_MILE / METRES_PER_NAUTICAL_MILE },
  mass: { lb: 1, kg: 1 / KILOGRAMS_PER_POUND },
  volume: { gal: 1, l: 1 / LITRES_PER_US_GALLON, 'imp gal': LITRES_PER_IMPERIAL_GALLON / LITRES_PER_US_GALLON },
  temperature: { '\u00b0C': 1, '\u00b0F': 5 / 9 },
  pressure: { hPa: 1, inHg: HECTOPASCALS_PER_INCH_OF_MERCURY },
} as const satisfies Readonly<Record<string, Readonly<Record<string, number>>>>;

export type UnitKind = keyof typeof UNIT_KINDS;

/** What a unit shows where its kind's first unit is 0. */
const ZERO: Readonly<Record<string, number>> = { '\u00b0F': 32 };

/** As they are typed beside how they are written. */
const TYPED: Readonly<Record<string, string>> = { kmh: 'km/h', mi: 'statute mi', c: '\u00b0C', f: '\u00b0F' };

/** The unit chosen for each kind. */
export type UnitChoice = Readonly<Record<UnitKind, string>>;

/** The job file's own, each the first of its kind: feet, knots, nautical miles, pounds, US gallons, degrees Celsius, hectopascals. */
export const OWN_UNITS: UnitChoice = Object.fromEntries(
  Object.entries(UNIT_KINDS).map(([kind, units]) => [kind, Object.keys(units)[0] ?? '']),
) as unknown as UnitChoice;

/** One unit in another: `value * factor + zero`. */
export interface Conversion {
  readonly factor: number;
  readonly zero: number;
}

/** A unit of the job file as it is shown: `lb/min` with kilograms chosen is `kg/min`, `lb/gal` with litres too `kg/l`. */
export interface ShownUnit extends Conversion {
  readonly kind: UnitKind;
  readonly unit: string;
}

/** What a crowd and a visibility are told in: nautical miles are for pilots and controllers. */
const LAND_MILE = 'statute mi';

/** How a unit of the job file is shown by a choice; null for one that has no other. */
export function shownUnit(unit: string, choice: UnitChoice): ShownUnit | null {
  const [plain = '', ...rate] = unit.split('/');
  const kind = kindOf(plain);
  if (kind === null) return null;
  const wanted = plain === LAND_MILE && choice[kind] === 'NM' ? LAND_MILE : choice[kind];
  const chosen = Object.hasOwn(UNIT_KINDS[kind], wanted) ? wanted : plain;
  const { factor, zero } = conversion(kind, plain, chosen);
  const [per = ''] = rate;
  const perShown = kindOf(per) === null ? null : shownUnit(per, choice);
  if (perShown === null) return { kind, unit: [chosen, ...rate].join('/'), factor, zero };
  return { kind, unit: `${chosen}/${perShown.unit}`, factor: factor / perShown.factor, zero };
}

/** The unit after one, of its kind, round and round; after a crowd's kilometres come its statute miles, chosen as nautical ones. */
export function nextUnit(kind: UnitKind, unit: string, ofCrowd = false): string {
  const units = Object.keys(UNIT_KINDS[kind]);
  if (ofCrowd) return unit === 'km' ? 'NM' : 'km';
  return units[(units.indexOf(unit) + 1) % units.length] ?? unit;
}

/** A step near one in another unit, of 1, 2 or 5 with zeros: 500 ft is 200 m, not 152.4. */
export function roundStep(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step));
  const share = step / power;
  return Number(((share < 1.5 ? 1 : share < 3.5 ? 2 : share < 7.5 ? 5 : 10) * power).toPrecision(3));
}

/** What may be typed after a number in a field of a unit, in small letters, and what it is in that unit. Empty for units of no kind. */
export function othersOf(unit: string): Readonly<Record<string, Conversion>> {
  const kind = kindOf(unit);
  if (kind === null) return {};
  const units = Object.keys(UNIT_KINDS[kind]);
  const short = Object.entries(TYPED).filter(([, written]) => units.includes(written));
  return Object.fromEntries(
    [...units.map((other) => [other, other] as const), ...short].map(([typed, other]) => [typed.toLowerCase(), conversion(kind, other, unit)]),
  );
}

function kindOf(unit: string): UnitKind | null {
  return (Object.keys(UNIT_KINDS) as UnitKind[]).find((kind) => Object.hasOwn(UNIT_KINDS[kind], unit)) ?? null;
}

function conversion(kind: UnitKind, from: string, to: string): Conversion {
  const units: Readonly<Record<string, number>> = UNIT_KINDS[kind];
  const factor = (units[from] ?? Number.NaN) / (units[to] ?? Number.NaN);
  return { factor, zero: (ZERO[to] ?? 0) - (ZERO[from] ?? 0) * factor };
}
