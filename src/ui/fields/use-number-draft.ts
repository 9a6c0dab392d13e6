import { useState } from 'preact/hooks';
import type { Limits } from '../../core/text/field-schemas.ts';
import { numberFromText } from './number-from-text.ts';

/** What a number entry shows and does while a person types. */
export interface NumberDraft {
  readonly text: string;
  /** What is wrong with the text; null when it stands for the value. */
  readonly fault: string | null;
  readonly onInput: (text: string) => void;
  /** Shows the value again when what was typed is right; wrong text stays to be mended. */
  readonly onBlur: () => void;
  /** Drops what was typed. */
  readonly reset: () => void;
}

export interface NumberDraftOptions {
  readonly value: number;
  /** Both ends allowed. */
  readonly limits: Limits;
  /** Called with values in range only. */
  readonly onChange: (value: number) => void;
  /** Called when the entry is left, not while it is typed. */
  readonly settled?: boolean;
}

/** Lets a person type a number freely while only right values leave the field. */
export function useNumberDraft({ value, limits: [minimum, maximum], onChange, settled = false }: NumberDraftOptions): NumberDraft {
  // Null shows the value; while a person types, their own text stands, right or wrong.
  const [draft, setDraft] = useState<string | null>(null);
  const typed = draft === null ? null : numberFromText(draft, minimum, maximum);
  const fault = typed !== null && !typed.ok ? typed.reason : null;
  return {
    text: draft ?? (Number.isFinite(value) ? String(Number(value.toFixed(6))) : ''),
    fault,
    onInput(text) {
      setDraft(text);
      const read = numberFromText(text, minimum, maximum);
      if (!settled && read.ok && read.value !== value) onChange(read.value);
    },
    onBlur() {
      if (fault !== null) return;
      setDraft(null);
      if (settled && typed !== null && typed.ok && typed.value !== value) onChange(typed.value);
    },
    reset: () => setDraft(null),
  };
}
