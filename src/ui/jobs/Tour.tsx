import type { VNode } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { createFirstTour } from '../../app/first-tour.ts';
import { hashFromRoute, type JobScreen } from '../../app/route.ts';
import { useApplication } from '../application-context.ts';

interface Step {
  readonly title: string;
  readonly words: string;
  readonly screen: JobScreen | null;
}

const STEPS: readonly Step[] = [
  {
    title: 'One card, one booking',
    words: 'Each job is a word to be read somewhere at some hour. The lakeside regatta is a demo: change it as you like, or delete it.',
    screen: null,
  },
  {
    title: 'Draw',
    words:
      'Type the text, the winds and the ships, and see the strokes as the crowd reads them and as the pilot flies them, where they hang and how long they last.',
    screen: 'draw',
  },
  { title: 'Brief', words: 'A kneeboard card for each ship, a notice for the controller and a sheet for the client, to print.', screen: 'brief' },
  {
    title: 'Write',
    words:
      'Begin with a rehearsal at the desk: no aircraft, and up to 20 times the clock. In the air the cues advise. Eyes outside first; local rules and licensed practice decide.',
    screen: 'write',
  },
  {
    title: 'Ground and Debrief',
    words: 'Someone below says how it reads; afterwards the flight is replayed, scored and shown to the client.',
    screen: 'debrief',
  },
];

/**
 * What the screens are for, at a first visit: a card among the others that waits for nothing and is left with one touch.
 * It stands on Jobs alone, so that no flight ever meets it.
 */
export function Tour(): VNode | null {
  const { database, flights, jobs } = useApplication();
  const tour = useMemo(() => createFirstTour(database), [database]);
  const [at, setAt] = useState(0);
  const step = STEPS[at];
  if (flights.inProgress.value) return null;
  if (!tour.shown.value || step === undefined) {
    return (
      <p class="small">
        <button
          type="button"
          onClick={() => {
            setAt(0);
            tour.show();
          }}
        >
          Show me round
        </button>
      </p>
    );
  }
  const job = jobs.state.value.kind === 'ready' ? jobs.state.value.jobs[0] : undefined;
  const isLast = at === STEPS.length - 1;
  return (
    <aside class="tour" aria-labelledby="tour-title" onKeyDown={(event) => event.key === 'Escape' && tour.leave()}>
      <p class="quiet small">
        {at + 1} of {STEPS.length}
      </p>
      <h2 id="tour-title">{step.title}</h2>
      <p>{step.words}</p>
      <div class="row">
        {!isLast && (
          <button type="button" onClick={() => setAt(at + 1)}>
            Next
          </button>
        )}
        {step.screen !== null && job !== undefined && (
          <a class="tour-look" href={hashFromRoute({ screen: step.screen, jobId: job.id })}>
            Look at it
          </a>
        )}
        <button type="button" onClick={() => tour.leave()}>
          {isLast ? 'Done' : 'Leave the tour'}
        </button>
      </div>
    </aside>
  );
}
