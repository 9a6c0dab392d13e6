/** What the pilot's own smoke switch is wired to: a key of a keyboard or Bluetooth button, or a gamepad's button. */
export type SwitchWiring = { readonly kind: 'key'; readonly code: string } | { readonly kind: 'gamepad'; readonly button: number };

/** How the contact follows the valve: each press changes it, or it is open as long as it is pressed. */
export type SwitchAction = 'each-press' | 'while-pressed';

/** The parts of the platform that the switch needs; the browser's objects fit. */
export interface SwitchPlatform {
  readonly keys: Pick<EventTarget, 'addEventListener' | 'removeEventListener'>;
  readonly gamepads: () => readonly (Gamepad | null)[];
}

const POLL_MILLISECONDS = 50;

/** The browser's own platform. */
export function switchPlatform(): SwitchPlatform {
  return {
    keys: window,
    gamepads: () => ('getGamepads' in navigator ? navigator.getGamepads() : []),
  };
}

/**
 * Follows the true smoke switch and tells each change once. Gamepads raise no events for buttons, so they are read
 * 20 times a second while one is wired.
 */
export function followSmokeSwitch(wiring: SwitchWiring, action: SwitchAction, platform: SwitchPlatform, onSwitched: (smoke: 'on' | 'off') => void): () => void {
  let smoke: 'on' | 'off' = 'off';
  let pressed = false;
  const contact = (nowPressed: boolean): void => {
    if (nowPressed === pressed) return;
    pressed = nowPressed;
    if (action === 'each-press' && !pressed) return;
    smoke = action === 'while-pressed' ? (pressed ? 'on' : 'off') : smoke === 'on' ? 'off' : 'on';
    onSwitched(smoke);
  };

  if (wiring.kind === 'gamepad') {
    const timer = setInterval(() => {
      contact(platform.gamepads().some((pad) => pad?.buttons[wiring.button]?.pressed === true));
    }, POLL_MILLISECONDS);
    return () => clearInterval(timer);
  }
  const down = (event: Event): void => {
    const { repeat } = event as KeyboardEvent;
    if (codeOf(event as KeyboardEvent) !== wiring.code) return;
    // A button wired as space or return must not press what happens to have the focus.
    event.preventDefault();
    if (!repeat) contact(true);
  };
  const up = (event: Event): void => {
    if (codeOf(event as KeyboardEvent) !== wiring.code) return;
    event.preventDefault();
    contact(false);
  };
  platform.keys.addEventListener('keydown', down, { capture: true });
  platform.keys.addEventListener('keyup', up, { capture: true });
  return () => {
    platform.keys.removeEventListener('keydown', down, { capture: true });
    platform.keys.removeEventListener('keyup', up, { capture: true });
  };
}

/** Hears the next key or gamepad button pressed, so that the pilot shows the switch instead of naming it. */
export function learnSmokeSwitch(platform: SwitchPlatform, onLearned: (wiring: SwitchWiring) => void): () => void {
  const end = (): void => {
    clearInterval(timer);
    platform.keys.removeEventListener('keydown', down, { capture: true });
  };
  const down = (event: Event): void => {
    const code = codeOf(event as KeyboardEvent);
    // Tab and Escape steer the page itself.
    if (code === 'Tab' || code === 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    end();
    onLearned({ kind: 'key', code });
  };
  const held = new Set(pressedButtons(platform));
  const timer = setInterval(() => {
    const button = pressedButtons(platform).find((index) => !held.has(index));
    if (button === undefined) return;
    end();
    onLearned({ kind: 'gamepad', button });
  }, POLL_MILLISECONDS);
  platform.keys.addEventListener('keydown', down, { capture: true });
  return end;
}

/** The key's place on the board; buttons that only send a character have none and are known by that. */
function codeOf({ code, key }: KeyboardEvent): string {
  return code === '' ? key : code;
}

function pressedButtons(platform: SwitchPlatform): number[] {
  return platform.gamepads().flatMap((pad) => (pad?.buttons ?? []).flatMap(({ pressed }, index) => (pressed ? [index] : [])));
}
