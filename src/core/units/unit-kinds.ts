import { KILOGRAMS_PER_POUND, LITRES_PER_US_GALLON, METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE, METRES_PER_STATUTE_MILE } from './quantity.ts';

const LITRES_PER_IMPERIAL_GALLON = 4.546_09;

/** What a person may enter a kind of value in: how many of the kind's first unit each unit is, by how it is written. */
export const UNIT_KINDS = {
  height: { ft: 1, m: 1 / METRES_PER_FOOT },
  speed: {
    kt: 1,
    'km/h': 1000 / METRES_PER_NAUTICAL_MILE,
    mph: METRES_PER_STATUTE_MILE / METRES_PER_NAUTICAL_MILE,
    'm/s': 3600 / METRES_PER_NAUTICAL_MILE,
  },
  mass: { lb: 1, kg: 1 / KILOGRAMS_PER_POUND },
  volume: { gal: 1, l: 1 / LITRES_PER_US_GALLON, 'imp gal': LITRES_PER_IMPERIAL_GALLON / LITRES_PER_US_GALLON },
} as const satisfies Readonly<Record<string, Readonly<Record<string, number>>>>;

export type UnitKind = keyof typeof UNIT_KINDS;

/** The unit chosen for each kind. */
export type UnitChoice = Readonly<Record<UnitKind, string>>;

/** The job file's own: feet, knots, pounds, US gallons. */
export const OWN_UNITS: UnitChoice = { height: 'ft', speed: 'kt', mass: 'lb', volume: 'gal' };

/** A unit of the job file as it is shown: `lb/min` with kilograms chosen is `kg/min`. */
export interface ShownUnit {
  readonly kind: UnitKind;
  readonly unit: string;
  /** How many of the shown unit one of the file's is. */
  readonly factor: number;
}

/** How a unit of the job file is shown by a choice; null for one that has no other. */
export function shownUnit(unit: string, choice: UnitChoice): ShownUnit | null {
  const [plain = '', ...rate] = unit.split('/');
  const kind = (Object.keys(UNIT_KINDS) as UnitKind[]).find((each) => Object.keys(UNIT_KINDS[each])[0] === plain);
  if (kind === undefined) return null;
  const units: Readonly<Record<string, number>> = UNIT_KINDS[kind];
  const chosen = Object.hasOwn(units, choice[kind]) ? choice[kind] : plain;
  return { kind, unit: [chosen, ...rate].join('/'), factor: 1 / (units[chosen] ?? 1) };
}

/** The unit after one, of its kind, round and round. */
export function nextUnit(kind: UnitKind, unit: string): string {
  const units = Object.keys(UNIT_KINDS[kind]);
  return units[(units.indexOf(unit) + 1) % units.length] ?? unit;
}

/** A step near one in another unit, of 1, 2 or 5 with zeros: 500 ft is 200 m, not 152.4. */
export function roundStep(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step));
  const share = step / power;
  return Number(((share < 1.5 ? 1 : share < 3.5 ? 2 : share < 7.5 ? 5 : 10) * power).toPrecision(3));
}

/** How many of one unit one of another is, for any two of a kind; as typed after a number. Empty for units of no kind. */
export function othersOf(unit: string): Readonly<Record<string, number>> {
  for (const units of Object.values(UNIT_KINDS) as readonly Readonly<Record<string, number>>[]) {
    const own = units[unit];
    if (own === undefined) continue;
    const others = Object.fromEntries(Object.entries(units).map(([other, factor]) => [other, factor / own]));
    return others['km/h'] === undefined ? others : { ...others, kmh: others['km/h'] };
  }
  return {};
}
