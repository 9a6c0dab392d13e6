import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Application } from '../app/application.ts';
import { hashFromRoute, JOB_SCREENS, type Route } from '../app/route.ts';
import { ApplicationContext } from './application-context.ts';
import { WriteScreen } from './write/WriteScreen.tsx';
import { lazily, Nothing } from './lazily.tsx';

const JobsScreen = lazily(async () => (await import('./jobs/JobsScreen.tsx')).JobsScreen, 'Jobs');
const DrawScreen = lazily(async () => (await import('./draw/DrawScreen.tsx')).DrawScreen, 'Draw');
const BriefScreen = lazily(async () => (await import('./brief/BriefScreen.tsx')).BriefScreen, 'Brief');
const GroundScreen = lazily(async () => (await import('./ground/GroundScreen.tsx')).GroundScreen, 'Ground');
const DebriefScreen = lazily(async () => (await import('./debrief/DebriefScreen.tsx')).DebriefScreen, 'Debrief');

/** A flight has none: the head of the page keeps its room. */
const AppearanceSwitch = lazily(async () => (await import('./AppearanceSwitch.tsx')).AppearanceSwitch, Nothing);
const ReaderNotice = lazily(async () => (await import('./ReaderNotice.tsx')).ReaderNotice, Nothing);
const UpdateOffer = lazily(async () => (await import('./UpdateOffer.tsx')).UpdateOffer, Nothing);

const TITLES = { jobs: 'Jobs', draw: 'Draw', brief: 'Brief', write: 'Write', ground: 'Ground', debrief: 'Debrief' } as const;

function Screen({ route }: { readonly route: Route }): VNode {
  switch (route.screen) {
    case 'jobs':
      return <JobsScreen />;
    case 'draw':
      return <DrawScreen key={route.jobId} jobId={route.jobId} />;
    case 'brief':
      return <BriefScreen key={route.jobId} jobId={route.jobId} />;
    case 'write':
      return <WriteScreen key={route.jobId} jobId={route.jobId} />;
    case 'ground':
      return <GroundScreen key={route.jobId} jobId={route.jobId} />;
    case 'debrief':
      return <DebriefScreen key={route.jobId} jobId={route.jobId} />;
  }
}

function Navigation({ route }: { readonly route: Route }): VNode {
  const link = (target: Route): VNode => (
    <a href={hashFromRoute(target)} aria-current={target.screen === route.screen ? 'page' : undefined}>
      {TITLES[target.screen]}
    </a>
  );
  return (
    <nav class="screens" aria-label="Screens">
      {link({ screen: 'jobs' })}
      {route.screen !== 'jobs' && JOB_SCREENS.map((screen) => link({ screen, jobId: route.jobId }))}
    </nav>
  );
}

/** The whole page: navigation above, one screen below. */
export function App({ application }: { readonly application: Application }): VNode {
  const route = application.route.value;
  const main = useRef<HTMLElement>(null);
  const shown = useRef(hashFromRoute(route));
  const jobName = route.screen === 'jobs' ? null : (application.jobs.find(route.jobId)?.name ?? null);
  // As the page itself says it, which is how a newer version is told from this one.
  const ownName = useMemo(() => document.title, []);
  useEffect(() => {
    document.title = `${TITLES[route.screen]}${jobName === null ? '' : `: ${jobName}`} \u2013 ${ownName}`;
    // Whoever reads by ear is led to the screen that was asked for; the first one is read from its beginning anyway.
    if (shown.current !== hashFromRoute(route)) main.current?.focus({ preventScroll: true });
    shown.current = hashFromRoute(route);
  }, [route.screen, jobName, hashFromRoute(route)]);
  return (
    <ApplicationContext.Provider value={application}>
      <header class="page-head">
        <Navigation route={route} />
        <AppearanceSwitch />
      </header>
      <main ref={main} tabIndex={-1} class={`screen screen-${route.screen}`}>
        <ReaderNotice />
        {route.screen !== 'write' && <UpdateOffer />}
        <Screen route={route} />
      </main>
    </ApplicationContext.Provider>
  );
}
