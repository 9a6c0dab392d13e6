import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import type { Limits } from '../../core/text/field-schemas.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { NumberReadings } from './NumberReadings.tsx';
import { useFieldUnit } from './units-context.ts';
import { useNumberDraft } from './use-number-draft.ts';

export interface NumberFieldProps {
  readonly label: string;
  /** Written after the value: `kt`, `ft`, `\u00b0`. */
  readonly unit: string;
  /** NaN for what nobody has entered: the entry is then empty and says so. */
  readonly value: number;
  /** Where the keys begin while nobody has entered a value. */
  readonly assumed?: number;
  readonly limits: Limits;
  /** What one touch of the minus or plus key changes. */
  readonly step: number;
  /** Goes round instead of stopping at the ends, as bearings do. */
  readonly wraps?: boolean;
  /** Called with values in range only. */
  readonly onChange: (value: number) => void;
  /** Why the range ends where it does, said when a value lies outside it. */
  readonly outside?: string;
}

/** A number with its unit, to be typed or stepped with keys broad enough for a glove. */
export function NumberField(props: NumberFieldProps): VNode {
  const { label, outside, wraps = false } = props;
  const { unit, shown, own, step: stepOf, next } = useFieldUnit(props.unit);
  // All below is in the unit that is shown; what leaves the entry is in the job's own.
  const value = shown(props.value, 4);
  const assumed = shown(props.assumed ?? props.value, 4);
  const step = stepOf(props.step);
  const [minimum, maximum] = [shown(props.limits[0]), shown(props.limits[1])];
  const limits = [minimum, maximum] as const;
  const onChange = (typed: number): void => props.onChange(Math.min(props.limits[1], Math.max(props.limits[0], own(typed))));
  const id = useId();
  const draft = useNumberDraft({ value, exact: shown(props.value), limits, unit, onChange });
  const stepped = (sign: 1 | -1): void => {
    draft.reset();
    onChange(Number.isFinite(value) ? steppedNumber(value, sign, step, limits, wraps) : assumed);
  };
  return (
    <div class="number-field">
      <label for={id}>{label}</label>
      <div class="number-keys">
        <button type="button" aria-label={`${label}: less`} disabled={!wraps && value <= minimum} onClick={() => stepped(-1)}>
          {'\u2212'}
        </button>
        <span class="number-value">
          <input
            id={id}
            inputMode="decimal"
            autocomplete="off"
            size={6}
            value={draft.text}
            placeholder={Number.isFinite(value) ? undefined : 'not entered'}
            aria-invalid={draft.fault === null ? undefined : 'true'}
            aria-describedby={draft.fault === null ? undefined : `${id}-fault`}
            onFocus={(event) => event.currentTarget.select()}
            onInput={(event) => draft.onInput(event.currentTarget.value)}
            onBlur={draft.onBlur}
          />
          {next === null ? (
            <span class="unit">{unit}</span>
          ) : (
            <button type="button" class="unit" aria-label={`${label}: unit ${unit}, another`} onClick={next}>
              {unit}
            </button>
          )}
        </span>
        <button type="button" aria-label={`${label}: more`} disabled={!wraps && value >= maximum} onClick={() => stepped(1)}>
          +
        </button>
      </div>
      <NumberReadings draft={draft} unit={unit} />
      {draft.fault !== null && (
        <p class="fault" id={`${id}-fault`} role="alert">
          {draft.fault}. {outside ?? ''}{' '}
          {Number.isFinite(value) ? `The job keeps ${formatNumber(value, value % 1 === 0 ? 0 : 2)} ${unit}.` : 'Nothing was entered.'}
        </p>
      )}
    </div>
  );
}

/** The next whole step up or down, so that 1,234 goes to 1,300 and back to 1,200, not to 1,334. */
export function steppedNumber(value: number, sign: 1 | -1, step: number, [minimum, maximum]: Limits, wraps: boolean): number {
  const next = sign > 0 ? (Math.floor(value / step + 1e-9) + 1) * step : (Math.ceil(value / step - 1e-9) - 1) * step;
  const rounded = Number(next.toFixed(6));
  if (!wraps) return Math.min(maximum, Math.max(minimum, rounded));
  const span = maximum - minimum;
  return rounded >= maximum ? rounded - span : rounded < minimum ? rounded + span : rounded;
}
