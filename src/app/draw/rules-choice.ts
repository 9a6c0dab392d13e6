import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import * as v from 'valibot';
import { ICAO_RULES, ownRules, type OwnRules, type RulesOfTheAir, US_RULES } from '../../core/place/rules-of-the-air.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

const POSITIVE = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(50_000));
const OWN = v.object({
  visibilityMetres: POSITIVE,
  belowCloudMetres: POSITIVE,
  aboveCloudMetres: POSITIVE,
  asideMetres: POSITIVE,
  oxygenMetres: v.nullable(POSITIVE),
  peopleMetres: POSITIVE,
  reserveMinutes: POSITIVE,
  source: v.pipe(v.string(), v.maxLength(60)),
});
const STORED = v.object({ id: v.picklist(['us', 'icao', 'own']), own: OWN });

/** Which set of rules the checks hold against, and the pilot's own numbers. */
export interface RulesChoice {
  readonly id: Signal<'us' | 'icao' | 'own'>;
  readonly own: Signal<OwnRules>;
  readonly rules: ReadonlySignal<RulesOfTheAir>;
  /** Stores what was chosen. */
  choose(id: 'us' | 'icao' | 'own', own?: OwnRules): void;
}

const SETTING = 'rules';
/** Nothing is asked for until the pilot enters it. */
const NOTHING_ASKED: OwnRules = {
  visibilityMetres: 0,
  belowCloudMetres: 0,
  aboveCloudMetres: 0,
  asideMetres: 0,
  oxygenMetres: null,
  peopleMetres: 0,
  reserveMinutes: 0,
  source: '',
};

export function createRulesChoice(database: Database): RulesChoice {
  const id = signal<'us' | 'icao' | 'own'>('us');
  const own = signal(NOTHING_ASKED);
  readSetting(database, SETTING).then(
    (stored) => {
      const read = v.safeParse(STORED, stored);
      if (!read.success) return;
      id.value = read.output.id;
      own.value = read.output.own;
    },
    () => {},
  );
  return {
    id,
    own,
    rules: computed(() => (id.value === 'us' ? US_RULES : id.value === 'icao' ? ICAO_RULES : ownRules(own.value))),
    choose(nextId, nextOwn = own.peek()) {
      id.value = nextId;
      own.value = nextOwn;
      saveSetting(database, SETTING, { id: nextId, own: nextOwn }).catch(() => {});
    },
  };
}
