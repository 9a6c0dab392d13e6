import { DEMO_JOB_ID } from './demo-id.ts';
import type { Job } from './job.ts';
import { NOTHING_BOOKED, NOTHING_SAID_OF_SHIP } from './nothing-said.ts';

/**
 * An invented regatta on an invented lake: four letters of 1,200 m written by one ship at 120 mph (104.3 kt), two
 * miles up, upwind, with the crowd's back to the sun.
 */
export const DEMO_JOB: Job = {
  format: 'quillwind-job',
  version: 1,
  id: DEMO_JOB_ID,
  demo: true,
  notEntered: [],
  name: 'Lake Ondine Regatta (demo)',
  text: 'SAIL',
  site: {
    name: 'Lake Ondine, regatta pier',
    latitudeDegrees: 43.8721,
    longitudeDegrees: -74.4318,
    elevationFeet: 1640,
    timeZone: 'America/New_York',
    crowdFacingDegreesTrue: null,
    variationByHand: null,
    crowdWeight: 1,
  },
  facingDegreesTrue: 340,
  viewElevationDegrees: 35,
  readTime: '2027-06-19T17:30:00Z',
  layer: { altitudeFeet: 10_500, temperatureCelsius: null },
  letters: { heightFeet: 3937, spacingHeights: 0.3, depthStretch: 1 },
  drawings: [],
  winds: [
    { altitudeFeet: 3000, fromDegreesTrue: 40, speedKnots: 6, temperatureCelsius: 17 },
    { altitudeFeet: 6000, fromDegreesTrue: 60, speedKnots: 9, temperatureCelsius: 11 },
    { altitudeFeet: 9000, fromDegreesTrue: 70, speedKnots: 11, temperatureCelsius: 5 },
    { altitudeFeet: 12_000, fromDegreesTrue: 80, speedKnots: 14, temperatureCelsius: -1 },
  ],
  windsText: '',
  ships: [
    {
      name: 'Lead',
      trueAirspeedKnots: 104.3,
      writingBankDegrees: 45,
      turningBankDegrees: 45,
      maximumBankDegrees: 55,
      rollRateDegreesPerSecond: 45,
      smokeOilPounds: 400,
      smokeOilPoundsPerMinute: 45,
      fuelGallons: 40,
      fuelGallonsPerHour: 14,
      fuelReserveMinutes: 45,
      otherFlyingMinutes: 35,
      valveOnSeconds: 0.8,
      valveOffSeconds: 1.2,
      reactionSeconds: 0.4,
      ...NOTHING_SAID_OF_SHIP,
    },
  ],
  options: {
    letterOrder: 'reading',
    progress: 'into-wind',
    hand: 'round-capitals',
    runInSeconds: 4,
    runOutSeconds: 1,
    separationFeet: 984,
    heightStepFeet: 0,
    joinUpStepFeet: 500,
    longestUnfinishedSeconds: 300,
    sunOffNose: false,
  },
  frequencies: [
    { use: 'Ship to ship', megahertz: 122.75 },
    { use: 'Observer on the pier', megahertz: 123.3 },
  ],
  knockItOffWords: 'Knock it off, knock it off',
  conditions: { visibilityStatuteMiles: null, clouds: null, altimeterHectopascals: null },
  namedPoints: [{ name: 'Ondine dam', latitudeDegrees: 43.9104, longitudeDegrees: -74.5127 }],
  ...NOTHING_BOOKED,
  notes:
    'Invented for trying Quillwind. The lake, the regatta and the forecast do not exist.\nThe prize-giving is at half past one; the word should stand while the boats come in.',
};
