import * as fastCheck from 'fast-check';

/**
 * What the random choices of a run begin from: the same for everybody, so that a test that fails does so because of a
 * change and can be repeated. `QUILLWIND_SEED=7 npx vitest run` tries others.
 */
export const SEED = Number(process.env['QUILLWIND_SEED'] ?? 20_261_129);

fastCheck.configureGlobal({ seed: SEED });

/** Properties by fast-check, begun from that seed. */
export { fastCheck as fc };
