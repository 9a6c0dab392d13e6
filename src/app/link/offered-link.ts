import { linkHost } from './link-host.ts';
import { linkAddressOfPage } from './link-settings-fault.ts';
import type { LinkSettings } from './link-settings.ts';

/** What stands in the form of the link, and the host that its name and password were typed for. */
export interface LinkDraft {
  readonly settings: LinkSettings;
  /** Null where there are none. */
  readonly typedFor: string | null;
  /** A join code's host and the one that is stored, where they are two. */
  readonly otherHost: { readonly offered: string; readonly stored: string } | null;
}

/**
 * The form as it opens: what is stored, with a join code’s address where that is the same host or none is stored. A code
 * that names another host changes nothing by itself.
 */
export function draftFrom(stored: LinkSettings | null, offeredAddress: string | null, page: Pick<Location, 'protocol' | 'host'>): LinkDraft {
  const offered = offeredAddress === null ? null : linkHost(offeredAddress);
  if (stored === null || linkHost(stored.address) === null) {
    const address = offered === null || offeredAddress === null ? linkAddressOfPage(page) : offeredAddress;
    return { settings: { address, user: stored?.user ?? '', password: '', on: false }, typedFor: null, otherHost: null };
  }
  const own = linkHost(stored.address) ?? '';
  const draft = { settings: stored, typedFor: own, otherHost: null };
  if (offeredAddress === null || offered === null) return draft;
  if (offered === own) return stored.on ? draft : { ...draft, settings: { ...stored, address: offeredAddress } };
  return { ...draft, otherHost: { offered, stored: own } };
}

/** The yes to the other host: its address, with neither name nor password, which were typed for the stored one. */
export function draftForOther(offeredAddress: string): LinkDraft {
  return { settings: { address: offeredAddress, user: '', password: '', on: false }, typedFor: null, otherHost: null };
}

/**
 * The form with an entry changed. An address of another host lets go of the name and password that were typed for the
 * stored one; the stored one’s own brings them back.
 */
export function withLinkEntry(draft: LinkDraft, part: Partial<LinkSettings>, stored: LinkSettings | null): LinkDraft {
  if (part.address === undefined) {
    const typedFor = part.password === undefined ? draft.typedFor : linkHost(draft.settings.address);
    return { ...draft, settings: { ...draft.settings, ...part }, typedFor };
  }
  const host = linkHost(part.address);
  const own = stored === null ? null : linkHost(stored.address);
  if (draft.typedFor !== null && host !== draft.typedFor) return { ...draft, settings: { ...draft.settings, ...part, user: '', password: '' }, typedFor: null };
  if (stored !== null && host !== null && host === own && draft.settings.password === '')
    return { ...draft, settings: { ...draft.settings, ...part, user: stored.user, password: stored.password }, typedFor: own };
  return { ...draft, settings: { ...draft.settings, ...part } };
}
