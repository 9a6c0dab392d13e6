import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { MeasuredSortie } from './measure-sortie.ts';

/** Flies the sorties of seeds 0, 1, 2 ... on all cores, one ship's clock set before the datum or not; in order of their seeds. */
export async function flySorties(count: number, clockSet = false): Promise<MeasuredSortie[]> {
  const processes = Math.min(availableParallelism(), count);
  const done: MeasuredSortie[] = [];
  await Promise.all(
    Array.from({ length: processes }, (_, index) => {
      const seeds = Array.from({ length: count }, (_value, seed) => seed).filter((seed) => seed % processes === index);
      return new Promise<void>((resolve, reject) => {
        const child = fork(fileURLToPath(new URL('sorties-process.ts', import.meta.url)), {
          execArgv: ['--import', 'tsx'],
          serialization: 'advanced',
        });
        child.on('message', (measured) => {
          if (measured !== 'done') done.push(measured as MeasuredSortie);
        });
        child.on('error', reject);
        child.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`sorties of process ${index}: exit ${code}`))));
        child.send({ seeds, clockSet });
      });
    }),
  );
  return done.sort((one, other) => one.seed - other.seed);
}
