import type { Job } from '../job/job.ts';
import type { Plan } from './plan.ts';

/** The ships of a job that the plan leaves nothing to write, by name: one stroke has no place for two. */
export function idleShips({ ships }: Pick<Job, 'ships'>, plan: Pick<Plan, 'ships'>): string[] {
  const busy = new Set(plan.ships.flatMap(({ shipIndex, legs }) => (legs.some(({ kind }) => kind === 'smoke') ? [shipIndex] : [])));
  return ships.flatMap(({ name }, index) => (busy.has(index) ? [] : [name]));
}

/** The same in a sentence, what follows from it beside; empty when every ship writes. */
export function idleShipsWords(job: Pick<Job, 'ships'>, plan: Pick<Plan, 'ships'>): string {
  const idle = idleShips(job, plan);
  if (idle.length === 0) return '';
  const names = new Intl.ListFormat('en', { type: 'conjunction' }).format(idle);
  return `${names} ${idle.length === 1 ? 'has' : 'have'} nothing to write in this plan, and can be left out.`;
}
