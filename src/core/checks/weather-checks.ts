import { windSpeedMetresPerSecond } from '../earth/wind-vector.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';
import { cloudMinima, type CloudStanding, cloudStanding } from '../place/air-rules.ts';
import { US_RULES } from '../place/rules-of-the-air.ts';
import type { Check, CheckStatus } from './check.ts';
import { distance, instant, NO_SOURCE, words } from './check-values.ts';
import { SUN_MARGIN_RADIANS } from '../place/facing-choice.ts';
import type { GoFacts } from './go-facts.ts';

const CAUTION_WIND = metresPerSecondFromKnots(25);
const STOP_WIND = metresPerSecondFromKnots(50);
const CAUTION_SHEAR_PER_SECOND = 0.01;

/** Cloud, visibility, wind, shear, and light for the crowd and in the pilot's eyes, in that order. */
export function weatherChecks(facts: GoFacts): Check[] {
  return [...cloudAndVisibility(facts), ...windAndShear(facts), ...light(facts)];
}

const CLOUD_STATUS: Record<CloudStanding, { readonly status: CheckStatus; readonly advice: string }> = {
  clear: { status: 'ok', advice: 'Look again before take-off; reports are points, clouds are not.' },
  'partly hidden': { status: 'caution', advice: 'Scattered cloud below will hide letters from part of the crowd.' },
  'hidden from below': { status: 'stop', advice: 'Cloud below hides the text from the crowd; take a layer below it or another hour.' },
  'unknown top': { status: 'caution', advice: "The cloud's top is not reported; the layer may be in it." },
  'too near': { status: 'stop', advice: 'The layer is nearer to cloud than visual rules allow; change layer or hour.' },
  'in cloud': { status: 'stop', advice: 'The layer is in cloud; change layer or hour.' },
  'not checked': { status: 'not-checked', advice: 'No cloud was entered; look at reports and forecasts.' },
};

function cloudAndVisibility(facts: GoFacts): Check[] {
  const { rules = US_RULES } = facts;
  const minima = cloudMinima(facts.layerHeightMetres, rules);
  const standing = cloudStanding(facts.layerHeightMetres, facts.clouds, rules);
  const { visibilityMetres } = facts;
  return [
    {
      id: 'cloud',
      title: 'Distance from cloud',
      ...CLOUD_STATUS[standing],
      value: standing === 'not checked' ? null : words(standing),
      limit: distance(minima.belowCloudMetres),
      limitIs: 'least',
      source: rules.cloudSource,
    },
    {
      id: 'visibility',
      title: 'Flight visibility',
      status: visibilityMetres === null ? 'not-checked' : visibilityMetres < minima.visibilityMetres ? 'stop' : 'ok',
      value: visibilityMetres === null ? null : distance(visibilityMetres),
      limit: distance(minima.visibilityMetres),
      limitIs: 'least',
      source: rules.cloudSource,
      advice: visibilityMetres === null ? 'No visibility was entered.' : 'The minimum may change with the height; haze also takes contrast from the letters.',
    },
  ];
}

function windAndShear({ wind, shear, windsUse, readMilliseconds }: GoFacts): Check[] {
  const speed = wind?.ok ? windSpeedMetresPerSecond(wind.wind) : null;
  const shearPerSecond = shear === null ? null : Math.hypot(shear.eastPerSecond, shear.northPerSecond);
  const windStatus =
    speed === null
      ? wind === null
        ? 'not-checked'
        : 'caution'
      : speed > STOP_WIND
        ? 'stop'
        : speed > CAUTION_WIND || (wind?.ok && !wind.directionKnown)
          ? 'caution'
          : 'ok';
  const late = windsUse !== null && (readMilliseconds < windsUse.fromMilliseconds || readMilliseconds > windsUse.toMilliseconds);
  return [
    {
      id: 'wind',
      title: 'Wind at the layer',
      status: windStatus,
      value: speed === null ? (wind?.ok === false ? words(wind.reason) : null) : { kind: 'speed', metresPerSecond: speed },
      limit: { kind: 'speed', metresPerSecond: CAUTION_WIND },
      limitIs: 'most',
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
      limitIs: 'most',
      source: NO_SOURCE,
      advice: 'Shear tears strokes across it apart. Rows far apart in height hide what is between them.',
    },
    {
      id: 'winds-period',
      title: 'Winds made for this hour',
      status: windsUse === null ? 'not-checked' : late ? 'caution' : 'ok',
      value: { kind: 'instant', epochMilliseconds: readMilliseconds },
      limit:
        windsUse === null
          ? null
          : { kind: 'instant', epochMilliseconds: late && readMilliseconds < windsUse.fromMilliseconds ? windsUse.fromMilliseconds : windsUse.toMilliseconds },
      limitIs: windsUse !== null && readMilliseconds < windsUse.fromMilliseconds ? 'least' : 'most',
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
      limitIs: early ? 'least' : 'most',
      source: 'sunrise and sunset; lights from sunset by 14 CFR 91.209',
      advice: dark ? 'The sun is down for some of it; smoke needs light to be read.' : 'Plan to land with light to spare.',
    },
    {
      id: 'sun-crowd',
      title: 'Sun for the crowd',
      status: sunMarginRadians === null ? 'not-checked' : sunMarginRadians < SUN_MARGIN_RADIANS ? 'caution' : 'ok',
      value: sunMarginRadians === null ? null : { kind: 'angle', radians: sunMarginRadians },
      limit: { kind: 'angle', radians: SUN_MARGIN_RADIANS },
      limitIs: 'least',
      source: NO_SOURCE,
      advice:
        sunMarginRadians === null ? 'The sun is down while it is to be read.' : 'Nearer than this the crowd looks into the sun: choose another facing or hour.',
    },
    {
      id: 'sun-pilot',
      title: "Sun in the pilot's eyes",
      status: glareShare === null ? 'not-checked' : glareShare > 0 ? 'caution' : 'ok',
      value: glareShare === null ? null : { kind: 'share', fraction: glareShare },
      limit: { kind: 'share', fraction: 0 },
      limitIs: 'most',
      source: NO_SOURCE,
      advice: 'Strokes with a low sun within 25 degrees of the nose: turn them round or change the hour.',
    },
  ];
}
