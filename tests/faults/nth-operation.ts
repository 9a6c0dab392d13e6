import { vi } from 'vitest';

const OPERATIONS = ['open', 'transaction', 'get', 'getAll', 'getAllKeys', 'add', 'put', 'delete'] as const;

/** Which calls to the database fail, counted over all of them. */
export interface NthFault {
  /** From 1. */
  readonly nth: number;
  readonly forEver: boolean;
}

/** What has been called since. */
export interface CountedCalls {
  /** Calls so far, those that failed among them. */
  count(): number;
  /** The call that failed first; null when none has. */
  struck(): string | null;
  heal(): void;
}

/** Lets the nth call of any kind to the database throw, and those after it when it is for ever. */
export function nthOperationFails({ nth, forEver }: NthFault): CountedCalls {
  let calls = 0;
  let struck: string | null = null;
  let healed = false;
  const counted = (name: string): void => {
    calls += 1;
    if (healed || !(forEver ? calls >= nth : calls === nth)) return;
    struck ??= name;
    throw new DOMException('injected', 'UnknownError');
  };
  const prototypes = { open: IDBFactory.prototype, transaction: IDBDatabase.prototype };
  for (const name of OPERATIONS) {
    const prototype = (name in prototypes ? prototypes[name as keyof typeof prototypes] : IDBObjectStore.prototype) as unknown as Record<
      string,
      (...given: unknown[]) => unknown
    >;
    const original = prototype[name]!;
    vi.spyOn(prototype, name).mockImplementation(function (this: unknown, ...given: unknown[]) {
      // The imitation opens with the same call.
      if (!(name === 'transaction' && given[1] === 'versionchange')) counted(name);
      return original.apply(this, given);
    });
  }
  return {
    count: () => calls,
    struck: () => struck,
    heal: () => {
      healed = true;
    },
  };
}
