import { KILOGRAMS_PER_POUND, LITRES_PER_US_GALLON, METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE, METRES_PER_STATUTE_MILE } from '../units/quantity.ts';
import { OWN_UNITS, shownUnit, type UnitChoice, type UnitKind } from '../units/unit-kinds.ts';
import { formatNumber } from './number-formats.ts';

/** How values of one kind are written in the chosen unit. Values are SI (degrees Celsius and hectopascals: as these) unless said. */
export interface Measure {
  readonly unit: string;
  /** The value in the chosen unit, not rounded. */
  of(value: number): number;
  /** Without its unit, for the rows of a table that says it: `10,500`. */
  number(value: number, decimals?: number): string;
  /** `10,500 ft`, `3,200 m`. */
  text(value: number, decimals?: number): string;
  /** A value of the job file, in its own unit there: feet, knots, nautical miles, pounds, US gallons. */
  own(value: number, decimals?: number): string;
  /** Rounded to a number of the chosen unit, the next one up, down or nearest, as SI again. */
  rounded(value: number, step: number, to: 'up' | 'down' | 'nearest'): number;
}

/** How every kind is written. Distances: those over the ground for pilots and controllers, and those of the crowd and of visibility. */
export interface UnitText extends Readonly<Record<UnitKind, Measure>> {
  readonly crowdDistance: Measure;
  /** Metres a second in a metre of height: `3.1 kt per 1,000 ft`, `1.9 km/h per 100 m`. */
  shear(perSecond: number): string;
  /** What {@link shear} writes after the number. */
  readonly shearUnit: string;
}

/** SI in one of the job file's own unit. */
const SI: Readonly<Record<UnitKind, number>> = {
  height: METRES_PER_FOOT,
  speed: METRES_PER_NAUTICAL_MILE / 3600,
  distance: METRES_PER_NAUTICAL_MILE,
  mass: KILOGRAMS_PER_POUND,
  volume: LITRES_PER_US_GALLON,
  temperature: 1,
  pressure: 1,
};

/** Decimals that a coarse unit needs beyond what its kind is written with. */
const MORE_DECIMALS: Readonly<Record<string, number>> = { 'm/s': 1, inHg: 2 };

/**
 * The one way quantities are written on screens and sheets, in the units chosen by kind. 3,200.4 m is `10,500 ft`, or
 * `3,200 m` with metres chosen.
 */
export function unitText(choice: UnitChoice = OWN_UNITS): UnitText {
  const of = (kind: UnitKind): Measure => measure(OWN_UNITS[kind], SI[kind], choice);
  const [height, speed] = [of('height'), of('speed')];
  const [stepMetres, step] = height.unit === 'm' ? [100, '100 m'] : [1000 * METRES_PER_FOOT, '1,000 ft'];
  const shearUnit = `${speed.unit} per ${step}`;
  return {
    height,
    speed,
    distance: of('distance'),
    mass: of('mass'),
    volume: of('volume'),
    temperature: of('temperature'),
    pressure: of('pressure'),
    crowdDistance: measure('statute mi', METRES_PER_STATUTE_MILE, choice),
    shearUnit,
    shear: (perSecond) => `${formatNumber(speed.of(perSecond * stepMetres), 1)} ${shearUnit}`,
  };
}

function measure(ownUnit: string, si: number, choice: UnitChoice): Measure {
  const shown = shownUnit(ownUnit, choice);
  const { unit, factor, zero } = shown ?? { unit: ownUnit, factor: 1, zero: 0 };
  const fromOwn = (value: number): number => value * factor + zero;
  const more = MORE_DECIMALS[unit] ?? 0;
  // A pressure is four figures read one by one, never grouped.
  const write = (value: number, decimals: number): string => (unit === 'hPa' ? String(Math.round(value)) : formatNumber(value, decimals + more));
  const of = (value: number): number => fromOwn(value / si);
  return {
    unit,
    of,
    number: (value, decimals = 0) => write(of(value), decimals),
    text: (value, decimals = 0) => `${write(of(value), decimals)} ${unit}`,
    own: (value, decimals = 0) => `${write(fromOwn(value), decimals)} ${unit}`,
    rounded(value, step, to) {
      const steps = of(value) / step;
      const whole = to === 'up' ? Math.ceil(steps - 1e-9) : to === 'down' ? Math.floor(steps + 1e-9) : Math.round(steps);
      return ((whole * step - zero) / factor) * si;
    },
  };
}
