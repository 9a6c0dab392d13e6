import { describe, expect, it } from 'vitest';
import { createLoginOrder, type LoginAttempt } from '../../src/hub/login-order.ts';

const attempt = (name: string, password: string, address: string, hash: string | null = `hash of ${name}`): LoginAttempt => ({
  name,
  address,
  password: Buffer.from(password),
  hash,
});

/** Passwords that fit are the names; each check takes until it is let go. */
function bench() {
  const checked: string[] = [];
  const pending: (() => void)[] = [];
  let now = 0;
  const order = createLoginOrder(
    () => now,
    async (password, hash) => {
      checked.push(`${password} ${hash}`);
      await new Promise<void>((resolve) => pending.push(resolve));
      return hash === `hash of ${password}`;
    },
  );
  const letGo = async (count = 1): Promise<void> => {
    for (let one = 0; one < count; one += 1) {
      await new Promise((resolve) => setImmediate(resolve));
      pending.shift()?.();
      await new Promise((resolve) => setImmediate(resolve));
    }
  };
  return { order, checked, letGo, wait: (milliseconds: number) => (now += milliseconds) };
}

describe('who is checked next', () => {
  it('is a first login before all that were wrong before, whoever came first', async () => {
    const { order, checked, letGo } = bench();
    const wrong = order.check(attempt('lead', 'x', 'far'));
    await letGo();
    expect((await wrong).fits).toBe(false);
    for (let index = 0; index < 20; index += 1) void order.check(attempt('lead', `x${index}`, 'far'));
    for (let index = 0; index < 20; index += 1) void order.check(attempt(`nobody-${index}`, 'x', 'far', null));
    const good = order.check(attempt('two', 'two', 'near'));
    // The same name from elsewhere is not slowed by what a stranger tries.
    const named = order.check(attempt('lead', 'lead', 'near'));
    await letGo(2);
    expect(checked.slice(-2)).toEqual(['two hash of two', 'lead hash of lead']);
    await letGo(4);
    expect(await good).toEqual({ fits: true, afterMilliseconds: 0 });
    expect(await named).toEqual({ fits: true, afterMilliseconds: 0 });
  });

  it('is nobody of those who wait beyond number: the least claim gives way', async () => {
    const { order, letGo } = bench();
    const first = order.check(attempt('lead', 'x', 'far'));
    await letGo();
    await first;
    const many = Array.from({ length: 700 }, (_, index) => order.check(attempt('lead', `x${index}`, 'far')).catch((error: Error) => error.message));
    const good = order.check(attempt('two', 'two', 'far'));
    await letGo(4);
    expect((await good).fits).toBe(true);
    const busy = await Promise.race([Promise.all(many.slice(-90)), new Promise((resolve) => setTimeout(() => resolve('none'), 50))]);
    expect(busy).toEqual(Array.from({ length: 90 }, () => 'busy'));
  });

  it('is nobody who has gone before its turn', async () => {
    const { order, checked, letGo } = bench();
    for (const name of ['one', 'two']) void order.check(attempt(name, 'x', 'far'));
    const left = new AbortController();
    const gone = order.check({ ...attempt('three', 'x', 'far'), gone: left.signal }).catch((error: Error) => error.message);
    left.abort();
    expect(await gone).toBe('busy');
    void order.check(attempt('four', 'x', 'far'));
    // The first place that is free goes to whoever still waits.
    await letGo();
    expect(checked).toEqual(['x hash of one', 'x hash of two', 'x hash of four']);
    await letGo(3);
    expect(checked).toHaveLength(3);
  });

  it('is told later and later that it was wrong, up to eight times, and no longer after ten minutes', async () => {
    const { order, letGo, wait } = bench();
    const delays: number[] = [];
    for (let index = 0; index < 6; index += 1) {
      const checking = order.check(attempt('lead', 'x', 'far'));
      await letGo();
      delays.push((await checking).afterMilliseconds);
    }
    expect(delays).toEqual([700, 1400, 2800, 5600, 5600, 5600]);
    wait(600_001);
    const checking = order.check(attempt('lead', 'x', 'far'));
    await letGo();
    expect((await checking).afterMilliseconds).toBe(700);
  });

  it('costs nothing once it fitted, and everything again with another password', async () => {
    const { order, checked, letGo } = bench();
    const first = order.check(attempt('lead', 'lead', 'near'));
    await letGo();
    await first;
    expect((await order.check(attempt('lead', 'lead', 'elsewhere'))).fits).toBe(true);
    expect(checked).toHaveLength(1);
    void order.check(attempt('lead', 'other', 'near'));
    await letGo();
    expect(checked).toHaveLength(2);
  });
});
