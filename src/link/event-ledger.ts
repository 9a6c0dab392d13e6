/** Which events were received, by device and boot, so that none counts twice and a missing one is known. */
export interface EventLedger {
  readonly boots: ReadonlyMap<string, BootLedger>;
}

/** Of one boot: every sequence below `contiguous` was received, and those in `beyond`. */
export interface BootLedger {
  readonly contiguous: number;
  /** Ascending, all above `contiguous`. */
  readonly beyond: readonly number[];
}

/** From one sequence to another, both missing too. */
export interface SequenceRange {
  readonly fromSequence: number;
  readonly toSequence: number;
}

/** What one device's page starts can make us remember; more than that is no ship and no observer. */
const BOOTS_LIMIT = 1000;
const BEYOND_LIMIT = 10_000;

/** Before anything was received. */
export const EMPTY_LEDGER: EventLedger = { boots: new Map() };

/**
 * The ledger with an event in it, and whether it is new: `again` for one that was received before, `refused` when
 * there is no room, which only a hostile sender reaches.
 */
export function received(
  ledger: EventLedger,
  device: string,
  boot: string,
  sequence: number,
): { readonly ledger: EventLedger; readonly verdict: 'new' | 'again' | 'refused' } {
  const key = `${device}/${boot}`;
  const before = ledger.boots.get(key) ?? { contiguous: 0, beyond: [] };
  if (sequence < before.contiguous || before.beyond.includes(sequence)) return { ledger, verdict: 'again' };
  if (!ledger.boots.has(key) && ledger.boots.size >= BOOTS_LIMIT) return { ledger, verdict: 'refused' };
  if (before.beyond.length >= BEYOND_LIMIT && sequence !== before.contiguous) return { ledger, verdict: 'refused' };
  return { ledger: { boots: new Map(ledger.boots).set(key, withSequence(before, sequence)) }, verdict: 'new' };
}

function withSequence({ contiguous, beyond }: BootLedger, sequence: number): BootLedger {
  if (sequence !== contiguous) return { contiguous, beyond: [...beyond, sequence].sort((one, other) => one - other) };
  let next = contiguous + 1;
  const left = beyond.filter((each) => {
    if (each !== next) return true;
    next += 1;
    return false;
  });
  return { contiguous: next, beyond: left };
}

/**
 * What is missing of a boot that has made `count` events so far; empty when nothing is. After 0, 1 and 4 of 6:
 * 2 to 3 and 5 to 5.
 */
export function missingOf(ledger: EventLedger, device: string, boot: string, count: number): SequenceRange[] {
  const { contiguous, beyond } = ledger.boots.get(`${device}/${boot}`) ?? { contiguous: 0, beyond: [] };
  const missing: SequenceRange[] = [];
  let fromSequence = contiguous;
  for (const sequence of beyond) {
    if (sequence >= count) break;
    if (sequence > fromSequence) missing.push({ fromSequence, toSequence: sequence - 1 });
    fromSequence = sequence + 1;
  }
  if (fromSequence < count) missing.push({ fromSequence, toSequence: count - 1 });
  return missing;
}
