import type { Variation } from '../earth/magnetic-variation.ts';
import type { SunDay } from '../earth/sun.ts';
import type { ShearVector, WindAtHeight } from '../earth/wind-profile.ts';
import { windSpeedMetresPerSecond } from '../earth/wind-vector.ts';
import type { ShipBudget } from '../planning/budget.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresFromFeet, metresFromNauticalMiles, metresPerSecondFromKnots } from '../units/quantity.ts';
import { type CloudLayer, cloudMinima, type CloudStanding, cloudStanding, oxygenNeed } from './air-rules.ts';
import type { Check, CheckStatus, CheckValue } from './check.ts';
import { SUN_MARGIN_RADIANS } from './facing-choice.ts';
import type { AreaContact } from './overlay-contact.ts';
import type { ReadingWindow } from './reading-window.ts';
import { STANDING_CAUTIONS } from './standing-cautions.ts';

/** What is known of a job before it is flown. Null means that nobody has looked. */
export interface GoFacts {
  readonly siteElevationMetres: number;
  /** Above mean sea level. */
  readonly layerHeightMetres: number;
  readonly firstSmokeMilliseconds: number;
  readonly readMilliseconds: number;
  /** Climb, writing, descent: time above 12,500 ft at most this. */
  readonly secondsAtHeight: number;
  readonly wind: WindAtHeight | null;
  readonly shear: ShearVector | null;
  /** The bulletin's period of use. */
  readonly windsUse: { readonly fromMilliseconds: number; readonly toMilliseconds: number } | null;
  readonly clouds: readonly CloudLayer[] | null;
  readonly visibilityMetres: number | null;
  readonly sunDay: SunDay;
  readonly sunMarginRadians: number | null;
  readonly glareShare: number | null;
  readonly budgets: readonly ShipBudget[];
  /** Least distance between ships in the plan and the one asked for; null with one ship. */
  readonly separation: { readonly leastMetres: number; readonly wantedMetres: number } | null;
  readonly steepestBankRadians: number;
  readonly window: ReadingWindow | null;
  /** No-go areas near the flight; null without an overlay. */
  readonly areas: readonly AreaContact[] | null;
  readonly variation: Variation | null;
}

export interface GoNoGo {
  readonly checks: readonly Check[];
  /** Worst of what was checked. Never "safe": see the ones that were not. */
  readonly worst: 'ok' | 'caution' | 'stop';
  readonly notChecked: number;
}

const NO_SOURCE = 'common practice, no source';
const CAUTION_WIND = metresPerSecondFromKnots(25);
const STOP_WIND = metresPerSecondFromKnots(50);
const CAUTION_SHEAR_PER_SECOND = 0.01;
const SPARE_OIL = 0.1;
const AREA_MARGIN_METRES = metresFromNauticalMiles(1);
const STEEPEST_BANK_RADIANS = radiansFromDegrees(60);

/** Every check, in the order in which a pilot would ask, then what nobody can check from here. */
export function goNoGo(facts: GoFacts): GoNoGo {
  const checks = [
    ...cloudAndVisibility(facts),
    ...windAndShear(facts),
    ...light(facts),
    ...heights(facts),
    ...tanks(facts),
    ...others(facts),
    ...STANDING_CAUTIONS,
  ];
  const has = (status: CheckStatus): boolean => checks.some((check) => check.status === status);
  return {
    checks,
    worst: has('stop') ? 'stop' : has('caution') ? 'caution' : 'ok',
    notChecked: checks.filter((check) => check.status === 'not-checked').length,
  };
}

const CLOUD_STATUS: Record<CloudStanding, { readonly status: CheckStatus; readonly advice: string }> = {
  clear: { status: 'ok', advice: 'Look again before take-off; reports are points, clouds are not.' },
  'partly hidden': { status: 'caution', advice: 'Scattered cloud below will hide letters from part of the crowd.' },
  'hidden from below': { status: 'stop', advice: 'Cloud below hides the text from the crowd; take a layer below it or another hour.' },
  'unknown top': { status: 'caution', advice: 'The cloud\'s top is not reported; the layer may be in it.' },
  'too near': { status: 'stop', advice: 'The layer is nearer to cloud than visual rules allow; change layer or hour.' },
  'in cloud': { status: 'stop', advice: 'The layer is in cloud; change layer or hour.' },
  'not checked': { status: 'not-checked', advice: 'No cloud was entered; look at reports and forecasts.' },
};

