import { smokeLeadSeconds } from './smoke-lead.ts';
import type { Flight, FlyingState, StrokeProgress } from '../guidance-state.ts';

/** The first stroke still to be flown, or null. */
export function nextStrokeIndex({ progress, sequence }: Pick<Flight, 'progress' | 'sequence'>): number | null {
  return sequence.find((index) => progress[index]?.status === 'to-fly') ?? null;
}

/** On to the next stroke, or to the end, the smoke off. */
export function towardsNext(flight: Flight, runOutUntilSeconds: number): FlyingState {
  const strokeIndex = nextStrokeIndex(flight);
  const leaving = strokeIndex === null && flight.formation?.part === 'timetable';
  if (strokeIndex === null && !leaving) return { phase: 'finished', how: 'complete', flight: { ...flight, advice: null } };
  return {
    phase: 'repositioning',
    // On its way out a ship of a formation is still about its last stroke.
    strokeIndex: strokeIndex ?? flight.progress.length - 1,
    way: null,
    onRunIn: false,
    goAround: null,
    windCircle: null,
    runOutUntilSeconds,
    flight: { ...flight, advice: null, formation: leaving && flight.formation !== null ? { ...flight.formation, part: 'leaving' } : flight.formation },
  };
}

/** After a stroke is flown or skipped. */
export function afterStroke(state: Extract<FlyingState, { strokeIndex: number }>, status: 'flown' | 'skipped'): FlyingState {
  const { flight } = state;
  const { setup } = flight;
  const progress = flight.progress.map((one, index): StrokeProgress => (index === state.strokeIndex ? { status } : one));
  const runOutUntilSeconds = status === 'flown' ? flight.atSeconds + smokeLeadSeconds(flight) + setup.valveOffSeconds + setup.runOutSeconds : -Infinity;
  const smokeCuedAtSeconds = state.phase === 'onStroke' ? flight.atSeconds : flight.smokeCuedAtSeconds;
  return towardsNext({ ...flight, progress, smokeCuedAtSeconds }, runOutUntilSeconds);
}
