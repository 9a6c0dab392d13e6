/**
 * What the page may load and reach; the build writes it into the page and the hub sends it as a header. No
 * inline script. Secure pages reach only wss, so plain ws is named for this machine alone. `blob:` workers are
 * the MQTT client's timers; `blob:` and `data:` images are drawings made on the page for export.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "media-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self' wss: ws://localhost:* ws://127.0.0.1:*",
  "worker-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
