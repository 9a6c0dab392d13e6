import { linkAddresses } from '../../core/wire/link-addresses.ts';
import { isLinkId } from '../../core/wire/link-id.ts';
import { ADDRESS_LENGTH, type LinkSettings } from './link-settings.ts';

/** What keeps settings from being used, in words; null for nothing. `pageProtocol` as in `location.protocol`. */
export function linkSettingsFault({ address, user, password }: LinkSettings, pageProtocol: string): string | null {
  const fault = linkAddressFault(address, pageProtocol);
  if (fault !== null) return fault;
  if (!isLinkId(user)) return 'The name is made of letters, digits, dashes and underscores, 32 at most.';
  return password === '' ? 'The password is missing.' : null;
}

/** What keeps one of the addresses from being reached by this page, in words; null for nothing. */
export function linkAddressFault(typed: string, pageProtocol: string): string | null {
  if (typed.length > ADDRESS_LENGTH) return 'The address is too long.';
  const [first = '', ...others] = linkAddresses(typed);
  return [first, ...others].map((address) => oneAddressFault(address, pageProtocol)).find((fault) => fault !== null) ?? null;
}

function oneAddressFault(address: string, pageProtocol: string): string | null {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return 'The address must read like wss://host:8443/link.';
  }
  if (url.protocol !== 'wss:' && url.protocol !== 'ws:') return 'The address must begin with wss:// (or ws:// on this machine).';
  if (url.username !== '' || url.password !== '') return 'The address must not hold a name or password; they have their own fields.';
  const here = ['localhost', '127.0.0.1', '[::1]'].includes(url.hostname);
  if (url.protocol === 'ws:' && pageProtocol === 'https:' && !here)
    return 'A secure page reaches only wss://. Give the hub a certificate, or open this app from the hub itself.';
  return null;
}

/** The link of the hub that served a page: the same host, its path for the link. */
export function linkAddressOfPage({ protocol, host }: Pick<Location, 'protocol' | 'host'>): string {
  return `${protocol === 'https:' ? 'wss' : 'ws'}://${host}/link`;
}
