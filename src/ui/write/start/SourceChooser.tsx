import type { Signal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import { ReceiverOptions } from './ReceiverOptions.tsx';
import { metresPerSecondFromKnots } from '../../../core/units/quantity.ts';
import { formatBearing, formatDuration, formatNumber } from '../../../core/text/number-formats.ts';
import { useFieldUnit, useUnitText } from '../../fields/units-context.ts';

const SOURCES = [
  { kind: 'device', word: 'This device', says: 'Its satellite receiver, or one connected to it.' },
  { kind: 'rehearsal', word: 'Rehearsal at the desk', says: 'A machine, or you, in a wind the forecast need not know.' },
  { kind: 'walking', word: 'Walking rehearsal', says: 'The word on a field, led by your own position.' },
  { kind: 'recorded', word: 'A recording', says: 'A GPX, IGC or NMEA file, flown again.' },
] as const;

const SKILLS = [
  { value: 'steady', word: 'steady' },
  { value: 'ordinary', word: 'ordinary' },
  { value: 'tired', word: 'tired' },
] as const;

/** Where the positions of the flight come from. */
export function SourceChooser({ preflight }: { readonly preflight: Preflight }): VNode {
  const { source } = preflight;
  return (
    <fieldset class="panel write-choice">
      <legend>Where positions come from</legend>
      {SOURCES.map(({ kind, word, says }) => (
        <div key={kind}>
          <label class="write-option">
            <input type="radio" name="source" checked={source.value === kind} onChange={() => (source.value = kind)} />
            <span>
              <strong>{word}</strong>
              <span class="quiet small">{says}</span>
            </span>
          </label>
          {source.value === 'device' && kind === 'device' && <ReceiverOptions receiver={preflight.receiver} />}
          {source.value === 'rehearsal' && kind === 'rehearsal' && <RehearsalOptions preflight={preflight} />}
          {source.value === 'walking' && kind === 'walking' && <WalkingOptions preflight={preflight} />}
          {source.value === 'recorded' && kind === 'recorded' && <RecordingOptions preflight={preflight} />}
        </div>
      ))}
    </fieldset>
  );
}

/** How high letters stand on the field, and how fast that is walked. */
function WalkingOptions({ preflight }: { readonly preflight: Preflight }): VNode {
  const { fieldLetterMetres, walkingScale, job } = preflight;
  const trueKnots = Math.min(...job.ships.map(({ trueAirspeedKnots }) => trueAirspeedKnots));
  const paceMetresPerSecond = metresPerSecondFromKnots(trueKnots) / walkingScale.value;
  return (
    <div class="write-options">
      <label class="field">
        <span>Letters on the field, m</span>
        <select value={String(fieldLetterMetres.value)} onChange={(event) => (fieldLetterMetres.value = Number(event.currentTarget.value))}>
          {[20, 30, 40, 60, 80].map((metres) => (
            <option key={metres} value={String(metres)}>
              {metres}
            </option>
          ))}
        </select>
      </label>
      <p class="quiet small">
        Walk at {formatNumber(paceMetresPerSecond, 1)} m/s, {formatNumber(3.6 * paceMetresPerSecond, 1)} km/h, without a stop; where you stand when you start is
        where the aircraft begins. Watch where you walk, not the screen. It is a rehearsal and teaches nothing that is kept.
      </p>
    </div>
  );
}

function RehearsalOptions({ preflight }: { readonly preflight: Preflight }): VNode {
  const { forecast, windFromDegrees, windKnots, skill, flownBy } = preflight;
  const { speed } = useUnitText();
  return (
    <div class="write-options">
      <div class="row">
        <NumberField label="Real wind from, ° true" value={windFromDegrees} low={0} high={359} />
        <NumberField label="Its speed, kt" value={windKnots} low={0} high={80} unit="kt" />
        <p class="quiet small">
          {forecast === null ? 'No forecast.' : `The plan expects ${formatBearing(forecast.fromDegrees)}° ${speed.own(forecast.knots)}.`}
        </p>
      </div>
      <div class="row">
        <label class="field">
          <span>Flown by</span>
          <select value={flownBy.value} onChange={(event) => (flownBy.value = event.currentTarget.value === 'hands' ? 'hands' : 'machine')}>
            <option value="machine">a machine</option>
            <option value="hands">you: arrow keys and space</option>
          </select>
        </label>
        <label class="field">
          <span>Pilot</span>
          <select
            value={skill.value}
            disabled={flownBy.value === 'hands'}
            onChange={(event) => {
              const chosen = SKILLS.find(({ value }) => value === event.currentTarget.value);
              if (chosen !== undefined) skill.value = chosen.value;
            }}
          >
            {SKILLS.map(({ value, word }) => (
              <option key={value} value={value}>
                {word}
              </option>
            ))}
          </select>
        </label>
        <SpeedField preflight={preflight} />
      </div>
    </div>
  );
}

function SpeedField({ preflight: { speed } }: { readonly preflight: Preflight }): VNode {
  return (
    <label class="field">
      <span>
        Pace: {speed}× {speed.value === 1 ? 'the real time' : 'as fast as real'}
      </span>
      <input type="range" min="1" max="20" step="1" value={speed.value} onInput={(event) => (speed.value = Number(event.currentTarget.value))} />
    </label>
  );
}

function RecordingOptions({ preflight }: { readonly preflight: Preflight }): VNode {
  const { recording } = preflight;
  const state = recording.value;
  return (
    <div class="write-options">
      <label class="field">
        <span>File</span>
        <input
          type="file"
          accept=".gpx,.igc,.nmea,application/gpx+xml"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file !== undefined) void preflight.readRecording(file);
          }}
        />
      </label>
      {state.kind === 'refused' && (
        <p class="notice" role="alert">
          {state.reason}
        </p>
      )}
      {state.kind === 'read' && (
        <label class="field">
          <span>Track</span>
          <select value={String(state.chosen)} onChange={(event) => (recording.value = { ...state, chosen: Number(event.currentTarget.value) })}>
            {state.recordings.map(({ name, fixes }, index) => (
              <option key={index} value={String(index)}>
                {name}, {fixes.length} fixes, {formatDuration(fixes.at(-1)?.atSeconds ?? 0)}
              </option>
            ))}
          </select>
        </label>
      )}
      <SpeedField preflight={preflight} />
    </div>
  );
}

interface NumberFieldProps {
  readonly label: string;
  readonly value: Signal<number>;
  readonly low: number;
  readonly high: number;
  /** Of the value and its limits; shown as chosen on this tablet. */
  readonly unit?: string;
}

function NumberField({ label, value, low, high, unit = '' }: NumberFieldProps): VNode {
  const field = useFieldUnit(unit);
  return (
    <label class="field">
      <span>{field.label(label)}</span>
      <input
        type="number"
        inputMode="numeric"
        min={Math.ceil(field.shown(low))}
        max={Math.floor(field.shown(high))}
        value={Math.round(field.shown(value.value))}
        onInput={(event) => {
          const typed = field.own(Math.round(event.currentTarget.valueAsNumber));
          if (typed >= low && typed <= high) value.value = typed;
        }}
      />
    </label>
  );
}
