import { deviceWorld } from '../../sensors/device-world.ts';
import type { SourceChoice } from './flight-choices.ts';
import type { WorldFor } from './world-types.ts';

/** The worlds of a flight that is gone on with: this device's at once, a rehearsal's fetched, which no real flight waits for. */
export async function worldsToResume(source: SourceChoice): Promise<WorldFor> {
  if (source.kind === 'device' && source.receiver === undefined)
    return (_source, _setup, resumption) => ({ ...deviceWorld(resumption?.atSeconds ?? 0), hands: null });
  return (await import('./flight-world-for.ts')).flightWorldFor;
}
