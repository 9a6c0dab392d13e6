import type { Cues } from '../../core/guidance/cues.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import type { RehearsalSettings } from '../../core/guidance/rehearsal-aircraft.ts';
import type { FlightWorld } from '../../sensors/flight-world.ts';
import type { Hands } from '../../sensors/hands.ts';
import type { SourceChoice } from './flight-choices.ts';

/** Where a resumed flight goes on; null for a new one. */
export interface Resumption {
  readonly atSeconds: number;
  /** What its clock on the wall said last: a rehearsal's runs at its own pace, and goes on from there. Null when it is not known. */
  readonly wallMilliseconds: number | null;
  /** Where the aircraft was believed to be; null when it was not known. */
  readonly place: Pick<RehearsalSettings, 'startEastMetres' | 'startNorthMetres' | 'startHeadingDegrees'> | null;
}

/** A world, and the hands of a person who flies in it; null where there are none. */
export type MadeWorld = FlightWorld & { readonly hands: Hands | null };

/** Makes the world that a choice stands for. */
export type WorldFor = (source: SourceChoice, setup: FlightSetup, resumption: Resumption | null, readCues: () => Cues) => MadeWorld;
