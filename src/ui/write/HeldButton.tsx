import type { ComponentChildren, VNode } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** What cannot be taken back lightly is held this long. */
export const HOLD_MILLISECONDS = 800;

export interface HeldButtonProps {
  readonly class: string;
  readonly onHeld: () => void;
  readonly children: ComponentChildren;
}

/** A button that acts when it has been held for 0.8 s by finger, pen or key, and does nothing when let go before. */
export function HeldButton({ class: className, onHeld, children }: HeldButtonProps): VNode {
  const [holding, setHolding] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const cancel = (): void => {
    clearTimeout(timer.current);
    timer.current = undefined;
    setHolding(false);
  };
  const begin = (): void => {
    if (timer.current !== undefined) return;
    setHolding(true);
    timer.current = setTimeout(() => {
      cancel();
      onHeld();
    }, HOLD_MILLISECONDS);
  };
  useEffect(() => () => clearTimeout(timer.current), []);
  const isPressKey = ({ key }: KeyboardEvent): boolean => key === ' ' || key === 'Enter';
  return (
    <button
      type="button"
      class={holding ? `${className} holding` : className}
      onPointerDown={begin}
      onPointerUp={cancel}
      onPointerCancel={cancel}
      onPointerLeave={cancel}
      onBlur={cancel}
      onKeyDown={(event) => {
        if (!isPressKey(event)) return;
        event.preventDefault();
        if (!event.repeat) begin();
      }}
      onKeyUp={(event) => {
        if (isPressKey(event)) cancel();
      }}
      onContextMenu={(event) => event.preventDefault()}
    >
      {children}
    </button>
  );
}
