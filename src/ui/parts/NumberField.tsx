import type { VNode } from 'preact';
import { useId, useState } from 'preact/hooks';
import { formatNumber } from './number-formats.ts';
import { numberFromText } from './number-from-text.ts';

export interface NumberFieldProps {
  readonly label: string;
  /** Written after the value: `kt`, `ft`, `\u00b0`. */
  readonly unit: string;
  readonly value: number;
  readonly minimum: number;
  readonly maximum: number;
  /** What one touch of the minus or plus key changes. */
  readonly step: number;
  /** Called with values in range only. */
  readonly onChange: (value: number) => void;
  /** Why the range ends where it does, said when a value lies outside it. */
  readonly outside?: string;
}

/** A number with its unit, to be typed or stepped with keys broad enough for a glove. */
export function NumberField(props: NumberFieldProps): VNode {
  const { label, unit, value, minimum, maximum, step, onChange, outside } = props;
  const id = useId();
  // Null shows the value; while a person types, their own text stands, right or wrong.
  const [draft, setDraft] = useState<string | null>(null);
  const typed = draft === null ? null : numberFromText(draft, minimum, maximum);
  const fault = typed !== null && !typed.ok ? typed.reason : null;
  const take = (text: string): void => {
    setDraft(text);
    const read = numberFromText(text, minimum, maximum);
    if (read.ok && read.value !== value) onChange(read.value);
  };
  const stepped = (sign: 1 | -1): void => {
    setDraft(null);
    // Whole steps, so that 1,234 goes to 1,300 and back to 1,200, not to 1,334.
    const next = sign > 0 ? Math.floor(value / step + 1e-9) * step + step : Math.ceil(value / step - 1e-9) * step - step;
    onChange(Math.min(maximum, Math.max(minimum, Number(next.toFixed(6)))));
  };
  return (
    <div class="number-field">
      <label for={id}>{label}</label>
      <div class="number-keys">
        <button type="button" aria-label={`${label}: less`} disabled={value <= minimum} onClick={() => stepped(-1)}>
          {'\u2212'}
        </button>
        <span class="number-value">
          <input
            id={id}
            inputMode="decimal"
            autocomplete="off"
            size={6}
            value={draft ?? plainText(value)}
            aria-invalid={fault === null ? undefined : 'true'}
            aria-describedby={fault === null ? undefined : `${id}-fault`}
            onFocus={(event) => event.currentTarget.select()}
            onInput={(event) => take(event.currentTarget.value)}
            onBlur={() => (fault === null ? setDraft(null) : undefined)}
          />
          <span class="unit">{unit}</span>
        </span>
        <button type="button" aria-label={`${label}: more`} disabled={value >= maximum} onClick={() => stepped(1)}>
          +
        </button>
      </div>
      {fault !== null && (
        <p class="fault" id={`${id}-fault`} role="alert">
          {fault}. {outside ?? ''} The plan keeps {formatNumber(value, value % 1 === 0 ? 0 : 2)} {unit}.
        </p>
      )}
    </div>
  );
}

function plainText(value: number): string {
  return String(Number(value.toFixed(4)));
}
