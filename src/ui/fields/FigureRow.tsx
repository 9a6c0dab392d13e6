import type { ComponentChildren, VNode } from 'preact';

export interface FigureRowProps {
  readonly label: string;
  readonly children: ComponentChildren;
  /** A second line: where the number comes from, or what it is measured against. */
  readonly note?: ComponentChildren;
  /** Machine value for tests and assistive technology, in the unit its name spells. */
  readonly name?: string;
  readonly value?: number | string;
}

/** One figure in a `dl.figure-rows`: its name, its value with the unit, and a note. */
export function FigureRow({ label, children, note, name, value }: FigureRowProps): VNode {
  return (
    <div class="figure-row" data-figure={name} data-value={value}>
      <dt>{label}</dt>
      <dd>
        <span class="figure-value">{children}</span>
        {note !== undefined && <span class="figure-note">{note}</span>}
      </dd>
    </div>
  );
}
