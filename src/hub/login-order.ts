import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { passwordFits } from './password-hash.ts';

export interface LoginAttempt {
  readonly name: string;
  /** Where it comes from, as the connection says. */
  readonly address: string;
  readonly password: Buffer;
  /** What the users file has of the name; null when nothing. */
  readonly hash: string | null;
  /** Whoever is gone before its turn is not checked, and nothing of it is kept until then. */
  readonly gone?: AbortSignal;
}

export interface LoginVerdict {
  readonly fits: boolean;
  /** A wrong one is answered after so long. */
  readonly afterMilliseconds: number;
}

/** Checks passwords; rejects an attempt that must give way because too many wait. */
export interface LoginOrder {
  check(attempt: LoginAttempt): Promise<LoginVerdict>;
}

/** Hashing is dear on purpose: a few at a time, and no endless queue. */
const AT_ONCE = 2;
const WAITING_LIMIT = 600;
/** Wrong ones are answered later and later, and count for so long. */
const WRONG_MILLISECONDS = 700;
const SLOWEST_TIMES = 8;
const REMEMBERED_MILLISECONDS = 600_000;
const REMEMBERED = 20_000;

interface Waiting {
  readonly rank: readonly number[];
  readonly go: () => void;
  readonly giveWay: () => void;
}

/**
 * Who is checked next: a name that was never wrong from its address before one that was, a known name before one that
 * nobody has, an address without wrong ones before one with, and then in the order of coming. So a stranger who tries
 * passwords slows the name and the address that it tries from, and nobody else's first login; a password that fitted
 * once is known again at no cost for as long as the hub runs.
 *
 * @param hashFits whether a password fits a hash; the tests' own is cheap
 */
export function createLoginOrder(nowMilliseconds: () => number = Date.now, hashFits: typeof passwordFits = passwordFits): LoginOrder {
  const secret = randomBytes(32);
  const fitted = new Map<string, Buffer>();
  const wrong = new Map<string, { readonly count: number; readonly atMilliseconds: number }>();
  const waiting: Waiting[] = [];
  let running = 0;
  let order = 0;

  function wrongOnes(key: string): number {
    const known = wrong.get(key);
    return known === undefined || nowMilliseconds() - known.atMilliseconds > REMEMBERED_MILLISECONDS ? 0 : known.count;
  }

  function countWrong(key: string): void {
    const count = wrongOnes(key) + 1;
    // The newest at the end: the oldest are forgotten first.
    wrong.delete(key);
    wrong.set(key, { count, atMilliseconds: nowMilliseconds() });
    const [oldest] = wrong.keys();
    if (wrong.size > REMEMBERED && oldest !== undefined) wrong.delete(oldest);
  }

  /** Resolves when it is this one's turn. */
  async function turn(rank: readonly number[], gone?: AbortSignal): Promise<void> {
    if (running < AT_ONCE) {
      running += 1;
      return;
    }
    await new Promise<void>((resolve, reject) => {
      const giveWay = (): void => reject(new Error('busy'));
      const own: Waiting = { rank, go: resolve, giveWay };
      waiting.push(own);
      gone?.addEventListener('abort', () => {
        const at = waiting.indexOf(own);
        if (at >= 0) waiting.splice(at, 1);
        giveWay();
      });
      // Whoever has the least claim gives way, not whoever comes last.
      if (waiting.length > WAITING_LIMIT) take(waiting, 1)?.giveWay();
    });
  }

  function next(): void {
    const chosen = take(waiting, -1);
    if (chosen === undefined) running -= 1;
    else chosen.go();
  }

  return {
    async check({ name, address, password, hash, gone }) {
      const mark = createHmac('sha256', secret).update(`${name}\n${hash}\n`).update(password).digest();
      const before = fitted.get(name);
      if (before !== undefined && timingSafeEqual(before, mark)) return { fits: true, afterMilliseconds: 0 };
      const pair = `${address} ${name}`;
      await turn([wrongOnes(pair), hash === null ? 1 : 0, wrongOnes(address), (order += 1)], gone);
      try {
        // An unknown name costs as much as a known one.
        const fits = (await hashFits(password.toString('utf8'), hash ?? NOBODY)) && hash !== null;
        if (fits) {
          fitted.set(name, mark);
          wrong.delete(pair);
          return { fits, afterMilliseconds: 0 };
        }
        countWrong(pair);
        countWrong(address);
        return { fits, afterMilliseconds: WRONG_MILLISECONDS * Math.min(SLOWEST_TIMES, 2 ** (wrongOnes(pair) - 1)) };
      } finally {
        next();
      }
    },
  };
}

const NOBODY = `scrypt$16384$8$1$AAAAAAAAAAAAAAAAAAAAAA==$${Buffer.alloc(32).toString('base64')}`;

/** Takes out the one of the highest rank (1) or of the lowest (-1). */
function take(waiting: Waiting[], sign: 1 | -1): Waiting | undefined {
  let [best] = waiting;
  for (const each of waiting) if (best !== undefined && sign * compared(each.rank, best.rank) > 0) best = each;
  return best === undefined ? undefined : waiting.splice(waiting.indexOf(best), 1)[0];
}

function compared(one: readonly number[], other: readonly number[]): number {
  for (let index = 0; index < one.length; index += 1) {
    const difference = (one[index] ?? 0) - (other[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
