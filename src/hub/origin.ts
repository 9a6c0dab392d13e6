/**
 * Whether a page of an origin may open a socket to this host: the hub's own page, or one that was named. Programs that
 * are no browser send no origin; they have a password to give all the same.
 *
 * @param host the request's own, as in `field.local:8443`
 */
export function mayOrigin(origin: string | undefined, host: string | undefined, secure: boolean, allowedOrigins: readonly string[]): boolean {
  if (origin === undefined) return true;
  if (host !== undefined && origin === `${secure ? 'https' : 'http'}://${host}`) return true;
  return allowedOrigins.includes(origin);
}
