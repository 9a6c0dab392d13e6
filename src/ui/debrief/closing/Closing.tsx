import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { jobText } from '../../../core/job/job-text.ts';
import { wordPng } from '../../../app/debrief/word-png.ts';
import { fileNameFrom, handOverFile } from '../../../app/hand-over-file.ts';
import type { Job } from '../../../core/job/job.ts';
import type { Trail } from '../../../core/sky/trail.ts';
import { type WordPictureStyle, wordPicture } from '../../../core/tracks/word-svg.ts';
import { useApplication } from '../../application-context.ts';
import { utcText } from '../../words/zoned-time.ts';

export interface ClosingProps {
  /** As stored: what is marked here is saved with it. Null when it is stored no more. */
  readonly job: Job | null;
  readonly trails: readonly Trail[];
  /** REHEARSAL, REPLAY, or empty for a real flight. */
  readonly across: string;
  readonly onPrintAccount: () => void;
}

/** Smoke is drawn as wide as fresh smoke stands against its letter: a twelfth of its height. */
const STROKE_SHARE = 1 / 12;

/** The end of a job: the account, what was sent and paid, the word as a picture. */
export function Closing({ job, trails, across, onPrintAccount }: ClosingProps): VNode {
  const { jobs } = useApplication();
  const fault = useSignal('');
  if (job === null) return <p class="quiet">The job of this flight is no longer stored.</p>;
  const { booking } = job;
  const mark = (part: Partial<Job['booking']>): void => {
    jobs.save({ ...job, booking: { ...booking, ...part } }).catch((error: unknown) => {
      fault.value = `Not stored: ${error instanceof Error ? error.message : String(error)}.`;
    });
  };
  const { facingRadians, letterHeightMetres } = jobText(job);
  const style: WordPictureStyle = {
    title: job.text,
    facingRadians,
    strokeMetres: letterHeightMetres * STROKE_SHARE,
    sky: '#2f66a8',
    smoke: '#ffffff',
    across: job.demo ? 'DEMO' : across,
  };
  const picture = trails.length === 0 ? null : wordPicture(trails, style);
  const name = across === '' ? job.name : `${job.name} ${across}`;
  const give = async (kind: 'png' | 'svg'): Promise<void> => {
    if (picture === null) return;
    fault.value = '';
    try {
      const content = kind === 'svg' ? picture.svg : await wordPng(picture, style);
      await handOverFile({ name: fileNameFrom(name, kind), type: kind === 'svg' ? 'image/svg+xml' : 'image/png', content });
    } catch (error) {
      fault.value = `The picture could not be made: ${error instanceof Error ? error.message : String(error)}.`;
    }
  };
  const check = (field: 'sentTime' | 'paidTime', word: string): VNode => (
    <label class="check-line">
      <input
        type="checkbox"
        checked={booking[field] !== null}
        onChange={(event) => mark({ [field]: event.currentTarget.checked ? utcText(Date.now()) : null })}
      />{' '}
      {word}
      {booking[field] === null ? '' : ` ${booking[field].slice(0, 10)}`}
    </label>
  );
  return (
    <div class="closing">
      <div class="row">
        {check('sentTime', 'Account sent')}
        {check('paidTime', 'Paid')}
      </div>
      <div class="row">
        <button type="button" onClick={onPrintAccount}>
          Print the account
        </button>
        <button type="button" disabled={picture === null} onClick={() => void give('png')}>
          Word as PNG
        </button>
        <button type="button" disabled={picture === null} onClick={() => void give('svg')}>
          Word as SVG
        </button>
      </div>
      {fault.value !== '' && (
        <p class="small" role="alert">
          {fault.value}
        </p>
      )}
    </div>
  );
}
