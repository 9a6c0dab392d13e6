import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { linkSubscriptions } from '../../src/core/wire/link-topics.ts';
import { maySubscribe } from '../../src/hub/access.ts';
import { mosquittoAccess, mosquittoConfiguration } from '../../src/hub/mosquitto-files.ts';
import type { HubUser } from '../../src/hub/users.ts';

const USERS: readonly HubUser[] = [
  { name: 'lead', role: 'ship', jobs: ['*'], password: '' },
  { name: 'anna', role: 'ground', jobs: ['job-1', 'job-2'], password: '' },
  { name: 'spy', role: 'none', jobs: ['*'], password: '' },
];

describe('Mosquitto\u2019s access file', () => {
  const text = mosquittoAccess(USERS);

  it.each(USERS.filter(({ role }) => role !== 'none'))('lets $name read what the hub lets it read, and nothing else', (user) => {
    const own = text.split('\nuser ').find((part) => part.startsWith(`${user.name}\n`)) ?? '';
    const read = [...own.matchAll(/^topic read (.*)$/gm)].map((match) => match[1] ?? '');
    expect(read.length).toBeGreaterThan(5);
    expect(read.filter((filter) => !maySubscribe(user, filter))).toEqual([]);
    const listened = Object.keys(linkSubscriptions('job-1', user.role === 'ship' ? 'ship' : 'ground', user.name));
    expect(
      listened.filter((filter) => !read.includes(filter) && !read.includes(filter.replace('/job-1/', '/+/')) && !filter.endsWith(`/ship/${user.name}/link`)),
    ).toEqual([]);
    expect([...own.matchAll(/^topic write (.*)$/gm)].every((match) => match[1]?.includes(`/${user.role}/${user.name}/#`))).toBe(true);
  });

  it('gives a user without a role nothing', () => {
    expect(text).not.toContain('spy');
  });
});

describe('Mosquitto\u2019s configuration', () => {
  it('is the one that the README shows, and that the browser tests run', () => {
    const shown = mosquittoConfiguration({
      port: 8443,
      plainPort: 1883,
      accessPath: 'access',
      passwordPath: 'passwords',
      certificate: { certPath: 'cert.pem', keyPath: 'key.pem' },
    });
    expect(readFileSync(new URL('../../src/hub/README.md', import.meta.url), 'utf8')).toContain(`\n\`\`\`\n${shown}\`\`\`\n`);
  });
});
