import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { readDrawing } from '../../../app/artwork.ts';
import type { Artwork } from '../../../core/artwork/artwork.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { metresFromFeet } from '../../../core/units/quantity.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { ArtworkView } from '../pictures/ArtworkView.tsx';
import { useDesk } from '../desk-context.ts';

/** A drawing the person chose, as far as it was read. */
interface ReadDrawing {
  readonly fileName: string;
  readonly svgText: string;
  readonly artwork: Artwork | null;
  readonly passedOver: readonly string[];
  /** Undefined while its order is being looked for; null when nothing of it can be flown. */
  readonly plan: Plan | null | undefined;
  readonly fault: string | null;
}

const MOST_BYTES = 8_000_000;
/** Long enough to step the size several times before it is read anew. */
const REST_MILLISECONDS = 250;

/** A drawing from an SVG file instead of words: what of it the lead can fly, and why the rest cannot be flown. */
export function ArtworkEntry(): VNode {
  const { editor, planned } = useDesk();
  const job = editor.job.value;
  const depthFeet = useSignal(job.letters.heightFeet);
  const drawing = useSignal<ReadDrawing | null>(null);
  const { value } = drawing;
  const [lead] = job.ships;
  useEffect(() => {
    if (drawing.peek() === null) return undefined;
    let end = (): void => {};
    const timer = setTimeout(() => {
      const chosen = drawing.peek();
      if (chosen === null) return;
      end = readDrawing(job, chosen.svgText, metresFromFeet(depthFeet.value), (answer) => {
        const before = drawing.peek();
        if (before === null) return;
        if (answer.kind === 'refused') drawing.value = { ...before, artwork: null, plan: null, fault: answer.reason };
        else if (answer.kind === 'read') drawing.value = { ...before, artwork: answer.artwork, passedOver: answer.passedOver, plan: undefined, fault: null };
        else drawing.value = { ...before, plan: answer.plan };
      });
    }, REST_MILLISECONDS);
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [value?.svgText, depthFeet.value, lead?.trueAirspeedKnots, lead?.writingBankDegrees, lead?.turningBankDegrees, planned.value?.air]);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const nothing = { fileName: file.name, svgText: '', artwork: null, passedOver: [], plan: null };
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
        Lines of an SVG file as strokes the lead can fly, to judge and give away. A job holds words: what is flown from the Write screen stays the text above.
      </p>
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
      </div>
      {value !== null && value.fault !== null && (
        <p class="fault" role="alert" data-artwork="refused">
          {value.fileName} is not taken. {value.fault}
        </p>
      )}
      {value !== null && value.artwork !== null && (
        <ArtworkView job={job} title={value.fileName} artwork={value.artwork} passedOver={value.passedOver} plan={value.plan} />
      )}
      {value !== null && value.artwork === null && value.fault === null && (
        <p class="quiet" role="status">
          Reading {value.fileName}
        </p>
      )}
    </div>
  );
}
