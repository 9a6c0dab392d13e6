/** A person's hands at the desk: which way they lean and where the smoke switch is. */
export interface Hands {
  /** -1 left, 1 right, 0 wings level. */
  lean(): -1 | 0 | 1;
  smoke(): 'on' | 'off';
  /** For touches: leans until called with 0. */
  leanTo(side: -1 | 0 | 1): void;
  switchSmoke(): void;
  end(): void;
}

/** Arrow keys bank as long as they are pressed, the space bar moves the smoke switch; touches do the same. */
export function createHands(keys: Pick<EventTarget, 'addEventListener' | 'removeEventListener'>): Hands {
  const pressed = new Set<string>();
  let touched: -1 | 0 | 1 = 0;
  let smoke: 'on' | 'off' = 'off';
  const switchSmoke = (): void => {
    smoke = smoke === 'on' ? 'off' : 'on';
  };
  const down = (event: Event): void => {
    const { code, repeat } = event as KeyboardEvent;
    if (code !== 'ArrowLeft' && code !== 'ArrowRight' && code !== 'Space') return;
    event.preventDefault();
    if (repeat) return;
    if (code === 'Space') switchSmoke();
    else pressed.add(code);
  };
  const up = (event: Event): void => {
    pressed.delete((event as KeyboardEvent).code);
  };
  keys.addEventListener('keydown', down);
  keys.addEventListener('keyup', up);
  return {
    lean() {
      const keyed = Number(pressed.has('ArrowRight')) - Number(pressed.has('ArrowLeft'));
      return keyed === 0 ? touched : keyed > 0 ? 1 : -1;
    },
    smoke: () => smoke,
    leanTo(side) {
      touched = side;
    },
    switchSmoke,
    end() {
      keys.removeEventListener('keydown', down);
      keys.removeEventListener('keyup', up);
    },
  };
}
