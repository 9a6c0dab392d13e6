import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createHub } from '../../src/hub/create-hub.ts';
import { listenFrom } from '../../src/hub/listen.ts';

const folder = mkdtempSync(join(tmpdir(), 'quillwind-hub-'));
const hub = createHub({ distDirectory: folder });
let address = '';

beforeAll(async () => {
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html>');
  writeFileSync(join(folder, 'service-worker.js'), '// worker');
  writeFileSync(join(folder, 'assets', 'index-AbCd_123.js'), 'export {}');
  writeFileSync(join(folder, 'assets', 'packed-AbCd_123.js'), 'export const packed = 1;');
  writeFileSync(join(folder, 'assets', 'packed-AbCd_123.js.gz'), gzipSync('export const packed = 1;'));
  address = `http://localhost:${await listenFrom(hub, 0)}`;
});

afterAll(() => {
  hub.closeAllConnections();
  hub.close();
  rmSync(folder, { recursive: true });
});

describe('hub', () => {
  it('serves the page with its policy and no inline script', async () => {
    const response = await fetch(`${address}/`);
    expect(response.status).toBe(200);
    const policy = response.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe-(inline|eval)/);
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
  });

  it('sends scripts packed to whoever takes them so, with their own type', async () => {
    const packed = await fetch(`${address}/assets/packed-AbCd_123.js`, { headers: { 'Accept-Encoding': 'gzip' } });
    expect(packed.headers.get('content-encoding')).toBe('gzip');
    expect(packed.headers.get('content-type')).toMatch(/^text\/javascript/);
    expect(packed.headers.get('vary')).toContain('Accept-Encoding');
    expect(await packed.text()).toBe('export const packed = 1;');
    const plain = await fetch(`${address}/assets/packed-AbCd_123.js`, { headers: { 'Accept-Encoding': 'identity' } });
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(await plain.text()).toBe('export const packed = 1;');
  });

  it('lets only hashed files be kept without asking', async () => {
    const cacheOf = async (path: string): Promise<string | null> => (await fetch(`${address}${path}`)).headers.get('cache-control');
    expect(await cacheOf('/assets/index-AbCd_123.js')).toContain('immutable');
    expect(await cacheOf('/service-worker.js')).toBe('no-cache');
    expect(await cacheOf('/')).toBe('no-cache');
  });

  it.each(['/assets/gone.js', '/plan/x', '/%2e%2e/%2e%2e/package.json', '/..%2fpackage.json', '/%00', '/%E0%A4%A'])(
    'answers %s with 404 in plain text',
    async (path) => {
      const response = await fetch(`${address}${path}`);
      expect(response.status).toBe(404);
      expect(response.headers.get('content-type')).toContain('text/plain');
    },
  );

  it('takes the next port when one is taken', async () => {
    const first = createServer();
    const second = createServer();
    const port = await listenFrom(first, 18_080);
    const next = await listenFrom(second, port);
    expect(next).toBeGreaterThan(port);
    first.close();
    second.close();
  });

  it('throws RangeError for no port', async () => {
    await expect(listenFrom(createServer(), Number.NaN)).rejects.toThrow('firstPort is NaN');
  });
});