function cloudAndVisibility(facts: GoFacts): Check[] {
  const minima = cloudMinima(facts.layerHeightMetres);
  const standing = cloudStanding(facts.layerHeightMetres, facts.clouds);
  const { visibilityMetres } = facts;
  return [
    {
      id: 'cloud',
      title: 'Distance from cloud',
      ...CLOUD_STATUS[standing],
      value: standing === 'not checked' ? null : words(standing),
      limit: distance(minima.belowCloudMetres),
      source: '14 CFR 91.155',
    },
    {
      id: 'visibility',
      title: 'Flight visibility',
      status: visibilityMetres === null ? 'not-checked' : visibilityMetres < minima.visibilityMetres ? 'stop' : 'ok',
      value: visibilityMetres === null ? null : distance(visibilityMetres),
      limit: distance(minima.visibilityMetres),
      source: '14 CFR 91.155',
      advice: visibilityMetres === null ? 'No visibility was entered.' : 'The minimum changes at 10,000 ft; haze also takes contrast from the letters.',
    },
  ];
}

function windAndShear({ wind, shear, windsUse, readMilliseconds }: GoFacts): Check[] {
  const speed = wind?.ok ? windSpeedMetresPerSecond(wind.wind) : null;
  const shearPerSecond = shear === null ? null : Math.hypot(shear.eastPerSecond, shear.northPerSecond);
  const windStatus = speed === null ? (wind === null ? 'not-checked' : 'caution') : speed > STOP_WIND ? 'stop' : speed > CAUTION_WIND || (wind?.ok && !wind.directionKnown) ? 'caution' : 'ok';
  const late = windsUse !== null && (readMilliseconds < windsUse.fromMilliseconds || readMilliseconds > windsUse.toMilliseconds);
  return [
    {
      id: 'wind',
      title: 'Wind at the layer',
      status: windStatus,
      value: speed === null ? (wind?.ok === false ? words(wind.reason) : null) : { kind: 'speed', metresPerSecond: speed },
      limit: { kind: 'speed', metresPerSecond: CAUTION_WIND },
      source: NO_SOURCE,
      advice:
        wind?.ok === false
          ? 'Without it everything is placed as if the air stood still, which is of no use to fly by. Paste or type winds around the layer, or measure them on the way up.'
          : wind?.ok && !wind.directionKnown
            ? 'Light and variable: the direction is not known, measure the wind before the first stroke.'
            : 'Letters drift with the wind; the stronger it is the more a wrong forecast costs. Measure it on the way up.',
    },
    {
      id: 'shear',
      title: 'Change of wind with height',
      status: shearPerSecond === null ? 'not-checked' : shearPerSecond > CAUTION_SHEAR_PER_SECOND ? 'caution' : 'ok',
      value: shearPerSecond === null ? null : { kind: 'shear', perSecond: shearPerSecond },
      limit: { kind: 'shear', perSecond: CAUTION_SHEAR_PER_SECOND },
      source: NO_SOURCE,
      advice: 'Shear tears strokes across it apart. Rows far apart in height hide what is between them.',
    },
    {
      id: 'winds-period',
      title: 'Winds made for this hour',
      status: windsUse === null ? 'not-checked' : late ? 'caution' : 'ok',
      value: { kind: 'instant', epochMilliseconds: readMilliseconds },
      limit: windsUse === null ? null : { kind: 'instant', epochMilliseconds: late && readMilliseconds < windsUse.fromMilliseconds ? windsUse.fromMilliseconds : windsUse.toMilliseconds },
      source: 'FAA AC 00-45H, 5.13.1',
      advice: windsUse === null ? 'The winds carry no period of use.' : 'Use the bulletin whose period holds the read time.',
    },
  ];
}

