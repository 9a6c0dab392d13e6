import type { VNode } from 'preact';
import { useId } from 'preact/hooks';

export interface ChoiceFieldProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  /** `short` stands in for the label where one row has no room for all. */
  readonly choices: readonly { readonly value: Value; readonly label: string; readonly short?: string; readonly title?: string }[];
  readonly onChange: (value: Value) => void;
}

/** A few choices side by side, all of them readable before one is taken. */
export function ChoiceField<Value extends string>({ label, value, choices, onChange }: ChoiceFieldProps<Value>): VNode {
  const name = useId();
  return (
    <fieldset class="choice-field">
      <legend>{label}</legend>
      <div class={choices.some(({ short }) => short !== undefined) ? 'choices choices-row' : 'choices'}>
        {choices.map((choice) => (
          <label key={choice.value} title={choice.title}>
            <input
              type="radio"
              name={name}
              value={choice.value}
              checked={choice.value === value}
              aria-label={choice.short === undefined ? undefined : choice.label}
              onChange={() => onChange(choice.value)}
            />
            {choice.short === undefined ? (
              <span>{choice.label}</span>
            ) : (
              <span>
                <b class="choice-long">{choice.label}</b>
                <b class="choice-short">{choice.short}</b>
              </span>
            )}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
