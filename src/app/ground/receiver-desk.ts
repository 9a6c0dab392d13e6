import { computed, type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import { type Site, siteFromGeodetic } from '../../core/earth/site-frame.ts';
import { RECEIVER_MAPPING, type ReceivedAircraft, type ReceiverMapping } from '../../core/wire/link-receiver.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import { followReceiver, type ReceiverState } from '../../link/follow-receiver.ts';
import { deviceInstant, elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import { AGEING_SECONDS, LIVE_SECONDS } from '../../link/ship-seen.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import type { ShipMark } from './seen-sky.ts';

/** Where aircraft are asked for and how the answer is read. */
export interface ReceiverSettings {
  readonly address: string;
  readonly mapping: ReceiverMapping;
  /** Which aircraft is the ship. */
  readonly follow: string;
}

/** Follows one aircraft by a receiver of this place, for a ship that has no link. */
export interface ReceiverDesk {
  readonly settings: ReadonlySignal<ReceiverSettings>;
  readonly on: ReadonlySignal<boolean>;
  readonly state: ReadonlySignal<ReceiverState | null>;
  /** Ids heard last, for choosing. */
  readonly ids: ReadonlySignal<readonly string[]>;
  /** The followed aircraft, at whatever age it is known. */
  readonly mark: ReadonlySignal<ShipMark | null>;
  change(settings: ReceiverSettings): void;
  start(): void;
  stop(): void;
}

const SETTING = 'receiver';
const IDS_SHOWN = 200;

const text = v.pipe(v.string(), v.maxLength(300));
const SCHEMA = v.object({
  address: text,
  follow: text,
  mapping: v.object({
    list: text,
    id: text,
    latitudeDegrees: text,
    longitudeDegrees: text,
    altitude: text,
    altitudeUnit: v.picklist(['feet', 'metres']),
    trackDegreesTrue: text,
    ageSeconds: text,
  }),
});

export function createReceiverDesk(database: Database, site: Site, layerHeightMetres: number, now: ReadonlySignal<LinkInstant>): ReceiverDesk {
  const settings = signal<ReceiverSettings>({ address: '', mapping: RECEIVER_MAPPING, follow: '' });
  const state = signal<ReceiverState | null>(null);
  const heard = signal<{ readonly aircraft: readonly ReceivedAircraft[]; readonly at: LinkInstant } | null>(null);
  const last = signal<{ readonly aircraft: ReceivedAircraft; readonly at: LinkInstant } | null>(null);
  const on = signal(false);
  let changed = false;
  let end = (): void => {};
  void readSetting(database, SETTING)
    .then((stored) => {
      const result = v.safeParse(SCHEMA, stored);
      if (result.success && !changed) settings.value = result.output;
    })
    .catch(() => {});

  function follow(aircraft: readonly ReceivedAircraft[], at: LinkInstant): void {
    heard.value = { aircraft, at };
    const wanted = settings.peek().follow.trim().toLowerCase();
    const found = aircraft.find(({ id }) => id.toLowerCase() === wanted);
    if (found !== undefined) last.value = { aircraft: found, at };
  }
  function start(): void {
    end();
    on.value = true;
    const { address, mapping } = settings.peek();
    end = followReceiver({
      address,
      mapping,
      now: deviceInstant,
      fetch: (url, init) => fetch(url, init),
      onState(next) {
        state.value = next;
        if (next.kind === 'heard') follow(next.aircraft, next.at);
      },
    });
  }
  return {
    settings,
    on,
    state,
    ids: computed(() => (heard.value?.aircraft ?? []).map(({ id }) => id).slice(0, IDS_SHOWN)),
    mark: computed(() => {
      const known = last.value;
      return known === null || known.aircraft.id.toLowerCase() !== settings.value.follow.trim().toLowerCase()
        ? null
        : markOf(known.aircraft, known.at, site, layerHeightMetres, now.value);
    }),
    change(next) {
      changed = true;
      settings.value = next;
      saveSetting(database, SETTING, next).catch(() => {});
      if (on.peek()) start();
    },
    start,
    stop() {
      end();
      on.value = false;
      state.value = null;
      last.value = null;
    },
  };
}

function markOf(aircraft: ReceivedAircraft, at: LinkInstant, site: Site, layerHeightMetres: number, now: LinkInstant): ShipMark {
  const here = elapsedMilliseconds(at, now) / 1000;
  // A receiver that does not say how old a position is leaves it unknown: it lists aircraft it heard minutes ago.
  const ageSeconds = aircraft.ageSeconds === null ? null : aircraft.ageSeconds + here;
  return {
    device: `receiver-${aircraft.id}`,
    shipIndex: null,
    name: `${aircraft.id} (receiver)`,
    fresh:
      ageSeconds === null ? { kind: 'unknown' } : { kind: ageSeconds <= LIVE_SECONDS ? 'live' : ageSeconds <= AGEING_SECONDS ? 'ageing' : 'stale', ageSeconds },
    smoke: null,
    place: siteFromGeodetic(aircraft, aircraft.altitudeMetres ?? layerHeightMetres, site),
    trackRadians: aircraft.trackDegreesTrue === null ? null : radiansFromDegrees(aircraft.trackDegreesTrue),
  };
}
