import { describe, expect, it } from 'vitest';
import { linkSubscriptions } from '../../src/core/wire/link-topics.ts';
import { maySubscribe, publishFault } from '../../src/hub/access.ts';
import type { HubUser } from '../../src/hub/users.ts';

const user = (name: string, role: HubUser['role'], jobs: readonly string[] = ['*']): HubUser => ({ name, role, jobs, password: '' });
const lead = user('lead', 'ship');
const anna = user('anna', 'ground');
const publish = (by: HubUser, topic: string, change: object = {}): string | null =>
  publishFault(by, { topic, qos: 1, retain: false, payloadBytes: 100, ...change });

describe('what a user may say', () => {
  it('is what its role says below its own name', () => {
    expect(publish(lead, 'quillwind/1/j/ship/lead/event')).toBeNull();
    expect(publish(lead, 'quillwind/1/j/ship/lead/state', { qos: 0, retain: true })).toBeNull();
    expect(publish(anna, 'quillwind/1/j/ground/anna/ask/lead')).toBeNull();
  });

  it.each([
    ['for another ship', lead, 'quillwind/1/j/ship/two/event', {}],
    ['for the ground, as a ship', lead, 'quillwind/1/j/ground/lead/event', {}],
    ['for a ship, as an observer of the same name', user('lead', 'ground'), 'quillwind/1/j/ship/lead/event', {}],
    ['a state, as an observer', anna, 'quillwind/1/j/ground/anna/state', {}],
    ['in a job of others', user('lead', 'ship', ['k']), 'quillwind/1/j/ship/lead/event', {}],
    ['with no role', user('lead', 'none'), 'quillwind/1/j/ship/lead/event', {}],
    ['on the broker\u2019s own topics', lead, '$SYS/broker/x', {}],
    ['elsewhere', lead, 'home/door', {}],
    ['what is too long', lead, 'quillwind/1/j/ship/lead/event', { payloadBytes: 8193 }],
    ['with quality of service 2', lead, 'quillwind/1/j/ship/lead/event', { qos: 2 }],
    ['an event to be kept', lead, 'quillwind/1/j/ship/lead/event', { retain: true }],
  ] as const)('is not: %s', (_name, by, topic, change) => {
    expect(publish(by, topic, change)).toEqual(expect.any(String));
  });
});

describe('what a user may hear', () => {
  it.each([lead, anna])('is everything that the app listens to: $role', (by) => {
    if (by.role === 'none') return;
    const filters = Object.keys(linkSubscriptions('j', by.role, by.name));
    expect(filters.length).toBeGreaterThan(3);
    expect(filters.filter((filter) => !maySubscribe(by, filter))).toEqual([]);
  });

  it.each([
    ['everything', anna, '#'],
    ['everything of the link', anna, 'quillwind/1/#'],
    ['everything of a job', anna, 'quillwind/1/j/ship/+/#'],
    ['the broker', anna, '$SYS/#'],
    ['what others are asked', anna, 'quillwind/1/j/ship/+/ask/ben'],
    ['what anybody is asked', anna, 'quillwind/1/j/ship/+/ask/+'],
    ['a job of others', user('anna', 'ground', ['k']), 'quillwind/1/j/ship/+/state'],
    ['all jobs, with a part in one', user('anna', 'ground', ['k']), 'quillwind/1/+/ship/+/state'],
    ['anything without a role', user('x', 'none'), 'quillwind/1/j/ship/+/state'],
    ['a shared filter', anna, '$share/g/quillwind/1/j/ship/+/state'],
  ] as const)('is not %s', (_name, by, filter) => {
    expect(maySubscribe(by, filter)).toBe(false);
  });
});
