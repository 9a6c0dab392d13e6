import { linkAddresses } from '../../core/wire/link-addresses.ts';

/** Host and port of each address of a link, as in `field.local:8443`; empty when one of them is no address. */
export function linkHosts(typed: string): readonly string[] {
  const addresses = linkAddresses(typed);
  return addresses.every((address) => URL.canParse(address) && new URL(address).host !== '') ? addresses.map((address) => new URL(address).host) : [];
}

/** The same in one text, to tell one link from another; null when it is no address. */
export function linkHost(typed: string): string | null {
  const hosts = linkHosts(typed);
  return hosts.length === 0 ? null : hosts.toSorted().join(', ');
}
