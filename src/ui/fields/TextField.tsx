import type { VNode } from 'preact';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onInput: (value: string) => void;
}

/** A line of text that may be left empty, and then says so. */
export function TextField({ label, value, onInput }: TextFieldProps): VNode {
  return (
    <label class="field">
      <span>{label}</span>
      <input value={value} maxLength={60} placeholder="not entered" onInput={(event) => onInput(event.currentTarget.value)} />
    </label>
  );
}
