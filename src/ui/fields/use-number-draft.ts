import { useState } from 'preact/hooks';
import type { Limits } from '../../core/text/field-schemas.ts';
import { typedNumber } from '../../core/text/typed-number.ts';

/** What a number entry shows and does while a person types. */
export interface NumberDraft {
  readonly text: string;
  /** What is wrong with the text; null when it stands for the value. */
  readonly fault: string | null;
  /** Where the text can mean two numbers: both, to be chosen from. */
  readonly readings: readonly number[];
  /** What is understood of a text that is typed, in the field's unit; null while nothing is typed, or nothing understood. */
  readonly understood: number | null;
  readonly choose: (value: number) => void;
  readonly onInput: (text: string) => void;
  /** Shows the value again when what was typed is right; wrong text stays to be mended. */
  readonly onBlur: () => void;
  /** Drops what was typed. */
  readonly reset: () => void;
}

export interface NumberDraftOptions {
  readonly value: number;
  /** What the value is before it was rounded to be shown; a typed number is held against it. */
  readonly exact?: number;
  /** Both ends allowed. */
  readonly limits: Limits;
  /** The field's own unit; others may be typed after the number. */
  readonly unit?: string;
  /** Called with values in range only. */
  readonly onChange: (value: number) => void;
  /** Called when the entry is left, not while it is typed. */
  readonly settled?: boolean;
}

/** Lets a person type a number freely while only right values leave the field. */
export function useNumberDraft({ value, exact = value, limits, unit = '', onChange, settled = false }: NumberDraftOptions): NumberDraft {
  // Null shows the value; while a person types, their own text stands, right or wrong.
  const [draft, setDraft] = useState<string | null>(null);
  const typed = draft === null ? null : typedNumber(draft, limits, unit);
  const fault = typed !== null && !typed.ok ? typed.reason : null;
  return {
    text: draft ?? (Number.isFinite(value) ? String(Number(value.toFixed(6))) : ''),
    fault,
    readings: typed !== null && !typed.ok ? typed.readings : [],
    understood: typed !== null && typed.ok ? typed.value : null,
    choose(chosen) {
      setDraft(null);
      onChange(chosen);
    },
    onInput(text) {
      setDraft(text);
      const read = typedNumber(text, limits, unit);
      if (!settled && read.ok && read.value !== exact) onChange(read.value);
    },
    onBlur() {
      if (fault !== null) return;
      setDraft(null);
      if (settled && typed !== null && typed.ok && typed.value !== exact) onChange(typed.value);
    },
    reset: () => setDraft(null),
  };
}
