import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Artwork } from '../../../core/artwork/artwork.ts';
import { jobDrawing } from '../../../core/artwork/job-drawing.ts';
import { DRAWING_LENGTHS } from '../../../core/job/drawing-lengths.ts';
import type { JobDrawing } from '../../../core/job/job.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { RemoveButton } from '../../fields/RemoveButton.tsx';
import { useDesk } from '../desk-context.ts';
import { useUnitText } from '../../fields/units-context.ts';

/** Where a drawing stands to the words. */
export const PLACES: readonly { readonly value: JobDrawing['place']; readonly label: string }[] = [
  { value: 'before', label: 'Before' },
  { value: 'after', label: 'After' },
  { value: 'above', label: 'Above' },
  { value: 'below', label: 'Below' },
];

/** The drawings of the job: where each stands, and the way to take one out. */
export function JobDrawings(): VNode | null {
  const { editor } = useDesk();
  const units = useUnitText();
  const { drawings } = editor.job.value;
  if (drawings.length === 0) return null;
  const edit = (name: string, change: (before: readonly JobDrawing[]) => readonly JobDrawing[]): void =>
    editor.edit(name, (job) => ({ ...job, drawings: change(job.drawings) }));
  return (
    <ul class="job-drawings">
      {drawings.map((drawing, index) => (
        <li key={index} data-drawing={drawing.name}>
          <p>
            <strong>{drawing.name}</strong>, {units.height.own(drawing.depthFeet)} deep, {drawing.strokes.length}{' '}
            {drawing.strokes.length === 1 ? 'stroke' : 'strokes'}
          </p>
          <ChoiceField
            label="Stands"
            value={drawing.place}
            choices={PLACES}
            onChange={(place) => edit('where a drawing stands', (before) => before.map((each, at) => (at === index ? { ...each, place } : each)))}
          />
          <RemoveButton label={`Take out ${drawing.name}`} onPress={() => edit('a drawing', (before) => before.filter((_, at) => at !== index))} />
        </li>
      ))}
    </ul>
  );
}

export interface TakeDrawingProps {
  readonly artwork: Artwork;
  readonly fileName: string;
  readonly place: JobDrawing['place'];
}

/** Puts a drawing that was read into the job, or says why not. */
export function TakeDrawing({ artwork, fileName, place }: TakeDrawingProps): VNode {
  const { editor } = useDesk();
  const fault = useSignal<string | null>(null);
  const full = editor.job.value.drawings.length >= DRAWING_LENGTHS.drawings;
  const take = (): void => {
    const drawing = jobDrawing(artwork, fileName.replace(/\.svg$/i, ''), place);
    fault.value = 'reason' in drawing ? drawing.reason : null;
    if (!('reason' in drawing)) editor.edit('a drawing', (job) => ({ ...job, drawings: [...job.drawings, drawing] }));
  };
  return (
    <>
      <button type="button" class="main" disabled={full} onClick={take}>
        Put it into the job
      </button>
      {full && <p class="small">A job holds {DRAWING_LENGTHS.drawings} drawings; take one out first.</p>}
      {fault.value !== null && (
        <p class="fault" role="alert">
          {fault.value}
        </p>
      )}
    </>
  );
}
