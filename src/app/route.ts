/** The screens that show one job, in the order of the work. */
export const JOB_SCREENS = ['draw', 'brief', 'write', 'ground', 'debrief'] as const;

export type JobScreen = (typeof JOB_SCREENS)[number];

/** What the page shows. */
export type Route = { readonly screen: 'jobs' } | { readonly screen: JobScreen; readonly jobId: string };

/** What the screens were called in addresses that people may have kept. */
const OLD_NAMES: ReadonlyMap<string, JobScreen> = new Map([
  ['plan', 'draw'],
  ['fly', 'write'],
]);

const JOB_ID = /^[A-Za-z0-9_-]{1,32}$/;

function isJobScreen(name: string): name is JobScreen {
  return JOB_SCREENS.some((screen) => screen === name);
}

/** The route in an address's fragment, `#/draw/ID`; the Jobs screen for anything else. Inverse: {@link hashFromRoute}. */
export function routeFromHash(hash: string): Route {
  const [, name = '', jobId = ''] = hash.replace(/^#/, '').split('/');
  const screen = OLD_NAMES.get(name) ?? name;
  return isJobScreen(screen) && JOB_ID.test(jobId) ? { screen, jobId } : { screen: 'jobs' };
}

/** The address's fragment of a route: `#/jobs`, `#/write/lake-ondine`. */
export function hashFromRoute(route: Route): string {
  return route.screen === 'jobs' ? '#/jobs' : `#/${route.screen}/${route.jobId}`;
}
