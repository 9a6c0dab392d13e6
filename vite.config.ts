import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { configDefaults, defineConfig } from 'vitest/config';
import { LAUNCH_PICTURES } from './.ci/launch-pictures.ts';
import { licences } from './.ci/licences.ts';
import { CONTENT_SECURITY_POLICY } from './src/hub/content-security-policy.ts';

const fromRoot = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Writes the policy into the built page, for hosts that send no headers; the development server needs its own inline style. */
function contentSecurityPolicy(): Plugin {
  return {
    name: 'content-security-policy',
    apply: 'build',
    transformIndexHtml: () => [{ tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_SECURITY_POLICY }, injectTo: 'head-prepend' }],
  };
}

/** What iOS shows while the app starts: it fetches the one that fits its screen when the app is put on the home screen, and keeps it itself. */
function launchPictures(): Plugin {
  return {
    name: 'launch-pictures',
    apply: 'build',
    transformIndexHtml: () =>
      LAUNCH_PICTURES.map(({ path, media }) => ({
        tag: 'link',
        attrs: { rel: 'apple-touch-startup-image', href: `/${path}`, media },
        injectTo: 'head' as const,
      })),
  };
}

/** Scripts and styles also packed, for a host that sends them so; they are no part of what a device stores. */
function packed(): Plugin {
  return {
    name: 'packed',
    apply: 'build',
    writeBundle(_options, bundle) {
      for (const name of Object.keys(bundle).filter((each) => /^assets\/.*\.(?:js|css)$/.test(each))) {
        const path = join(outDirectory, name);
        writeFileSync(`${path}.gz`, gzipSync(readFileSync(path), { level: 9 }));
      }
    },
  };
}

/** What the service worker is made of. */
const shipped = licences(fromRoot('.'), ['workbox-precaching', 'workbox-routing']);

const { version } = JSON.parse(readFileSync(fromRoot('package.json'), 'utf8')) as { readonly version: string };

/** An empty name would be the folder of the sources, which a build empties. */
const outDirectory = process.env['QUILLWIND_DIST'] || fromRoot('dist');

/** Of a built file, as browsers check it: `sha256-` and the digest in base64. */
const integrityOf = (name: string): string =>
  `sha256-${createHash('sha256')
    .update(readFileSync(join(outDirectory, name)))
    .digest('base64')}`;

/** Unit tests that wait for real brokers, timers and disks, fly for long or read many pictures: `npm run quick` leaves them out. */
const WAITING = [
  'link/{link-room,link-session,cluster,broker-differences}.test.ts',
  'hub/{link-broker,attack,add-user}.test.ts',
  'store/{flight-log,one-writer,database}.test.ts',
  'faults/{positions,storage}.test.ts',
  'photograph/photograph.test.ts',
  'core/guidance/{clock,late-start}.test.ts',
  'core/sky/reading-window-read.test.ts',
  'core/letters/legibility.test.ts',
  'core/plan/formation.test.ts',
  'core/order/free-order.test.ts',
  'flight/*.test.ts',
];

const QUICK = process.env['QUILLWIND_QUICK'] !== undefined;

/** What every opening fetches soon after the first script, whatever screen it shows, and with it what each of them needs. */
const OPENING = [
  'app/after-start.ts',
  'app/follow-service-worker.ts',
  'app/jobs/open-shelf.ts',
  'app/jobs/unsaved-edits.ts',
  'app/link/link-desk.ts',
  'core/job/demo-job.ts',
  'ui/PageHead.tsx',
  'ui/ReaderNotice.tsx',
  'ui/UpdateOffer.tsx',
].map((path) => fromRoot(`src/${path}`));

/** Rooms whose brokers and clocks are real, or whose slowest case is timed: one file after another, when the others are done. */
const ALONE = ['link', 'hub', 'fuzz', 'faults'].map((room) => `${room}/**/*.test.{ts,tsx}`);

export default defineConfig({
  root: fromRoot('src'),
  publicDir: fromRoot('public'),
  cacheDir: fromRoot('node_modules/.cache/vite'),
  build: {
    outDir: outDirectory,
    emptyOutDir: true,
    target: 'es2023',
    // A drawing inlined as data: is not in the precache manifest under its own name.
    assetsInlineLimit: 0,
    // Sheets of their own kept each late part waiting for a second file, and their names were a part of the first script.
    cssCodeSplit: false,
    // The names of what each late part needs, told beforehand, would be a thirtieth of what a flight loads before its cue; the two files
    // that nearly all need are fetched beside them.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, files, { hostType }) => (hostType === 'html' ? files : files.filter((name) => /\b(?:opening|shared)-/.test(name))),
    },
    rolldownOptions: {
      output: {
        // A screen was up to thirty files one behind the other: what every opening needs is one, what four and more of the late parts
        // share another, both beside the first script.
        codeSplitting: {
          groups: [
            { name: 'first', tags: ['$initial'], priority: 1 },
            { name: 'opening', test: (id) => OPENING.includes(id), priority: 1 },
            { name: 'shared', test: /\/src\/.*\.tsx?$/, minShareCount: 4, maxModuleSize: 12_000 },
          ],
        },
      },
    },
    reportCompressedSize: false,
  },
  define: { 'import.meta.env.VITE_QUILLWIND_VERSION': JSON.stringify(version) },
  worker: { format: 'es', plugins: () => [shipped.worker()] },
  plugins: [
    contentSecurityPolicy(),
    launchPictures(),
    shipped.page,
    packed(),
    VitePWA({
      strategies: 'injectManifest',
      registerType: 'prompt',
      injectRegister: false,
      // public/manifest.webmanifest is written by hand.
      manifest: false,
      srcDir: 'sw',
      filename: 'service-worker.ts',
      injectManifest: {
        globPatterns: ['**/*'],
        globIgnores: ['service-worker.js', '**/*.gz', 'launch/**'],
        // What exceeds this is left out without a word; tests/build asks for every file by name.
        maximumFileSizeToCacheInBytes: 20_000_000,
        // What is stored is held against this, at the install and again before a flight.
        manifestTransforms: [(entries) => ({ manifest: entries.map((entry) => ({ ...entry, integrity: integrityOf(entry.url) })), warnings: [] })],
        rollupFormat: 'iife',
        minify: true,
        buildPlugins: { vite: [shipped.serviceWorker] },
      },
    }),
  ],
  test: {
    root: fromRoot('.'),
    dir: fromRoot('tests'),
    environment: 'node',
    // Loading a file's imports takes as long as its tests: quick loads them once for all.
    ...(QUICK
      ? {
          include: ['**/*.test.{ts,tsx}'],
          exclude: [...configDefaults.exclude, ...WAITING.map((path) => `**/${path}`)],
          pool: 'threads' as const,
          isolate: false,
          maxWorkers: '100%',
        }
      : {
          projects: [
            {
              extends: true as const,
              test: {
                name: 'together',
                include: ['**/*.test.{ts,tsx}'],
                exclude: [...configDefaults.exclude, ...ALONE],
                maxWorkers: '100%',
              },
            },
            // Real brokers and clocks on a machine that may stand still: once more, as the browser's tests are.
            { extends: true as const, test: { name: 'alone', include: ALONE, maxWorkers: 1, retry: 1, sequence: { groupOrder: 1 } } },
          ],
        }),
    testTimeout: 120_000,
    coverage: { reportsDirectory: fromRoot('coverage'), include: ['src/**/*.{ts,tsx}'] },
  },
});
