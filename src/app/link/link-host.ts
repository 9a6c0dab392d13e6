/** Host and port of an address, as in `field.local:8443`; null when it is no address. */
export function linkHost(address: string): string | null {
  return URL.canParse(address) && new URL(address).host !== '' ? new URL(address).host : null;
}
