import type { ComponentChildren, VNode } from 'preact';

export interface FoldProps {
  readonly title: string;
  /** Whether it stands open at first. */
  readonly open?: boolean;
  readonly children: ComponentChildren;
}

/** A part of the screen under its title, to be folded away. */
export function Fold({ title, open = false, children }: FoldProps): VNode {
  return (
    <details class="fold" open={open}>
      <summary>
        <h2>{title}</h2>
      </summary>
      <div class="fold-body">{children}</div>
    </details>
  );
}
