import type { VNode } from 'preact';
import type { FirstTour } from '../../app/first-tour.ts';
import { hashFromRoute, type JobScreen } from '../../app/route.ts';
import { useApplication } from '../application-context.ts';

interface Step {
  readonly title: string;
  readonly words: string;
  readonly screen: JobScreen;
}

const STEPS: readonly Step[] = [
  { title: 'Draw', words: 'the words, the day, the winds and the ships: what will stand in the sky, and for how long', screen: 'draw' },
  { title: 'Brief', words: 'cards for the pilots, a notice for the controller, a sheet for the client', screen: 'brief' },
  { title: 'Write', words: 'rehearse at the desk first; in the air the cues advise, and local rules and licensed practice decide', screen: 'write' },
  { title: 'Ground', words: 'where to look, how it reads, and what to call', screen: 'ground' },
  { title: 'Debrief', words: 'the flight again, its score, and the proof for the client', screen: 'debrief' },
];

/**
 * How a job goes, at a first visit: one card above the jobs that waits for nothing and is closed with one touch. It stands on
 * Jobs alone, so that no flight ever meets it.
 */
export function Tour({ tour }: { readonly tour: FirstTour }): VNode | null {
  const { flights, jobs } = useApplication();
  if (flights.inProgress.value || !tour.shown.value) return null;
  const job = jobs.state.value.kind === 'ready' ? jobs.state.value.jobs[0] : undefined;
  return (
    <aside class="tour" aria-labelledby="tour-title" onKeyDown={(event) => event.key === 'Escape' && tour.leave()}>
      <h2 id="tour-title">How a job goes</h2>
      <ol>
        {STEPS.map(({ title, words, screen }) => (
          <li key={screen}>
            {job === undefined ? <strong>{title}</strong> : <a href={hashFromRoute({ screen, jobId: job.id })}>{title}</a>} {words}
          </li>
        ))}
      </ol>
      <div class="row">
        <button type="button" onClick={() => tour.leave()}>
          Close
        </button>
      </div>
    </aside>
  );
}

/** Shows it again. */
export function TourAgain({ tour }: { readonly tour: FirstTour }): VNode | null {
  if (tour.shown.value) return null;
  return (
    <button type="button" class="plain" onClick={() => tour.show()}>
      How a job goes
    </button>
  );
}
