import type { ReadonlySignal } from '@preact/signals';
import type { Cues } from '../../core/guidance/cues.ts';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import type { SoundState } from '../../sound/sound.ts';
import type { WakeLockState } from '../../sensors/wake-lock.ts';
import { crowdCaution } from './crowd-caution.ts';

/** What the cautions of a flight are drawn from. */
export interface CautionSources {
  readonly cues: ReadonlySignal<Cues>;
  readonly logNotSaving: ReadonlySignal<boolean>;
  readonly sound: ReadonlySignal<SoundState>;
  readonly wakeLock: ReadonlySignal<WakeLockState>;
  readonly view: ReadonlySignal<FlightView | null>;
  readonly clockApart: ReadonlySignal<boolean>;
  /** As chosen on this tablet; null until they are known. */
  readonly units: ReadonlySignal<UnitText | null>;
  readonly smokeMarked: ReadonlySignal<'on' | 'off' | null>;
  /** When the cued and the marked smoke began to differ, monotonic seconds; null while they agree. */
  readonly smokeDiffersSeconds: ReadonlySignal<number | null>;
  /** True when this tab is not the one that writes. */
  readonly readOnly: ReadonlySignal<boolean>;
}

/** Hands and valves need a moment; later than this a difference is worth a word. */
const DIFFERS_SECONDS = 2;

/** The faults that stand now, worst first, in words short enough to be read in flight; its code comes after the first cue. */
export function flightCautions(sources: CautionSources): readonly string[] {
  const cautions: string[] = [];
  if (sources.logNotSaving.value) cautions.push('LOG NOT SAVING');
  if (sources.readOnly.value) cautions.push('OPEN IN ANOTHER TAB');
  if (sources.cues.value.held) cautions.push('NO FIX, HELD');
  else if (sources.cues.value.fixHealth === 'ageing') cautions.push('FIX LATE');
  for (const doubt of sources.view.value?.doubts ?? []) cautions.push(doubt.toUpperCase());
  const standing = sources.view.value?.standing ?? null;
  const crowd = standing === null ? null : crowdCaution(standing, sources.units.value ?? unitText());
  if (crowd !== null) cautions.push(crowd);
  const differs = sources.smokeDiffersSeconds.value;
  if (differs !== null && differs > DIFFERS_SECONDS) cautions.push(`SWITCH IS ${sources.smokeMarked.value === 'on' ? 'ON' : 'OFF'}`);
  if (sources.clockApart.value) cautions.push('CLOCK JUMPED');
  if (sources.sound.value !== 'on') cautions.push('SOUND OFF');
  if (sources.wakeLock.value === 'refused' || sources.wakeLock.value === 'unsupported') cautions.push('SCREEN MAY SLEEP');
  return cautions;
}
