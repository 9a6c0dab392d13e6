import type { Variation } from '../earth/magnetic-variation.ts';
import type { SunDay } from '../earth/sun.ts';
import type { ShearVector, WindAtHeight } from '../earth/wind-profile.ts';
import type { ShipBudget } from '../plan/budget.ts';
import type { JobPermission } from '../job/job.ts';
import type { CloudLayer } from '../job/conditions-si.ts';
import type { RulesOfTheAir } from '../place/rules-of-the-air.ts';
import type { AreaContact } from '../place/overlay-contact.ts';
import type { Loading } from './weight-balance.ts';
import type { ReadingWindow } from '../sky/reading-window.ts';

/** What is known of a job before it is flown. Null means that nobody has looked. */
export interface GoFacts {
  /** Whose limits are held against; missing, the United States'. */
  readonly rules?: RulesOfTheAir;
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
  readonly budgets: readonly (ShipBudget & {
    readonly fuelKnown?: boolean;
    /** With so much left a ship goes home; null or absent when nobody has said. */
    readonly bingoLitres?: number | null;
    /** Left at the last smoke at most: as if all other flying came after it. */
    readonly fuelAfterWritingLitres?: number;
  })[];
  /** Least distance between ships in the plan and the one asked for; null with one ship. */
  readonly separation: { readonly leastMetres: number; readonly wantedMetres: number } | null;
  readonly steepestBankRadians: number;
  readonly window: ReadingWindow | null;
  /** No-go areas near the flight; null without an overlay. */
  readonly areas: readonly AreaContact[] | null;
  readonly variation: (Variation & { readonly byHandOf?: string | null }) | null;
  /** Each ship by the pilot's own weights and arms; null where none are entered. */
  readonly loadings: readonly { readonly name: string; readonly loadings: readonly Loading[] | null }[];
  /** As booked; empty where nobody has said what must be permitted. */
  readonly permissions: readonly JobPermission[];
  /** When go or no-go is called; null where nobody has said. */
  readonly callMilliseconds: number | null;
}
