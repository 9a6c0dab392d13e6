/**
 * The addresses of a link as they are typed: one, or those of all nodes of a broker that clusters, with spaces or commas
 * between them: `wss://one:8443/mqtt wss://two:8443/mqtt`. Empty for none.
 */
export function linkAddresses(text: string): readonly string[] {
  return text.split(/[\s,]+/).filter((address) => address !== '');
}
