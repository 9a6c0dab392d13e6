import type { VNode } from 'preact';
import { missingFirstWords } from '../../../core/job/not-entered.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { useUnitText } from '../../fields/units-context.ts';
import { airAgainstStandard, altimeterWords } from '../../words/altimeter-words.ts';
import { useDesk } from '../desk-context.ts';

/** What the altimeter shows at the layer's true height, on each setting; nothing while nobody has said the QNH. */
export function AltimeterFigure(): VNode | null {
  const units = useUnitText();
  const job = useDesk().editor.job.value;
  const words = missingFirstWords(job) === null ? altimeterWords(job, units) : null;
  if (words === null) return null;
  return (
    <dl class="figure-rows">
      <FigureRow
        label="At the layer the altimeter on"
        name="altimeter"
        value={words}
        note={`the layer is a true height, the air ${airAgainstStandard(job, units)}. What is cleared by the controller, and on which setting, stands`}
      >
        {words}
      </FigureRow>
    </dl>
  );
}