function light({ sunDay, firstSmokeMilliseconds, readMilliseconds, sunMarginRadians, glareShare }: GoFacts): Check[] {
  const { riseMilliseconds, setMilliseconds, kind } = sunDay;
  const early = riseMilliseconds !== null && firstSmokeMilliseconds < riseMilliseconds;
  const late = setMilliseconds !== null && readMilliseconds > setMilliseconds;
  const dark = kind === 'polar night' || early || late;
  return [
    {
      id: 'daylight',
      title: 'Daylight',
      status: dark ? 'stop' : 'ok',
      value: kind === 'day and night' ? { kind: 'instant', epochMilliseconds: early ? firstSmokeMilliseconds : readMilliseconds } : words(kind),
      limit: early ? instant(riseMilliseconds) : instant(setMilliseconds),
      source: 'sunrise and sunset; lights from sunset by 14 CFR 91.209',
      advice: dark ? 'The sun is down for some of it; smoke needs light to be read.' : 'Plan to land with light to spare.',
    },
    {
      id: 'sun-crowd',
      title: 'Sun for the crowd',
      status: sunMarginRadians === null ? 'not-checked' : sunMarginRadians < SUN_MARGIN_RADIANS ? 'caution' : 'ok',
      value: sunMarginRadians === null ? null : { kind: 'angle', radians: sunMarginRadians },
      limit: { kind: 'angle', radians: SUN_MARGIN_RADIANS },
      source: NO_SOURCE,
      advice: sunMarginRadians === null ? 'The sun is down while it is to be read.' : 'Nearer than this the crowd looks into the sun: choose another facing or hour.',
    },
    {
      id: 'sun-pilot',
      title: 'Sun in the pilot\'s eyes',
      status: glareShare === null ? 'not-checked' : glareShare > 0 ? 'caution' : 'ok',
      value: glareShare === null ? null : { kind: 'share', fraction: glareShare },
      limit: { kind: 'share', fraction: 0 },
      source: NO_SOURCE,
      advice: 'Strokes with a low sun within 25 degrees of the nose: turn them round or change the hour.',
    },
  ];
}

function heights({ layerHeightMetres, siteElevationMetres, secondsAtHeight }: GoFacts): Check[] {
  const aboveMetres = layerHeightMetres - siteElevationMetres;
  const oxygen = oxygenNeed(layerHeightMetres, secondsAtHeight);
  const limitFeet = oxygen === 'required throughout' ? 14_000 : oxygen === 'required' ? 12_500 : 10_000;
  return [
    {
      id: 'height',
      title: 'Height above the crowd',
      status: aboveMetres < metresFromFeet(1_000) ? 'stop' : aboveMetres < metresFromFeet(1_500) ? 'caution' : 'ok',
      value: height(aboveMetres),
      limit: height(metresFromFeet(aboveMetres < metresFromFeet(1_000) ? 1_000 : 1_500)),
      source: '14 CFR 91.119, 91.303',
      advice: 'Not over people below the minimum heights.',
    },
    {
      id: 'oxygen',
      title: 'Oxygen',
      status: oxygen === 'none' ? 'ok' : 'caution',
      value: height(layerHeightMetres),
      limit: height(metresFromFeet(limitFeet)),
      source: '14 CFR 91.211(a); AIM 8-1-2',
      advice:
        oxygen === 'none'
          ? 'Not required or advised by day at this height.'
          : oxygen === 'advised'
            ? 'Advised above 10,000 ft by day. Whether it is aboard was not checked.'
            : 'Required at this height for this long. Whether it is aboard was not checked.',
    },
  ];
}

function tanks({ budgets }: GoFacts): Check[] {
  return budgets.flatMap((budget): Check[] => {
    const oilTank = budget.oilNeededKilograms + budget.oilLeftKilograms;
    const littleOil = budget.oilLeftKilograms < SPARE_OIL * oilTank;
    const littleFuel = budget.fuelLeftLitres < budget.fuelReserveLitres * (1 + SPARE_OIL);
    return [
      {
        id: `oil-${budget.shipIndex}`,
        title: `Smoke oil, ship ${budget.shipIndex + 1}`,
        status: !budget.oilSuffices ? 'stop' : littleOil ? 'caution' : 'ok',
        value: { kind: 'mass', kilograms: budget.oilNeededKilograms },
        limit: { kind: 'mass', kilograms: oilTank },
        source: NO_SOURCE,
        advice: 'A redo costs oil too: keep a tenth of the tank.',
      },
      {
        id: `fuel-${budget.shipIndex}`,
        title: `Fuel with reserve, ship ${budget.shipIndex + 1}`,
        // Too little for the writing alone is too little, whatever the rest takes.
        status: !budget.fuelSuffices ? 'stop' : !budget.wholeFlightCounted ? 'not-checked' : littleFuel ? 'caution' : 'ok',
        value: { kind: 'volume', litres: budget.fuelLeftLitres },
        limit: { kind: 'volume', litres: budget.fuelReserveLitres },
        source: '14 CFR 91.151: 30 minutes by day, 45 by night; the job\'s own reserve',
        advice: budget.wholeFlightCounted
          ? 'What is left after climb, transit, writing and return, against the reserve.'
          : 'What the writing alone leaves: enter the minutes of climb, transit and return.',
      },
    ];
  });
}

