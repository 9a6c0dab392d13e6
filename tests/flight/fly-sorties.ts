import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { MeasuredSortie, SortieKind } from './measure-sortie.ts';

/** Flies the sorties of so many seeds from one on, on all cores; in order of their seeds. */
export async function flySorties(count: number, kind: SortieKind, firstSeed = 0): Promise<MeasuredSortie[]> {
  const processes = Math.min(availableParallelism(), count);
  const done: MeasuredSortie[] = [];
  await Promise.all(
    Array.from({ length: processes }, (_, index) => {
      const seeds = Array.from({ length: count }, (_value, at) => firstSeed + at).filter((seed) => seed % processes === index);
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
        child.send({ seeds, kind });
      });
    }),
  );
  return done.sort((one, other) => one.seed - other.seed);
}
