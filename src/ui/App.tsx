import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Application } from '../app/application.ts';
import { hashFromRoute, type Route } from '../app/route.ts';
import { ApplicationContext } from './application-context.ts';
import { WriteScreen } from './write/WriteScreen.tsx';
import { lazily, Nothing } from './lazily.tsx';
import { SCREEN_TITLES } from './screen-titles.ts';

const JobsScreen = lazily(async () => (await import('./jobs/JobsScreen.tsx')).JobsScreen, 'Jobs');
const DrawScreen = lazily(async () => (await import('./draw/DrawScreen.tsx')).DrawScreen, 'Draw');
const BriefScreen = lazily(async () => (await import('./brief/BriefScreen.tsx')).BriefScreen, 'Brief');
const GroundScreen = lazily(async () => (await import('./ground/GroundScreen.tsx')).GroundScreen, 'Ground');
const DebriefScreen = lazily(async () => (await import('./debrief/DebriefScreen.tsx')).DebriefScreen, 'Debrief');

const PageHead = lazily(async () => (await import('./PageHead.tsx')).PageHead, EmptyHead);
const ReaderNotice = lazily(async () => (await import('./ReaderNotice.tsx')).ReaderNotice, Nothing);
const UpdateOffer = lazily(async () => (await import('./UpdateOffer.tsx')).UpdateOffer, Nothing);

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

/** Its place; a flight has none, so its code comes after the first cue. */
function EmptyHead(): VNode {
  return <header class="page-head" />;
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
    document.title = `${SCREEN_TITLES[route.screen]}${jobName === null ? '' : `: ${jobName}`} \u2013 ${ownName}`;
    // Whoever reads by ear is led to the screen that was asked for; the first one is read from its beginning anyway.
    if (shown.current !== hashFromRoute(route)) main.current?.focus({ preventScroll: true });
    shown.current = hashFromRoute(route);
  }, [route.screen, jobName, hashFromRoute(route)]);
  return (
    <ApplicationContext.Provider value={application}>
      <PageHead route={route} />
      <main ref={main} tabIndex={-1} class={`screen screen-${route.screen}`}>
        <ReaderNotice />
        {route.screen !== 'write' && <UpdateOffer />}
        <Screen route={route} />
      </main>
    </ApplicationContext.Provider>
  );
}
