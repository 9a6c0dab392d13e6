/** The screens that show one job, in the order of the work. */
export const JOB_SCREENS = ['plan', 'brief', 'fly', 'ground', 'debrief'] as const;

export type JobScreen = (typeof JOB_SCREENS)[number];

/** What the page shows. */
export type Route = { readonly screen: 'jobs' } | { readonly screen: JobScreen; readonly jobId: string };

const JOB_ID = /^[A-Za-z0-9_-]{1,32}$/;

function isJobScreen(name: string): name is JobScreen {
  return JOB_SCREENS.some((screen) => screen === name);
}

/** The route in an address's fragment, `#/plan/ID`; the Jobs screen for anything else. Inverse: {@link hashFromRoute}. */
export function routeFromHash(hash: string): Route {
  const [, screen = '', jobId = ''] = hash.replace(/^#/, '').split('/');
  return isJobScreen(screen) && JOB_ID.test(jobId) ? { screen, jobId } : { screen: 'jobs' };
}

/** The address's fragment of a route: `#/jobs`, `#/fly/lake-ondine`. */
export function hashFromRoute(route: Route): string {
  return route.screen === 'jobs' ? '#/jobs' : `#/${route.screen}/${route.jobId}`;
}
