import type { VNode } from 'preact';
import { editName, jobField, type JobFieldPath, jobNumber, withJobNumber } from '../../../app/draw/job-fields.ts';
import { isEntered } from '../../../core/job/not-entered.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { useFieldUnit } from '../../fields/units-context.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { useDesk } from '../desk-context.ts';

const NOT_ENTERED = 'not entered';

export interface JobNumberProps {
  readonly path: JobFieldPath;
  /** Which item, where the path goes through a list. */
  readonly index?: number;
}

/** An entry for one number of the job, as `job-fields.ts` has it: stepped with keys, or typed. */
export function JobNumber({ path, index = 0 }: JobNumberProps): VNode {
  const { editor } = useDesk();
  const { label: ownLabel, unit, step, limits, outside, wraps = false, empty, typedUnit = '' } = jobField(path);
  const { label: inUnit } = useFieldUnit(typedUnit);
  const label = inUnit(ownLabel);
  const job = editor.job.value;
  const known = isEntered(job, path);
  const assumed = jobNumber(job, path, index) ?? Number.NaN;
  const value = known ? assumed : Number.NaN;
  const change = (next: number | null): void => editor.edit(editName(editor.job.peek(), path, index), (before) => withJobNumber(before, path, next, index));
  if (step !== null) {
    return (
      <NumberField
        label={label}
        unit={unit}
        value={value}
        {...(known ? {} : { assumed })}
        limits={limits}
        step={step}
        wraps={wraps}
        onChange={change}
        {...(outside === undefined ? {} : { outside })}
      />
    );
  }
  return (
    <div class="field">
      <span aria-hidden="true">{label}</span>
      <NumberCell
        label={empty === undefined ? label : `${label}; empty ${empty.means}`}
        value={value}
        unit={typedUnit}
        limits={limits}
        onChange={change}
        {...(empty === undefined ? {} : { placeholder: empty.shown, onEmpty: () => change(null) })}
        {...(known ? {} : { placeholder: NOT_ENTERED })}
      />
    </div>
  );
}
