import type { RequestListener } from 'node:http';
import sirv from 'sirv';
import { CONTENT_SECURITY_POLICY } from './content-security-policy.ts';

const HASHED = /^\/assets\/[^/]+-[\w-]{8}\.\w+$/;

/**
 * Answers with the built app's files. A missing path is 404 in plain text, never the page with status 200: a
 * service worker would store that answer under the missing file's name.
 */
export function serveApp(distDirectory: string): RequestListener {
  const files = sirv(distDirectory, {
    dev: true,
    etag: true,
    // The build has packed scripts and styles beside themselves.
    gzip: true,
    setHeaders(response, pathname) {
      response.setHeader('Content-Security-Policy', `${CONTENT_SECURITY_POLICY}; frame-ancestors 'none'`);
      response.setHeader('X-Content-Type-Options', 'nosniff');
      response.setHeader('Referrer-Policy', 'no-referrer');
      response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
      response.setHeader('Permissions-Policy', 'geolocation=(self), screen-wake-lock=(self), camera=(self), microphone=()');
      // Only names that carry their content's hash may be kept without asking again.
      response.setHeader('Cache-Control', HASHED.test(pathname) ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  return (request, response) => {
    files(request, response, () => {
      response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8', 'X-Content-Type-Options': 'nosniff' });
      response.end('Not found\n');
    });
  };
}
