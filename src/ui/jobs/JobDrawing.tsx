import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { jobText } from '../../core/job/job-text.ts';
import type { Job } from '../../core/job/job.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { LetterPicture } from '../drawing/LetterPicture.tsx';
import { PlainWord } from './PlainWord.tsx';
import { writtenStrokes } from './written-strokes.ts';
import '../drawing/pictures.css';

const HEIGHT_PIXELS = 190;
const LARGE_HEIGHT_PIXELS = 300;

/** A job's text drawn as the crowd will read it; in plain type when it cannot be drawn. */
export function JobDrawing({ job, large }: { readonly job: Job; readonly large: boolean }): VNode {
  const strokes = useMemo(() => writtenStrokes(job), [job]);
  if (strokes.length === 0) return <PlainWord job={job} />;
  return (
    <LetterPicture
      strokes={strokes}
      letterHeightMetres={jobText(job).letterHeightMetres}
      facingRadians={null}
      shares={null}
      maximumHeightPixels={large ? LARGE_HEIGHT_PIXELS : HEIGHT_PIXELS}
      description={writtenWords(job)}
    />
  );
}
