/**
 * The job file, `{"format": "quillwind-job", "version": 1}`: everything one booking needs offline. It speaks the
 * pilot's units, spelled in the field names; `public/quillwind-job.schema.json` is its published JSON Schema.
 */
export interface Job {
  readonly format: 'quillwind-job';
  readonly version: 1;
  /** `[A-Za-z0-9_-]{1,32}`, made once, never shown in place of the name. */
  readonly id: string;
  readonly name: string;
  /** One line, or several parted by line feeds. */
  readonly text: string;
  readonly site: JobSite;
  /** Azimuth the crowd looks, clockwise from true north. */
  readonly facingDegreesTrue: number;
  /** How high above the crowd's horizon the text's middle hangs at the read time. */
  readonly viewElevationDegrees: number;
  /** RFC 3339, UTC. */
  readonly readTime: string;
  readonly layer: JobLayer;
  readonly letters: JobLetters;
  readonly winds: readonly JobWind[];
  /** The bulletin as pasted, kept for the brief; empty when the rows were typed. */
  readonly windsText: string;
  /** Lead first. One to three in the screens; the file knows no limit but 9. */
  readonly ships: readonly JobShip[];
  readonly options: JobOptions;
  readonly frequencies: readonly { readonly use: string; readonly megahertz: number }[];
  readonly knockItOffWords: string;
  /** What was looked up on the day. */
  readonly conditions: JobConditions;
  /** Places the pilot finds from the air, from which the first smoke is told by bearing and distance. */
  readonly namedPoints: readonly JobPoint[];
  readonly notes: string;
}

export interface JobSite {
  readonly name: string;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  /** Above mean sea level. */
  readonly elevationFeet: number;
  /** IANA name, for local times on the brief. */
  readonly timeZone: string;
  /** Where the crowd faces of itself, to a stage or a shore; null when it does not matter, and absent in older files. */
  readonly crowdFacingDegreesTrue?: number | null;
}

export interface JobLayer {
  /** Above mean sea level. */
  readonly altitudeFeet: number;
  /** Null takes it from the winds, or from the standard atmosphere. */
  readonly temperatureCelsius: number | null;
}

/** Null where nobody has looked. */
export interface JobConditions {
  readonly visibilityStatuteMiles: number | null;
  /** An empty list is a clear sky. */
  readonly clouds: readonly JobCloud[] | null;
}

export interface JobCloud {
  /** Above mean sea level. */
  readonly baseFeet: number;
  /** Null when it is not reported. */
  readonly topFeet: number | null;
  /** Eighths of the sky, 1 to 8. */
  readonly oktas: number;
}

export interface JobPoint {
  readonly name: string;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
}

/** Nobody has looked. */
export const UNKNOWN_CONDITIONS: JobConditions = { visibilityStatuteMiles: null, clouds: null };

export interface JobLetters {
  readonly heightFeet: number;
  /** Gap between letters over their height. */
  readonly spacingHeights: number;
  /** Depth over height, to even the proportions at a slant; 1 leaves the letters as drawn. */
  readonly depthStretch: number;
}

export interface JobWind {
  /** Above mean sea level. */
  readonly altitudeFeet: number;
  /** Where it blows from, true; null for light and variable: a wind of unknown direction under 5 kt. */
  readonly fromDegreesTrue: number | null;
  readonly speedKnots: number;
  readonly temperatureCelsius: number | null;
}

export interface JobShip {
  readonly name: string;
  readonly trueAirspeedKnots: number;
  readonly writingBankDegrees: number;
  readonly turningBankDegrees: number;
  /** What corrections in flight may use at most. */
  readonly maximumBankDegrees: number;
  readonly rollRateDegreesPerSecond: number;
  readonly smokeOilPounds: number;
  readonly smokeOilPoundsPerMinute: number;
  readonly fuelGallons: number;
  readonly fuelGallonsPerHour: number;
  readonly fuelReserveMinutes: number;
  /** Flying before the first smoke and after the last: climb, transit, join-up, return; null when nobody has said. */
  readonly otherFlyingMinutes: number | null;
  readonly valveOnSeconds: number;
  readonly valveOffSeconds: number;
  /** Between reading a cue and acting on it. */
  readonly reactionSeconds: number;
}

export interface JobOptions {
  readonly letterOrder: 'reading' | 'free';
  readonly progress: 'into-wind' | 'free';
  readonly corners: 'crisp' | 'rounded' | 'best';
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  readonly separationFeet: number;
  /** Each ship writes this much higher than the one before it; 0, and absent in older files, for one layer. */
  readonly heightStepFeet: number;
  /** In free letter order: how long a letter may stay half-written; 300 where an older file does not say. */
  readonly longestUnfinishedSeconds: number;
  /** Whether strokes are rather flown so that a low sun is off the nose; false where an older file does not say. */
  readonly sunOffNose: boolean;
}
