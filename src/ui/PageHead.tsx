import type { VNode } from 'preact';
import { hashFromRoute, JOB_SCREENS, type Route } from '../app/route.ts';
import { AppearanceSwitch } from './AppearanceSwitch.tsx';
import { SCREEN_TITLES } from './screen-titles.ts';

/** The way to the other screens of the job, and day or night; in flight there is none. */
export function PageHead({ route }: { readonly route: Route }): VNode {
  const link = (target: Route): VNode => (
    <a href={hashFromRoute(target)} aria-current={target.screen === route.screen ? 'page' : undefined}>
      {SCREEN_TITLES[target.screen]}
    </a>
  );
  return (
    <header class="page-head">
      <nav class="screens" aria-label="Screens">
        {link({ screen: 'jobs' })}
        {route.screen !== 'jobs' && JOB_SCREENS.map((screen) => link({ screen, jobId: route.jobId }))}
      </nav>
      <AppearanceSwitch />
    </header>
  );
}
