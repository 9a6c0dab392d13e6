import type { EventLedger, SequenceRange } from './event-ledger.ts';
import { missingOf } from './event-ledger.ts';

/** A boot of another device, and how many events it is known to have made. */
export interface KnownBoot {
  readonly device: string;
  readonly boot: string;
  readonly count: number;
}

/** A question to put to a device. */
export interface GapQuestion extends SequenceRange {
  readonly device: string;
  readonly boot: string;
}

/** Remembers what others have told there is, and what was asked for when. */
export interface GapWatch {
  /** There are at least so many events of a boot. */
  known(boot: KnownBoot): void;
  /** What to ask for now, in view of what was received; each gap again only after a while. */
  due(ledger: EventLedger, nowMilliseconds: number): readonly GapQuestion[];
  /** Whose events are known to exist and were not received. */
  missingDevices(ledger: EventLedger): readonly string[];
  /** How many events are known to exist and were not received. */
  missingCount(ledger: EventLedger): number;
}

/** Time for what is merely on its way. */
const GRACE_MILLISECONDS = 1000;
const AGAIN_MILLISECONDS = 3000;
const QUESTIONS_AT_ONCE = 8;
const BOOTS_LIMIT = 1000;

/** @param random from 0 to 1: devices that missed the same do not ask at the same moment, and the first answer serves all */
export function createGapWatch(random: () => number): GapWatch {
  const counts = new Map<string, KnownBoot>();
  const askAt = new Map<string, number>();
  return {
    known({ device, boot, count }) {
      const key = `${device}/${boot}`;
      const before = counts.get(key);
      if (before === undefined ? counts.size < BOOTS_LIMIT : before.count < count) counts.set(key, { device, boot, count });
    },
    due(ledger, nowMilliseconds) {
      const questions: GapQuestion[] = [];
      for (const [key, { device, boot, count }] of counts) {
        const missing = missingOf(ledger, device, boot, count);
        if (missing.length === 0) {
          askAt.delete(key);
          continue;
        }
        const at = askAt.get(key);
        if (at === undefined) {
          askAt.set(key, nowMilliseconds + GRACE_MILLISECONDS * (1 + random()));
          continue;
        }
        if (nowMilliseconds < at || questions.length >= QUESTIONS_AT_ONCE) continue;
        askAt.set(key, nowMilliseconds + AGAIN_MILLISECONDS * (1 + random()));
        questions.push(...missing.slice(0, 4).map((range) => ({ device, boot, ...range })));
      }
      return questions;
    },
    missingDevices: (ledger) => [
      ...new Set([...counts.values()].flatMap(({ device, boot, count }) => (missingOf(ledger, device, boot, count).length > 0 ? [device] : []))),
    ],
    missingCount: (ledger) =>
      [...counts.values()].reduce(
        (sum, { device, boot, count }) =>
          sum + missingOf(ledger, device, boot, count).reduce((each, { fromSequence, toSequence }) => each + toSequence - fromSequence + 1, 0),
        0,
      ),
  };
}