function others({ separation, steepestBankRadians, window, readMilliseconds, firstSmokeMilliseconds, areas, variation, wind }: GoFacts): Check[] {
  const readSeconds = (readMilliseconds - firstSmokeMilliseconds) / 1_000;
  const checks: Check[] = [];
  if (separation !== null) {
    checks.push({
      id: 'separation',
      title: 'Ships apart',
      status: separation.leastMetres < separation.wantedMetres ? 'stop' : 'ok',
      value: distance(separation.leastMetres),
      limit: distance(separation.wantedMetres),
      source: 'the job; 14 CFR 91.111',
      advice: 'As planned, with the slips the plan allows for. In the air the eyes keep ships apart.',
    });
  }
  checks.push({
    id: 'bank',
    title: 'Steepest bank',
    status: steepestBankRadians > STEEPEST_BANK_RADIANS ? 'caution' : 'ok',
    value: { kind: 'angle', radians: steepestBankRadians },
    limit: { kind: 'angle', radians: STEEPEST_BANK_RADIANS },
    source: '14 CFR 91.307(c)',
    advice: 'Beyond 60 degrees parachutes are required with anyone else aboard; the stall speed is up by 41 % at 60.',
  });
  const readable = window === null ? null : readableAt(readSeconds, window);
  checks.push({
    id: 'reading',
    title: 'Reads at the read time',
    // In still air nothing drifts too far, so a good answer is no answer.
    status: readable === null ? 'not-checked' : wind?.ok === false && readable.status === 'ok' ? 'caution' : readable.status,
    value: { kind: 'duration', seconds: readSeconds },
    limit: window === null ? null : { kind: 'duration', seconds: window.until.likelySeconds },
    source: 'reckoned from spread, contrast, spacing and size; a range, not a promise',
    advice: readable === null ? 'No reading window was worked out.' : `${readable.advice}${wind?.ok === false ? ' Reckoned in still air: the wind at the layer is not known.' : ''}`,
  });
  const nearest = areas?.[0];
  checks.push({
    id: 'areas',
    title: 'No-go areas',
    status: areas === null ? 'not-checked' : nearest === undefined ? 'ok' : nearest.inside ? 'stop' : nearest.distanceMetres < AREA_MARGIN_METRES ? 'caution' : 'ok',
    value: nearest === undefined ? null : distance(nearest.distanceMetres),
    limit: distance(AREA_MARGIN_METRES),
    source: 'the overlay loaded by the user',
    advice: areas === null ? 'No overlay was loaded.' : nearest === undefined ? 'None of the overlay\'s areas is near.' : `Nearest: ${nearest.area.name || 'an area without a name'}.`,
  });
  const compass = variation?.ok ? variation.compass : null;
  checks.push({
    id: 'variation',
    title: 'Magnetic headings',
    status: variation === null ? 'not-checked' : compass === 'good' ? 'ok' : 'caution',
    value: variation?.ok ? { kind: 'angle', radians: radiansFromDegrees(variation.variationDegrees) } : variation === null ? null : words(variation.reason),
    limit: null,
    source: 'World Magnetic Model 2025',
    advice: compass === null ? 'Without variation headings are true.' : compass === 'good' ? 'Applied to every heading shown.' : 'So near the magnetic pole a compass is not to be relied on; fly true headings.',
  });
  return checks;
}

function readableAt(readSeconds: number, window: ReadingWindow): { readonly status: CheckStatus; readonly advice: string } {
  const first = window.first === null ? '' : ` ${window.first.character} goes first: ${window.first.endedBy}.`;
  if (readSeconds < window.fromSeconds) return { status: 'stop', advice: 'The text is not finished at the read time; begin earlier or write less.' };
  if (readSeconds > window.until.highSeconds) return { status: 'stop', advice: `It is gone by the read time in every case.${first}` };
  if (readSeconds > window.until.lowSeconds) return { status: 'caution', advice: `In air that mixes more it is gone by the read time.${first}` };
  return { status: 'ok', advice: `It reads at the read time in all three cases.${first}` };
}

const words = (text: string): CheckValue => ({ kind: 'words', words: text });
const distance = (metres: number): CheckValue => ({ kind: 'distance', metres });
const height = (metres: number): CheckValue => ({ kind: 'height', metres });
const instant = (epochMilliseconds: number | null): CheckValue | null => (epochMilliseconds === null ? null : { kind: 'instant', epochMilliseconds });
