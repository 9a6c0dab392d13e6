import { type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import type { JobShip } from '../../core/job/job.ts';
import { SHIP_SCHEMA } from '../../core/job/job-schema.ts';
import { freeName, id, name, number, orNull, pattern } from '../../core/text/field-schemas.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import { newId } from '../new-id.ts';

const KEPT_SHIP = v.object({ id: id(), savedAtMilliseconds: v.number(), ship: SHIP_SCHEMA });
const KEPT_SITE = v.object({
  id: id(),
  name: name(),
  latitudeDegrees: number([-85, 85]),
  longitudeDegrees: number([-180, 180]),
  elevationFeet: number([-1500, 20_000]),
  timeZone: pattern(/^[A-Za-z0-9_+/-]{1,60}$/, 'must be a time zone'),
});
const KEPT_MEMBER = v.object({ id: id(), name: name(), role: freeName(), telephone: freeName() });
const KEPT_OIL = v.object({ id: id(), kind: name(), poundsPerGallon: orNull(number([4, 12])) });

export type KeptShip = Readonly<Omit<v.InferOutput<typeof KEPT_SHIP>, 'ship'> & { readonly ship: JobShip }>;
export type KeptSite = Readonly<v.InferOutput<typeof KEPT_SITE>>;
export type KeptMember = Readonly<v.InferOutput<typeof KEPT_MEMBER>>;
export type KeptOil = Readonly<v.InferOutput<typeof KEPT_OIL>>;

/** What is entered once and used in many jobs. */
export interface KeptThings {
  readonly ships: readonly KeptShip[];
  readonly sites: readonly KeptSite[];
  readonly crew: readonly KeptMember[];
  readonly oils: readonly KeptOil[];
}

const SETTING = 'kept-things';
const NOTHING: KeptThings = { ships: [], sites: [], crew: [], oils: [] };

/** What is kept, as stored; anything that cannot be read any more is left where it is and not shown. Rejects with a `StoreFault`. */
export async function readKept(database: Database): Promise<KeptThings> {
  const stored = await readSetting(database, SETTING);
  const lists = typeof stored === 'object' && stored !== null ? (stored as Readonly<Record<string, unknown>>) : {};
  const read = <Schema extends v.GenericSchema>(list: unknown, schema: Schema): v.InferOutput<Schema>[] =>
    (Array.isArray(list) ? (list as readonly unknown[]) : []).flatMap((item) => {
      const parsed = v.safeParse(schema, item);
      return parsed.success ? [parsed.output] : [];
    });
  return {
    ships: read(lists['ships'], KEPT_SHIP),
    sites: read(lists['sites'], KEPT_SITE),
    crew: read(lists['crew'], KEPT_MEMBER),
    oils: read(lists['oils'], KEPT_OIL),
  };
}

/** Rejects with a `StoreFault`. */
export function saveKept(database: Database, kept: KeptThings): Promise<void> {
  return saveSetting(database, SETTING, kept);
}

/** What is kept, for a screen: read once, changed by touches, saved at once. */
export interface KeptShelf {
  readonly kept: ReadonlySignal<KeptThings>;
  /** Why the last change was not stored; null when it was. */
  readonly fault: ReadonlySignal<string | null>;
  /** Keeps a ship, under its own id when it has one; resolves with the id. */
  keepShip(ship: JobShip): Promise<string>;
  keepSite(site: Omit<KeptSite, 'id'>): Promise<void>;
  keepMember(member: Omit<KeptMember, 'id'>): Promise<void>;
  keepOil(oil: Omit<KeptOil, 'id'>): Promise<void>;
  forget(list: keyof KeptThings, forgottenId: string): Promise<void>;
}

export function createKeptShelf(database: Database, nowMilliseconds: () => number): KeptShelf {
  const kept = signal(NOTHING);
  const fault = signal<string | null>(null);
  const ready = readKept(database).then(
    (read) => void (kept.value = read),
    () => {},
  );
  const put = async (change: (before: KeptThings) => KeptThings): Promise<void> => {
    await ready;
    const before = kept.peek();
    kept.value = change(before);
    try {
      await saveKept(database, kept.peek());
      fault.value = null;
    } catch (error) {
      kept.value = before;
      fault.value = error instanceof Error ? error.message : String(error);
    }
  };
  /** In place of the one with the same key, or last. */
  const among = <Item extends { readonly id: string }>(list: readonly Item[], item: Item, same: (other: Item) => boolean): Item[] => {
    const at = list.findIndex(same);
    return at < 0 ? [...list, item] : list.with(at, { ...item, id: list[at]?.id ?? item.id });
  };
  return {
    kept,
    fault,
    async keepShip(ship) {
      const shipId = ship.keptId ?? newId();
      const item = { id: shipId, savedAtMilliseconds: nowMilliseconds(), ship: { ...ship, keptId: shipId } };
      await put((before) => ({ ...before, ships: among(before.ships, item, (other) => other.id === shipId) }));
      return shipId;
    },
    keepSite: ({ name: siteName, latitudeDegrees, longitudeDegrees, elevationFeet, timeZone }) =>
      put((before) => ({
        ...before,
        sites: among(
          before.sites,
          { id: newId(), name: siteName, latitudeDegrees, longitudeDegrees, elevationFeet, timeZone },
          (other) => other.name === siteName,
        ),
      })),
    keepMember: (member) => put((before) => ({ ...before, crew: among(before.crew, { ...member, id: newId() }, (other) => other.name === member.name) })),
    keepOil: (oil) => put((before) => ({ ...before, oils: among(before.oils, { ...oil, id: newId() }, (other) => other.kind === oil.kind) })),
    forget: (list, forgottenId) => put((before) => ({ ...before, [list]: before[list].filter((item: { readonly id: string }) => item.id !== forgottenId) })),
  };
}

/** The fields in which a job's copy of a ship differs from the kept one, what each carries on its own job left out. */
export function shipDifferences(ship: JobShip, keptShip: JobShip): (keyof JobShip)[] {
  const own: readonly string[] = ['name', 'keptId', 'smokeOilPounds', 'fuelGallons', 'otherFlyingMinutes'];
  return (Object.keys(keptShip) as (keyof JobShip)[]).filter((key) => !own.includes(key) && JSON.stringify(ship[key]) !== JSON.stringify(keptShip[key]));
}
