import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { readDrawing } from '../../../app/artwork.ts';
import type { Artwork } from '../../../core/artwork/artwork.ts';
import type { JobDrawing } from '../../../core/job/job.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { metresFromFeet } from '../../../core/units/quantity.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { ArtworkView } from '../pictures/ArtworkView.tsx';
import { useDesk } from '../desk-context.ts';
import { JobDrawings, PLACES, TakeDrawing } from './JobDrawings.tsx';

/** A drawing the person chose, as far as it was read. */
interface ReadDrawing {
  readonly fileName: string;
  readonly svgText: string;
  readonly artwork: Artwork | null;
  readonly passedOver: readonly string[];
  readonly middleLines: number;
  /** Undefined while its order is being looked for; null when nothing of it can be flown. */
  readonly plan: Plan | null | undefined;
  readonly fault: string | null;
}

const MOST_BYTES = 8_000_000;
/** Long enough to step the size several times before it is read anew. */
const REST_MILLISECONDS = 250;

/** Drawings of the job, and one from an SVG file to be put beside its words: what of it can be flown, and why the rest cannot. */
export function ArtworkEntry(): VNode {
  const { editor, planned } = useDesk();
  const job = editor.job.value;
  const depthFeet = useSignal(job.letters.heightFeet);
  const drawing = useSignal<ReadDrawing | null>(null);
  const changed = useSignal(true);
  const middles = useSignal(true);
  const place = useSignal<JobDrawing['place']>('after');
  const { value } = drawing;
  const [lead] = job.ships;
  useEffect(() => {
    if (drawing.peek() === null) return undefined;
    let end = (): void => {};
    const timer = setTimeout(() => {
      const chosen = drawing.peek();
      if (chosen === null) return;
      end = readDrawing(job, chosen.svgText, { depthMetres: metresFromFeet(depthFeet.value), changed: changed.value, middles: middles.value }, (answer) => {
        const before = drawing.peek();
        if (before === null) return;
        if (answer.kind === 'refused') drawing.value = { ...before, artwork: null, plan: null, fault: answer.reason };
        else if (answer.kind === 'read')
          drawing.value = { ...before, artwork: answer.artwork, passedOver: answer.passedOver, middleLines: answer.middleLines, plan: undefined, fault: null };
        else drawing.value = { ...before, plan: answer.plan };
      });
    }, REST_MILLISECONDS);
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [
    value?.svgText,
    depthFeet.value,
    changed.value,
    middles.value,
    lead?.trueAirspeedKnots,
    lead?.writingBankDegrees,
    lead?.turningBankDegrees,
    planned.value?.air,
  ]);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const nothing = { fileName: file.name, svgText: '', artwork: null, passedOver: [], middleLines: 0, plan: null };
    if (file.size > MOST_BYTES) {
      drawing.value = { ...nothing, fault: `It is ${Math.round(file.size / 1e6)} MB; drawings of up to 4 MB can be read.` };
      return;
    }
    const svgText = await file.text().catch(() => null);
    drawing.value = svgText === null ? { ...nothing, fault: 'The file could not be opened.' } : { ...nothing, svgText, plan: undefined, fault: null };
  };
  return (
    <div class="artwork-entry">
      <p class="small">
        Lines of an SVG file as strokes the ships fly, with the words or alone. No reader judges a drawing: look at its picture, and let others say what it
        shows.
      </p>
      <JobDrawings />
      <div class="fields">
        <label class="field">
          <span>Drawing, an SVG file</span>
          <input
            type="file"
            accept=".svg,image/svg+xml"
            onChange={(event) => {
              void take(event.currentTarget.files?.[0]);
              event.currentTarget.value = '';
            }}
          />
        </label>
        <NumberField
          label="Depth of the drawing"
          unit="ft"
          value={depthFeet.value}
          limits={jobLimits('letters.heightFeet')}
          step={100}
          onChange={(feet) => (depthFeet.value = feet)}
        />
        <ChoiceField
          label="Where it cannot be flown as drawn"
          value={changed.value ? 'changed' : 'kept'}
          choices={[
            { value: 'changed', label: 'Round and widen a little' },
            { value: 'kept', label: 'Leave it out' },
          ]}
          onChange={(choice) => (changed.value = choice === 'changed')}
        />
        {(value?.middleLines ?? 0) > 0 && (
          <ChoiceField
            label="Filled shapes like thick lines"
            value={middles.value ? 'middle' : 'edge'}
            choices={[
              { value: 'middle', label: 'By their middle line' },
              { value: 'edge', label: 'By their edge' },
            ]}
            onChange={(choice) => (middles.value = choice === 'middle')}
          />
        )}
      </div>
      {value !== null && value.fault !== null && (
        <p class="fault" role="alert" data-artwork="refused">
          {value.fileName} is not taken. {value.fault}
        </p>
      )}
      {value !== null && value.artwork !== null && (
        <>
          <ArtworkView
            job={job}
            title={value.fileName}
            artwork={value.artwork}
            passedOver={value.passedOver}
            middleLines={middles.value ? value.middleLines : 0}
            plan={value.plan}
          />
          <div class="fields">
            <ChoiceField label="Stands" value={place.value} choices={PLACES} onChange={(choice) => (place.value = choice)} />
          </div>
          <TakeDrawing artwork={value.artwork} fileName={value.fileName} place={place.value} />
        </>
      )}
      {value !== null && value.artwork === null && value.fault === null && (
        <p class="quiet" role="status">
          Reading {value.fileName}
        </p>
      )}
    </div>
  );
}
