import type { Job, JobShip } from '../../core/job/job.ts';
import { jobLimits } from '../../core/job/job-limits.ts';
import { withEntered } from '../../core/job/not-entered.ts';
import type { Limits } from '../../core/text/field-schemas.ts';

/** How a number of the job is asked for; its limits are the job file's own. */
export interface JobField {
  /** As beside the entry. */
  readonly label: string;
  /** Written after the value: `kt`, `ft`, `\u00b0`; empty for a plain number. */
  readonly unit: string;
  /** Of a number whose label already names it: other units of the same kind may be typed. */
  readonly typedUnit?: string;
  /** What one touch of the minus or plus key changes; null for a number that is typed. */
  readonly step: number | null;
  /** What undo calls an edit of it; the label in small letters where nothing stands here. */
  readonly edit?: string;
  /** Why the range ends where it does, said when a value lies outside it. */
  readonly outside?: string;
  /** A bearing: goes round instead of stopping at the ends. */
  readonly wraps?: true;
  /** Shown in the empty entry of a number that nobody need say, and said of it. */
  readonly empty?: { readonly shown: string; readonly means: string };
}

const NOT_SAID = { shown: 'not said', means: 'not said' };
const BANK_OUTSIDE = 'Level wings never turn, and no aircraft holds its height at 90\u00b0.';
const bank = (label: string): JobField => ({ label, unit: '\u00b0', step: 5, outside: BANK_OUTSIDE });

/** Every number of the job that the Draw screen asks for one by one, by its path in the job file; of a list, by its item's. */
export const JOB_FIELDS = {
  facingDegreesTrue: { label: 'Crowd looks towards, true', unit: '\u00b0', step: 5, wraps: true, edit: 'facing' },
  viewElevationDegrees: { label: 'Text stands above the horizon', unit: '\u00b0', step: 5, edit: 'elevation' },
  'layer.altitudeFeet': { label: 'Layer, above sea level', unit: 'ft', step: 500, edit: 'layer' },
  'conditions.altimeterHectopascals': {
    label: 'Altimeter setting, QNH, hPa',
    unit: '',
    typedUnit: 'hPa',
    step: null,
    edit: 'altimeter setting',
    empty: NOT_SAID,
  },
  'site.latitudeDegrees': { label: 'Latitude, \u00b0, north positive', unit: '', step: null, edit: 'latitude' },
  'site.longitudeDegrees': { label: 'Longitude, \u00b0, east positive', unit: '', step: null, edit: 'longitude' },
  'site.elevationFeet': { label: 'Elevation, ft', unit: '', typedUnit: 'ft', step: null, edit: 'site elevation' },
  'site.crowdFacingDegreesTrue': {
    label: 'Crowd faces of itself, \u00b0 true',
    unit: '',
    step: null,
    wraps: true,
    edit: 'crowd',
    empty: { shown: 'any way', means: 'does not matter' },
  },
  'letters.heightFeet': { label: 'Letter height', unit: 'ft', step: 100 },
  'letters.spacingHeights': { label: 'Gap, share of height', unit: '', step: 0.05, edit: 'spacing' },
  'letters.depthStretch': { label: 'Stretch in depth', unit: '\u00d7', step: 0.1, edit: 'depth stretch' },
  'options.runInSeconds': { label: 'Run-in', unit: 's', step: 0.5 },
  'options.runOutSeconds': { label: 'Run-out', unit: 's', step: 0.5 },
  'options.longestUnfinishedSeconds': {
    label: 'Letter half-written, at most',
    unit: 's',
    step: 30,
    edit: 'cap on half-written letters',
    outside: 'Longer, its first strokes spread before its last are written.',
  },
  'options.joinUpStepFeet': { label: 'Join and wait apart by', unit: 'ft', step: 100, edit: 'join-up step' },
  'options.heightStepFeet': { label: 'Each ship higher by', unit: 'ft', step: 50, edit: 'height step' },
  'options.separationFeet': { label: 'Ships apart, at least', unit: 'ft', step: 100, edit: 'separation' },
  'ships.trueAirspeedKnots': { label: 'True airspeed', unit: 'kt', step: 5 },
  'ships.writingBankDegrees': bank('Bank while writing'),
  'ships.turningBankDegrees': bank('Bank between strokes'),
  'ships.maximumBankDegrees': bank('Bank at most, to correct'),
  'ships.rollRateDegreesPerSecond': { label: 'Roll', unit: '\u00b0/s', step: 5 },
  'ships.smokeOilPounds': { label: 'Smoke oil carried', unit: 'lb', step: 10 },
  'ships.smokeOilPoundsPerMinute': { label: 'Smoke oil burnt', unit: 'lb/min', step: 1 },
  'ships.fuelGallons': { label: 'Fuel carried', unit: 'gal', step: 1 },
  'ships.fuelGallonsPerHour': { label: 'Fuel burnt', unit: 'gal/h', step: 1 },
  'ships.fuelReserveMinutes': { label: 'Fuel reserve', unit: 'min', step: 5 },
  'ships.otherFlyingMinutes': {
    label: 'Climb, transit and return, min',
    unit: '',
    step: null,
    edit: 'climb and transit',
    empty: NOT_SAID,
  },
  'ships.oilPoundsPerGallon': { label: 'Smoke oil, lb/gal', unit: '', typedUnit: 'lb/gal', step: null, edit: 'oil density', empty: NOT_SAID },
  'ships.smokeTankGallons': { label: 'Smoke tank holds, gal', unit: '', typedUnit: 'gal', step: null, edit: 'smoke tank', empty: NOT_SAID },
  'ships.climbFeetPerMinute': { label: 'Climbs, ft/min, tank full', unit: '', typedUnit: 'ft/min', step: null, edit: 'climb', empty: NOT_SAID },
  'ships.bingoFuelGallons': { label: 'Bingo fuel: home with, gal', unit: '', typedUnit: 'gal', step: null, edit: 'bingo fuel', empty: NOT_SAID },
  'ships.valveOnSeconds': { label: 'Smoke appears after', unit: 's', step: 0.1 },
  'ships.valveOffSeconds': { label: 'Smoke ends after', unit: 's', step: 0.1 },
  'ships.reactionSeconds': { label: 'Hand after the cue', unit: 's', step: 0.1 },
} as const satisfies Readonly<Record<string, JobField>>;

