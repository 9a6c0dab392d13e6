/**
 * What the page may load and reach; the build writes it into the page and the hub sends it as a header. No
 * inline script. Secure pages reach only wss and https, so plain ws and http are named for this machine alone: brokers and
 * receivers of aircraft positions stand wherever the person who types their address has them. `blob:` workers are
 * the MQTT client's timers; `blob:` and `data:` images are drawings made on the page for export. Where a browser knows
 * trusted types, text becomes neither markup nor code: the one policy lets only the app's own workers be started.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "media-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self' wss: ws://localhost:* ws://127.0.0.1:* https: http://localhost:* http://127.0.0.1:*",
  "worker-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types default',
].join('; ');
