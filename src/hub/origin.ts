import { isIP } from 'node:net';

/** The hosts under which a hub is known. */
export interface KnownHosts {
  /** Whether the hub speaks only TLS. */
  readonly secure: boolean;
  /** Origins of pages that may use the hub, besides its own: `https://field.example`. */
  readonly allowedOrigins: readonly string[];
  /** Whether the hub's certificate is for a name. */
  readonly isCertified: (name: string) => boolean;
}

/**
 * Whether a request's `Host` is this hub's: a number, this machine, a name of its certificate, or of an origin that was
 * allowed. Any other is a name that somebody pointed at this address, perhaps while a page of it was open: to the browser
 * that page is then of one origin with the hub (DNS rebinding).
 *
 * @param host as in `field.local:8443`
 */
export function isKnownHost(host: string | undefined, { allowedOrigins, isCertified }: Omit<KnownHosts, 'secure'>): boolean {
  if (host === undefined || !/^[A-Za-z0-9.:[\]-]{1,255}$/.test(host)) return false;
  const name = nameFromHost(host);
  if (name === 'localhost' || name.endsWith('.localhost') || isIP(name) !== 0) return true;
  return isCertified(name) || allowedOrigins.some((origin) => URL.canParse(origin) && new URL(origin).hostname === name);
}

/**
 * Whether a page of an origin may open a socket to this host: the hub's own page, or one that was named. Programs that
 * are no browser send no origin; they have a password to give all the same.
 */
export function mayOrigin(origin: string | undefined, host: string | undefined, known: KnownHosts): boolean {
  if (!isKnownHost(host, known)) return false;
  if (origin === undefined) return true;
  return origin === `${known.secure ? 'https' : 'http'}://${host ?? ''}` || known.allowedOrigins.includes(origin);
}

function nameFromHost(host: string): string {
  const inBrackets = /^\[([^\]]*)\]/.exec(host);
  return (inBrackets?.[1] ?? host.replace(/:\d*$/, '')).toLowerCase();
}
