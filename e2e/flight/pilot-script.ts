import { fileURLToPath } from 'node:url';
import { build, type Rollup } from 'vite';

/** A script of this folder, with what it imports, for `page.addInitScript`. */
export async function pageScript(name: 'pilot-in-page' | 'fast-clock'): Promise<string> {
  const built = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: fileURLToPath(new URL(`./${name}.ts`, import.meta.url)), formats: ['iife'], name: 'pageScript' },
    },
  })) as Rollup.RollupOutput[];
  const [chunk] = built[0]!.output;
  return chunk.code;
}
