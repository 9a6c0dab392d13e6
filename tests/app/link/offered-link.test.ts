import { describe, expect, it } from 'vitest';
import { linkHost } from '../../../src/app/link/link-host.ts';
import type { LinkSettings } from '../../../src/app/link/link-settings.ts';
import { draftForOther, draftFrom, withLinkEntry } from '../../../src/app/link/offered-link.ts';

const page = { protocol: 'https:', host: 'app.example' };
const stored: LinkSettings = { address: 'wss://field.local:8443/link', user: 'lead', password: 'typed once', on: true };

describe('a join code', () => {
  it('of the stored host keeps name and password', () => {
    const { settings, otherHost } = draftFrom({ ...stored, on: false }, 'wss://field.local:8443/other', page);
    expect(settings).toEqual({ ...stored, on: false, address: 'wss://field.local:8443/other' });
    expect(otherHost).toBeNull();
  });

  it.each(['wss://elsewhere.example:8443/link', 'wss://field.local:9443/link', 'wss://field.local.elsewhere.example/link'])(
    'of another host changes nothing by itself, and with a yes empties name and password: %s',
    (address) => {
      const draft = draftFrom(stored, address, page);
      expect(draft.settings).toEqual(stored);
      expect(draft.otherHost).toEqual({ offered: linkHost(address), stored: 'field.local:8443' });
      expect(draftForOther(address).settings).toEqual({ address, user: '', password: '', on: false });
    },
  );

  it('is taken where nothing is stored', () => {
    expect(draftFrom(null, 'wss://field.local:8443/link', page).settings.address).toBe('wss://field.local:8443/link');
    expect(draftFrom(null, null, page).settings.address).toBe('wss://app.example/link');
  });
});

describe('an address typed by hand', () => {
  it('of another host lets go of what was typed for the stored one, and its own brings it back', () => {
    const away = withLinkEntry(draftFrom(stored, null, page), { address: 'wss://elsewhere.example/link' }, stored);
    expect(away.settings).toMatchObject({ user: '', password: '' });
    expect(withLinkEntry(away, { address: stored.address }, stored).settings).toEqual(stored);
  });

  it('keeps what was typed for it', () => {
    const away = withLinkEntry(draftFrom(stored, null, page), { address: 'wss://elsewhere.example/link' }, stored);
    const typed = withLinkEntry(withLinkEntry(away, { user: 'two' }, stored), { password: 'for elsewhere' }, stored);
    expect(typed.settings).toMatchObject({ address: 'wss://elsewhere.example/link', user: 'two', password: 'for elsewhere' });
    expect(withLinkEntry(typed, { address: 'wss://elsewhere.example/other' }, stored).settings.password).toBe('for elsewhere');
    expect(withLinkEntry(typed, { address: 'wss://third.example/link' }, stored).settings.password).toBe('');
  });

  it('never leaves a stored password beside another host, whatever is typed in which order', () => {
    const addresses = ['wss://a', 'wss://field.local:8443/link', 'wss://b.example/link', 'nothing', 'wss://field.local/link'];
    for (const one of addresses)
      for (const two of addresses)
        for (const three of addresses) {
          let draft = draftFrom(stored, null, page);
          for (const address of [one, two, three]) draft = withLinkEntry(draft, { address }, stored);
          if (draft.settings.password === stored.password) expect(linkHost(draft.settings.address)).toBe('field.local:8443');
        }
  });
});
