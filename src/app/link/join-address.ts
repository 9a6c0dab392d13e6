import { isLinkId } from '../../core/wire/link-id.ts';
import { linkAddressFault } from './link-settings-fault.ts';

/** What a join code tells: which job, which version of it, and where the link is. No name and no password. */
export interface JoinCode {
  readonly jobId: string;
  readonly digest: string | null;
  readonly linkAddress: string | null;
}

const DIGEST = /^[0-9a-f]{24}$/;

/** The code's text: an address of this app that opens the job's Ground screen. `page` as in `location`. */
export function joinAddress({ jobId, digest, linkAddress }: JoinCode, { origin, pathname }: Pick<Location, 'origin' | 'pathname'>): string {
  const query = new URLSearchParams();
  if (digest !== null) query.set('digest', digest);
  if (linkAddress !== null) query.set('link', linkAddress);
  return `${origin}${pathname}#/ground/${jobId}/join?${query.toString()}`;
}

/** What the fragment of an address tells; null when it is no join code. What makes no sense in it is left out. */
export function joinFromHash(hash: string): JoinCode | null {
  const match = /^#\/ground\/([^/?]+)\/join\?(.*)$/.exec(hash);
  const jobId = match?.[1] ?? '';
  if (match === null || !isLinkId(jobId)) return null;
  const query = new URLSearchParams(match[2] ?? '');
  const digest = query.get('digest');
  const link = query.get('link');
  return {
    jobId,
    digest: digest !== null && DIGEST.test(digest) ? digest : null,
    linkAddress: link !== null && linkAddressFault(link, 'http:') === null ? link : null,
  };
}

/** The same from a whole address, as a camera reads it. */
export function joinFromAddress(address: string): JoinCode | null {
  const at = address.indexOf('#/ground/');
  return address.length > 2000 || at < 0 ? null : joinFromHash(address.slice(at));
}
