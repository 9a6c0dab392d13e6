import { signal } from '@preact/signals';
import { expect, it } from 'vitest';
import { settledSignal } from '../../../src/app/draw/settled-signal.ts';

it('follows the first value at once and later ones only when they stand', () => {
  const source = signal<string | null>(null);
  let waiting: (() => void)[] = [];
  const rest = (): void => {
    const due = waiting;
    waiting = [];
    for (const call of due) call();
  };
  const { settled, dispose } = settledSignal(source, (_milliseconds, call) => {
    waiting.push(call);
    return () => (waiting = waiting.filter((other) => other !== call));
  });
  source.value = 'S';
  expect(settled.value).toBe('S');
  source.value = 'SA';
  source.value = 'SAI';
  expect(settled.value).toBe('S');
  expect(waiting).toHaveLength(1);
  rest();
  expect(settled.value).toBe('SAI');
  source.value = 'SAIL';
  dispose();
  rest();
  expect(settled.value).toBe('SAI');
});
