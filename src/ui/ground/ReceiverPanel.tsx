import type { VNode } from 'preact';
import type { ReceiverMapping } from '../../core/wire/link-receiver.ts';
import { useGround } from './ground-context.ts';
import { freshnessWords } from './ground-words.ts';

const NAMES: readonly { readonly key: Exclude<keyof ReceiverMapping, 'altitudeUnit'>; readonly label: string }[] = [
  { key: 'list', label: 'List of aircraft' },
  { key: 'id', label: 'Id' },
  { key: 'latitudeDegrees', label: 'Latitude, degrees' },
  { key: 'longitudeDegrees', label: 'Longitude, degrees' },
  { key: 'altitude', label: 'Altitude' },
  { key: 'trackDegreesTrue', label: 'Track, degrees true' },
  { key: 'ageSeconds', label: 'Age of the position, s' },
];

/** Follows a ship by a receiver of this place that publishes what it hears as JSON. */
export function ReceiverPanel(): VNode {
  const { receiver } = useGround();
  const settings = receiver.settings.value;
  const state = receiver.state.value;
  const mark = receiver.mark.value;
  return (
    <details class="ground-receiver">
      <summary>Follow a ship by a local receiver</summary>
      <div class="ground-receiver-body">
        <p class="small">
          For a ship without a link, where a receiver of aircraft positions publishes JSON over HTTP. Its positions are seconds old; they are for looking up,
          not for keeping apart.
        </p>
        <label class="field">
          <span>Address</span>
          <input
            type="url"
            inputMode="url"
            spellcheck={false}
            autocomplete="off"
            placeholder="/receiver.json, when the hub passes it on"
            value={settings.address}
            onChange={(event) => receiver.change({ ...settings, address: event.currentTarget.value.trim() })}
          />
        </label>
        <label class="field">
          <span>The ship’s id there</span>
          <input
            list="receiver-ids"
            spellcheck={false}
            autocapitalize="none"
            value={settings.follow}
            onChange={(event) => receiver.change({ ...settings, follow: event.currentTarget.value.trim() })}
          />
          <datalist id="receiver-ids">
            {receiver.ids.value.map((id) => (
              <option key={id} value={id} />
            ))}
          </datalist>
        </label>
        <fieldset class="ground-mapping">
          <legend>What its fields are called</legend>
          {NAMES.map(({ key, label }) => (
            <label key={key} class="field">
              <span>{label}</span>
              <input
                spellcheck={false}
                autocapitalize="none"
                maxLength={80}
                value={settings.mapping[key]}
                onChange={(event) => receiver.change({ ...settings, mapping: { ...settings.mapping, [key]: event.currentTarget.value.trim() } })}
              />
            </label>
          ))}
          <label class="field">
            <span>Altitude in</span>
            <select
              value={settings.mapping.altitudeUnit}
              onChange={(event) =>
                receiver.change({ ...settings, mapping: { ...settings.mapping, altitudeUnit: event.currentTarget.value === 'metres' ? 'metres' : 'feet' } })
              }
            >
              <option value="feet">feet</option>
              <option value="metres">metres</option>
            </select>
          </label>
        </fieldset>
        <div class="row">
          <button
            type="button"
            class={receiver.on.value ? '' : 'main'}
            disabled={settings.address === ''}
            onClick={() => (receiver.on.value ? receiver.stop() : receiver.start())}
          >
            {receiver.on.value ? 'Stop following' : 'Follow'}
          </button>
          <span role="status" data-figure="receiver" data-value={mark?.fresh.kind ?? state?.kind ?? 'off'}>
            {state?.kind === 'failed'
              ? state.reason
              : state?.kind === 'heard' && mark === null
                ? `${receiver.ids.value.length} aircraft heard, not this one.`
                : mark === null
                  ? ''
                  : freshnessWords(mark.fresh)}
          </span>
        </div>
      </div>
    </details>
  );
}
