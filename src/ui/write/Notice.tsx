import { type ReadonlySignal, useComputed, useSignal, useSignalEffect } from '@preact/signals';
import type { VNode } from 'preact';
import { type Cues, REASONS } from '../../core/guidance/cues.ts';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { airPoseAt } from '../../core/paths/air-path.ts';
import { bearingFromDirection, degreesFromRadians, positiveDegrees } from '../../core/units/angle.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { headingFigures } from './glance.ts';
import { lazily, Nothing } from '../lazily.tsx';

const ReadsUntil = lazily(async () => (await import('./HungLine.tsx')).ReadsUntil, Nothing);

export interface NoticeProps {
  readonly shown: ReadonlySignal<boolean>;
  readonly cues: ReadonlySignal<Cues>;
  readonly view: ReadonlySignal<FlightView | null>;
  readonly units: ReadonlySignal<UnitText | null>;
  readonly title: ReadonlySignal<string>;
  readonly smokeMarked: ReadonlySignal<'on' | 'off' | null>;
  /** What is written. */
  readonly word: string;
}

/** The words that fill the screen when there is nothing to steer by, and what to do about it. */
export function Notice({ shown, cues, view, units, title, smokeMarked, word }: NoticeProps): VNode | null {
  const smokeWasOn = useSignal(false);
  const sinceMilliseconds = useSignal(0);
  const phase = useComputed(() => cues.value.phase);
  useSignalEffect(() => {
    const { phase: now, smoke } = cues.value;
    if (now !== 'no-cue') smokeWasOn.value = smoke === 'on';
  });
  useSignalEffect(() => {
    if (phase.value === 'hold') sinceMilliseconds.value = Date.now();
  });
  const because = useComputed(() => cues.value.because);
  const lines = useComputed(() =>
    linesFor(cues.value, view.value, units.value ?? unitText(), smokeMarked.value, smokeWasOn.value, sinceMilliseconds.value, word).join('\n'),
  );
  if (!shown.value) return null;
  return (
    <>
      {phase.value === 'no-cue' && (
        <svg class="write-notice-cross" viewBox="0 0 100 100" aria-hidden="true">
          <path d="M10 10 90 90M90 10 10 90" />
        </svg>
      )}
      <strong class="write-notice-title">{title}</strong>
      {because.value !== REASONS.knockedOff && <span class="write-notice-why">{because}</span>}
      {lines.value.split('\n').map((line) => (
        <span key={line} class="write-notice-smoke">
          {line}
          {line === word && <ReadsUntil view={view} />}
        </span>
      ))}
    </>
  );
}

function linesFor(
  cues: Cues,
  view: FlightView | null,
  units: UnitText,
  marked: 'on' | 'off' | null,
  smokeWasOn: boolean,
  sinceMilliseconds: number,
  word: string,
): string[] {
  const off = marked === 'on' ? ['Switch is ON: smoke OFF.'] : [];
  switch (cues.phase) {
    case 'no-cue':
      return [marked === 'on' || (marked === null && smokeWasOn) ? 'Smoke was ON: switch it OFF.' : 'Smoke was off.', 'Wings level. Eyes outside.'];
    case 'hold':
      return [`Since ${clockFigures(sinceMilliseconds)}.`, ...wayBack(view, units, cues.character), ...off];
    case 'finished':
      if (cues.because === REASONS.knockedOff) return ['SMOKE OFF', 'WINGS LEVEL', 'AWAY FROM THE OTHERS', 'SAY IT BACK'];
      return [word, ...(off.length > 0 ? off : ['Smoke switch OFF.'])];
    default:
      return off;
  }
}

/** By this device's clock, hours and minutes. */
function clockFigures(milliseconds: number): string {
  const at = new Date(milliseconds);
  return `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
}

/** Where the next stroke begins from here. */
function wayBack(view: FlightView | null, { distance }: UnitText, character: string | null): string[] {
  if (view?.own == null || view.stroke === null) return [];
  const start = airPoseAt(view.stroke, 0);
  const east = start.airEastMetres - view.own.airEastMetres;
  const north = start.airNorthMetres - view.own.airNorthMetres;
  const bearing = degreesFromRadians(bearingFromDirection(Math.atan2(north, east)));
  return [
    `Back to ${character ?? 'the stroke'}: ${headingFigures(positiveDegrees(bearing - view.variationDegrees))}°M, ${distance.text(Math.hypot(east, north), 1)}.`,
  ];
}
