import { measureSortie, type SortieKind } from './measure-sortie.ts';

/** Flies the seeds it is given, one after another, and tells what came of each. */
process.once('message', ({ seeds, kind }: { readonly seeds: readonly number[]; readonly kind: SortieKind }) => {
  for (const seed of seeds) process.send?.(measureSortie(seed, kind));
  // Only when the last of them is under way may the line be closed.
  process.send?.('done', () => process.disconnect());
});
