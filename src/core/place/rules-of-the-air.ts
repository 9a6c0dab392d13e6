import { metresFromFeet, metresFromStatuteMiles } from '../units/quantity.ts';

/** Below any ground: the lowest dry land lies 430 m under the sea. */
const FROM_THE_GROUND_METRES = -500;

/** Distances from cloud and visibility from a height on. */
export interface CloudRule {
  /** Above mean sea level; the rule holds from here up to the next. */
  readonly fromMetres: number;
  readonly visibilityMetres: number;
  readonly belowCloudMetres: number;
  readonly aboveCloudMetres: number;
  readonly asideMetres: number;
}

/** Heights above mean sea level from which oxygen is advised or required; null where the set says nothing of it. */
export interface OxygenRule {
  readonly advisedMetres: number | null;
  /** For the time at this height beyond half an hour. */
  readonly afterHalfHourMetres: number | null;
  readonly throughoutMetres: number | null;
}

/**
 * Limits of one country's or body's rules of the air, each with its source. They only say what to look at: local rules and
 * licensed practice decide.
 */
export interface RulesOfTheAir {
  readonly id: string;
  readonly name: string;
  /** Of which day the values are. */
  readonly date: string;
  /** Lowest first, the first from below every layer. */
  readonly cloud: readonly CloudRule[];
  readonly cloudSource: string;
  readonly oxygen: OxygenRule;
  readonly oxygenSource: string;
  /** Above the highest obstacle near any gathering. */
  readonly peopleMetres: number;
  readonly peopleSource: string;
  readonly formationSource: string;
  /** By day, under visual rules. */
  readonly reserveMinutes: number;
  readonly reserveSource: string;
}

/** The United States, 14 CFR part 91: class E for the distances from cloud. */
export const US_RULES: RulesOfTheAir = {
  id: 'us',
  name: 'United States, 14 CFR part 91',
  date: '2026',
  cloud: [
    {
      fromMetres: FROM_THE_GROUND_METRES,
      visibilityMetres: metresFromStatuteMiles(3),
      belowCloudMetres: metresFromFeet(500),
      aboveCloudMetres: metresFromFeet(1000),
      asideMetres: metresFromFeet(2000),
    },
    {
      fromMetres: metresFromFeet(10_000),
      visibilityMetres: metresFromStatuteMiles(5),
      belowCloudMetres: metresFromFeet(1000),
      aboveCloudMetres: metresFromFeet(1000),
      asideMetres: metresFromStatuteMiles(1),
    },
  ],
  cloudSource: '14 CFR 91.155',
  oxygen: { advisedMetres: metresFromFeet(10_000), afterHalfHourMetres: metresFromFeet(12_500), throughoutMetres: metresFromFeet(14_000) },
  oxygenSource: '14 CFR 91.211(a); AIM 8-1-2',
  peopleMetres: metresFromFeet(1000),
  peopleSource: '14 CFR 91.119, 91.303',
  formationSource: '14 CFR 91.111',
  reserveMinutes: 30,
  reserveSource: '14 CFR 91.151: 30 minutes by day, 45 by night',
};

/**
 * Published values of the ICAO annexes, from memory: Annex 2, table 3-1 and 4.6; Annex 6, part II, 2.2.3.6 and 2.2.3.8
 * (cabin pressures of 700 and 620 hPa stand at 10,000 and 13,000 ft in the standard atmosphere). States differ from them.
 */
export const ICAO_RULES: RulesOfTheAir = {
  id: 'icao',
  name: 'ICAO annexes 2 and 6, from memory',
  date: '2026',
  cloud: [
    { fromMetres: FROM_THE_GROUND_METRES, visibilityMetres: 5000, belowCloudMetres: 300, aboveCloudMetres: 300, asideMetres: 1500 },
    { fromMetres: metresFromFeet(10_000), visibilityMetres: 8000, belowCloudMetres: 300, aboveCloudMetres: 300, asideMetres: 1500 },
  ],
  cloudSource: 'ICAO Annex 2, table 3-1, from memory',
  oxygen: { advisedMetres: null, afterHalfHourMetres: metresFromFeet(10_000), throughoutMetres: metresFromFeet(13_000) },
  oxygenSource: 'ICAO Annex 6, part II, 2.2.3.8, from memory',
  peopleMetres: 300,
  peopleSource: 'ICAO Annex 2, 4.6, from memory',
  formationSource: 'ICAO Annex 2, 3.1.8, from memory',
  reserveMinutes: 30,
  reserveSource: 'ICAO Annex 6, part II, 2.2.3.6: 30 minutes by day, 45 by night, from memory',
};

/** What a pilot enters of rules that are not among the sets. */
export interface OwnRules {
  readonly visibilityMetres: number;
  readonly belowCloudMetres: number;
  readonly aboveCloudMetres: number;
  readonly asideMetres: number;
  /** Required from here on; null where no rule is known. */
  readonly oxygenMetres: number | null;
  readonly peopleMetres: number;
  readonly reserveMinutes: number;
  /** What the pilot calls them. */
  readonly source: string;
}

/** A set of the pilot's own limits, which hold at every height. */
export function ownRules(own: OwnRules): RulesOfTheAir {
  const source = own.source === '' ? 'the pilot\u2019s own limits' : `${own.source}, entered by the pilot`;
  const { visibilityMetres, belowCloudMetres, aboveCloudMetres, asideMetres, oxygenMetres, peopleMetres, reserveMinutes } = own;
  return {
    id: 'own',
    name: own.source === '' ? 'My own limits' : own.source,
    date: 'as entered',
    cloud: [{ fromMetres: FROM_THE_GROUND_METRES, visibilityMetres, belowCloudMetres, aboveCloudMetres, asideMetres }],
    cloudSource: source,
    oxygen: { advisedMetres: null, afterHalfHourMetres: null, throughoutMetres: oxygenMetres },
    oxygenSource: source,
    peopleMetres,
    peopleSource: source,
    formationSource: source,
    reserveMinutes,
    reserveSource: source,
  };
}