export type JobFieldPath = keyof typeof JOB_FIELDS;

/** How the number at a path is asked for. */
export function jobField(path: JobFieldPath): JobField & { readonly limits: Limits } {
  return { ...JOB_FIELDS[path], limits: jobLimits(path) };
}

/** The number at a path, of the item `index` where it stands in a list; null where nobody has said it. */
export function jobNumber(job: Job, path: JobFieldPath, index = 0): number | null {
  const [first = '', second] = path.split('.');
  const outer = (job as unknown as Readonly<Record<string, unknown>>)[first];
  const at = (Array.isArray(outer) ? outer[index] : outer) as number | Readonly<Record<string, number | null>> | undefined;
  return typeof at === 'object' && second !== undefined ? (at[second] ?? null) : typeof at === 'number' ? at : null;
}

/** The job with another number at a path. A ship's bank for corrections is never less than the banks it flies anyway. */
export function withJobNumber(job: Job, path: JobFieldPath, value: number | null, index = 0): Job {
  const [first = '', second] = path.split('.');
  const kept = value !== null && jobField(path).wraps === true ? value % 360 : value;
  const outer = (job as unknown as Readonly<Record<string, unknown>>)[first];
  const inside = (group: unknown): object => ({ ...(group as object), [second ?? '']: kept });
  const changed = second === undefined ? kept : Array.isArray(outer) ? outer.map((item: unknown, at) => (at === index ? inside(item) : item)) : inside(outer);
  const next = { ...job, [first]: changed } as Job;
  const entered = withEntered(next, path);
  return first === 'ships' ? { ...entered, ships: entered.ships.map((ship, at) => (at === index ? withSoundBanks(ship) : ship)) } : entered;
}

/** What undo calls an edit of a field. */
export function editName(job: Job, path: JobFieldPath, index = 0): string {
  const { edit, label }: JobField = JOB_FIELDS[path];
  const name = edit ?? label.toLowerCase();
  return path.startsWith('ships.') ? `${job.ships[index]?.name ?? ''}, ${name}` : name;
}

function withSoundBanks(ship: JobShip): JobShip {
  const flown = Math.max(ship.writingBankDegrees, ship.turningBankDegrees);
  return ship.maximumBankDegrees >= flown ? ship : { ...ship, maximumBankDegrees: flown };
}
