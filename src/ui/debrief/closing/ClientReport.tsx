import { DemoMark } from '../../drawing/DemoMark.tsx';
import { clockText } from '../../words/clock.ts';
import type { VNode } from 'preact';
import type { ObservedMoment } from '../../../app/debrief/observed.ts';
import type { Job } from '../../../core/job/job.ts';
import type { ReadingWindow } from '../../../core/sky/reading-window.ts';
import type { Trail } from '../../../core/sky/trail.ts';
import { formatDuration } from '../../../core/text/number-formats.ts';
import { writtenWords } from '../../../core/job/written-words.ts';
import { lettersWords, type LettersWritten } from '../letters-written.ts';
import { CrowdView } from '../CrowdView.tsx';
import type { FlownScene } from '../flown-scene.ts';
import { type PhotographProof, ReportPhotograph } from './ReportPhotograph.tsx';
import { observedWords } from '../observed-words.ts';
import { minutesRange } from '../../words/reads-text.ts';
import { useUnitText } from '../../fields/units-context.ts';

export interface ClientReportProps {
  readonly scene: FlownScene;
  readonly trails: readonly Trail[];
  readonly job: Job;
  readonly written: LettersWritten;
  readonly window: ReadingWindow | null;
  readonly observed: readonly ObservedMoment[];
  /** REHEARSAL or REPLAY, written across the page; empty for a real flight. */
  readonly across: string;
  /** A photograph the word was laid over; null without one. */
  readonly proof: PhotographProof | null;
}

/** One page for the client, on paper only: the word as it hung over the site, when, and what the ground said of it. */
export function ClientReport({ scene, trails, job, written, window, observed, across, proof }: ClientReportProps): VNode | null {
  const units = useUnitText();
  const { firstSmokeMilliseconds, lastSmokeMilliseconds } = scene;
  if (firstSmokeMilliseconds === null || lastSmokeMilliseconds === null) return null;
  const { timeZone } = job.site;
  const rated = observed.filter(({ entry }) => entry.kind === 'rated' || entry.kind === 'noted');
  return (
    <article class="client-report paper-sheet">
      {across !== '' && <p class="paper-across">{across}</p>}
      <h1>{writtenWords(job)}</h1>
      <DemoMark job={job} />
      <p>
        Written in the sky over {job.site.name === '' ? 'the site (name not entered)' : job.site.name},{' '}
        {clockText(firstSmokeMilliseconds, timeZone, { day: 'date' })}
      </p>
      <CrowdView scene={scene} trails={trails} job={job} heldMilliseconds={lastSmokeMilliseconds + 20_000} />
      <p class="small">
        Drawn from the recorded flight and the spreading of smoke, as seen from {job.viewingPlaces.length > 0 ? 'the middle of the crowd' : 'the site'} when the
        last stroke was done. It is not a photograph.
      </p>
      {proof !== null && <ReportPhotograph proof={proof} timeZone={timeZone} />}
      <table class="figures">
        <tbody>
          <tr>
            <th scope="row">First smoke</th>
            <td>{clockText(firstSmokeMilliseconds, timeZone, { seconds: true })}</td>
          </tr>
          <tr>
            <th scope="row">Last smoke</th>
            <td>{clockText(lastSmokeMilliseconds, timeZone, { seconds: true })}</td>
          </tr>
          <tr>
            <th scope="row">Time to write</th>
            <td>{formatDuration((lastSmokeMilliseconds - firstSmokeMilliseconds) / 1000)}</td>
          </tr>
          <tr>
            <th scope="row">Letters</th>
            <td>
              {units.height.own(job.letters.heightFeet)} high, at {units.height.own(job.layer.altitudeFeet)}
            </td>
          </tr>
          <tr>
            <th scope="row">Ships</th>
            <td>{scene.ships.map(({ name }) => name).join(', ')}</td>
          </tr>
          {written.whole.size < written.planned && (
            <tr>
              <th scope="row">Written whole</th>
              <td>
                {lettersWords(written.whole.size, written.planned)}
                {written.here < written.planned && ', the ships of the others are not on this sheet'}
              </td>
            </tr>
          )}
          {window !== null && window.until.highSeconds > window.fromSeconds && (
            <tr>
              <th scope="row">Readable, by computation</th>
              <td>until {minutesRange(window.until.lowSeconds, window.until.highSeconds)} minutes after the first smoke</td>
            </tr>
          )}
        </tbody>
      </table>
      {rated.length > 0 && (
        <>
          <h2>Said on the ground</h2>
          <ul>
            {rated.map((moment, index) => (
              <li key={index}>
                {clockText(moment.atMilliseconds, timeZone, { seconds: true })} {observedWords(moment)}
              </li>
            ))}
          </ul>
        </>
      )}
    </article>
  );
}
