import { fileURLToPath } from 'node:url';
import { build, type Rollup } from 'vite';

/** The simulated pilot as one script for `page.addInitScript`. */
export async function pilotScript(): Promise<string> {
  const built = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: fileURLToPath(new URL('./pilot-in-page.ts', import.meta.url)), formats: ['iife'], name: 'pilotInPage' },
    },
  })) as Rollup.RollupOutput[];
  const [chunk] = built[0]!.output;
  return chunk.code;
}
