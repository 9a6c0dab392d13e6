import type { VNode } from 'preact';
import { missingFirstWords } from '../../../core/job/not-entered.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { useUnitText } from '../../fields/units-context.ts';
import { airAgainstStandard, altimeterRows } from '../../words/altimeter-words.ts';
import { useDesk } from '../desk-context.ts';

/** What the altimeter shows at the layer's true height, on each setting; nothing while nobody has said the QNH. */
export function AltimeterFigure(): VNode | null {
  const units = useUnitText();
  const job = useDesk().editor.job.value;
  const rows = missingFirstWords(job) === null ? altimeterRows(job, units) : [];
  if (rows.length === 0) return null;
  return (
    <dl class="figure-rows" data-altimeter={rows.map(({ setting, shows }) => `${setting} shows ${shows}`).join('; ')}>
      {rows.map(({ setting, shows }, index) => (
        <FigureRow
          key={index}
          label={`At the layer, on ${setting}`}
          note={
            index === 0
              ? `The layer is a true height, the air ${airAgainstStandard(job, units)}. What the controller clears, and on which setting, stands.`
              : undefined
          }
        >
          {shows}
        </FigureRow>
      ))}
    </dl>
  );
}
