import type { ComponentChildren, VNode } from 'preact';
import { useState } from 'preact/hooks';

export interface FoldProps {
  readonly title: string;
  /** What is set inside, in a few words: read without opening it. */
  readonly said?: string;
  /** Whether it stands open at first. */
  readonly open?: boolean;
  readonly children: ComponentChildren;
}

/** A part of the screen under its title, to be folded away; what is folded away is not drawn. */
export function Fold({ title, said, open = false, children }: FoldProps): VNode {
  const [shown, setShown] = useState(open);
  return (
    <details class="fold" open={open} onToggle={(event) => setShown(event.currentTarget.open)}>
      <summary>
        <h2>{title}</h2>
        {said !== undefined && <span class="fold-said">{said}</span>}
      </summary>
      {shown && <div class="fold-body">{children}</div>}
    </details>
  );
}
