/** Least and greatest value a field of the job file may have, both allowed. */
export type Limits = readonly [least: number, greatest: number];

/**
 * The ranges of the job file, by field. They keep the arithmetic sound and catch a slipped digit; they do not say
 * what is wise to fly. `public/quillwind-job.schema.json` repeats them, and a test holds the two together.
 */
export const JOB_LIMITS = {
  site: { latitudeDegrees: [-85, 85], longitudeDegrees: [-180, 180], elevationFeet: [-1500, 20_000], crowdFacingDegreesTrue: [0, 360] },
  facingDegreesTrue: [0, 360],
  viewElevationDegrees: [5, 90],
  layer: { altitudeFeet: [500, 45_000], temperatureCelsius: [-100, 60] },
  letters: { heightFeet: [100, 20_000], spacingHeights: [0, 5], depthStretch: [1, 2] },
  wind: { altitudeFeet: [-1500, 60_000], fromDegreesTrue: [0, 360], speedKnots: [0, 250], temperatureCelsius: [-100, 60] },
  ship: {
    trueAirspeedKnots: [30, 400],
    writingBankDegrees: [5, 75],
    turningBankDegrees: [5, 75],
    maximumBankDegrees: [5, 80],
    rollRateDegreesPerSecond: [1, 360],
    smokeOilPounds: [0, 5000],
    smokeOilPoundsPerMinute: [0.1, 200],
    fuelGallons: [0, 2000],
    fuelGallonsPerHour: [0.1, 500],
    fuelReserveMinutes: [0, 240],
    otherFlyingMinutes: [0, 600],
    valveOnSeconds: [0, 30],
    valveOffSeconds: [0, 30],
    reactionSeconds: [0, 10],
  },
  options: { runInSeconds: [0, 60], runOutSeconds: [0, 60], separationFeet: [0, 20_000], heightStepFeet: [0, 2000], longestUnfinishedSeconds: [10, 3600] },
  frequency: { megahertz: [0.1, 3000] },
  conditions: { visibilityStatuteMiles: [0.1, 100] },
  cloud: { baseFeet: [-1500, 60_000], topFeet: [-1500, 60_000], oktas: [1, 8] },
  point: { latitudeDegrees: [-90, 90], longitudeDegrees: [-180, 180] },
} as const satisfies Record<string, Limits | Record<string, Limits>>;

/** The longest lists and texts of the job file. */
export const JOB_LENGTHS = {
  winds: 60,
  ships: 9,
  frequencies: 20,
  clouds: 8,
  namedPoints: 10,
  windsTextCharacters: 20_000,
  notesCharacters: 4000,
} as const;
