import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import type { Limits } from '../../core/text/field-schemas.ts';
import { NumberReadings } from './NumberReadings.tsx';
import { useFieldUnit } from './units-context.ts';
import { useNumberDraft } from './use-number-draft.ts';

export interface NumberCellProps {
  /** Said to those who do not see the column's head. */
  readonly label: string;
  /** NaN shows an empty cell. */
  readonly value: number;
  readonly limits: Limits;
  readonly onChange: (value: number) => void;
  /** Called when the cell is emptied; without it an empty cell is a fault. */
  readonly onEmpty?: () => void;
  readonly placeholder?: string;
  /** The value's own in the job file: it is shown and typed in the one chosen for its kind, which the head must say. */
  readonly unit?: string;
  /** The value is taken when the entry is left or Enter is pressed, not while it is typed. */
  readonly settled?: boolean;
}

/** A number in a table's cell: typed, not stepped. */
export function NumberCell(props: NumberCellProps): VNode {
  const { label, onEmpty, placeholder, settled = false } = props;
  const id = useId();
  const { unit, shown, own } = useFieldUnit(props.unit ?? '');
  const [least, greatest] = props.limits;
  const draft = useNumberDraft({
    value: shown(props.value, 5),
    exact: shown(props.value),
    limits: [shown(least), shown(greatest)],
    onChange: (typed) => props.onChange(Math.min(greatest, Math.max(least, own(typed)))),
    settled,
    unit,
  });
  const empty = draft.text.trim() === '' && onEmpty !== undefined;
  const fault = empty ? null : draft.fault;

  return (
    <span class="number-cell">
      <input
        inputMode="decimal"
        autocomplete="off"
        aria-label={label}
        size={6}
        value={draft.text}
        placeholder={placeholder}
        aria-invalid={fault === null ? undefined : 'true'}
        aria-describedby={fault === null ? undefined : id}
        onInput={(event) => {
          const text = event.currentTarget.value;
          draft.onInput(text);
          if (text.trim() === '') onEmpty?.();
        }}
        onBlur={() => (empty || draft.text.trim() === '' ? draft.reset() : draft.onBlur())}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
        }}
      />
      <NumberReadings draft={draft} unit={unit} />
      {fault !== null && (
        <span class="fault" id={id} role="alert">
          {fault}
        </span>
      )}
    </span>
  );
}
