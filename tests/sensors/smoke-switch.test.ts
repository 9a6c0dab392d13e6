import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { followSmokeSwitch, learnSmokeSwitch, type SwitchWiring } from '../../src/sensors/smoke-switch.ts';

class Press extends Event {
  readonly code: string;
  readonly key: string;
  readonly repeat: boolean;

  constructor(type: 'keydown' | 'keyup', code: string, { repeat = false, key = '' } = {}) {
    super(type, { cancelable: true });
    this.code = code;
    this.key = key;
    this.repeat = repeat;
  }
}

const pad = (...pressed: boolean[]): Gamepad => ({ buttons: pressed.map((isPressed) => ({ pressed: isPressed })) }) as unknown as Gamepad;

describe('followSmokeSwitch', () => {
  it('changes with each press of its key and of no other, and a held key repeats nothing', () => {
    const keys = new EventTarget();
    const heard: string[] = [];
    followSmokeSwitch({ kind: 'key', code: 'PageDown' }, 'each-press', { keys, gamepads: () => [] }, (smoke) => heard.push(smoke));
    const first = new Press('keydown', 'PageDown');
    keys.dispatchEvent(first);
    keys.dispatchEvent(new Press('keydown', 'PageDown', { repeat: true }));
    keys.dispatchEvent(new Press('keyup', 'PageDown'));
    keys.dispatchEvent(new Press('keydown', 'KeyA'));
    keys.dispatchEvent(new Press('keydown', 'PageDown'));
    expect(heard).toEqual(['on', 'off']);
    expect(first.defaultPrevented).toBe(true);
  });

  it('follows a contact that is open while pressed', () => {
    const keys = new EventTarget();
    const heard: string[] = [];
    const end = followSmokeSwitch({ kind: 'key', code: 'Space' }, 'while-pressed', { keys, gamepads: () => [] }, (smoke) => heard.push(smoke));
    keys.dispatchEvent(new Press('keydown', 'Space'));
    keys.dispatchEvent(new Press('keyup', 'Space'));
    end();
    keys.dispatchEvent(new Press('keydown', 'Space'));
    expect(heard).toEqual(['on', 'off']);
  });

  describe('on a gamepad', () => {
    beforeEach(() => {
      vi.useFakeTimers();
    });
    afterEach(() => {
      vi.useRealTimers();
    });

    it('reads the wired button, on whichever pad', () => {
      let pads: readonly (Gamepad | null)[] = [null, pad(false, false)];
      const heard: string[] = [];
      followSmokeSwitch({ kind: 'gamepad', button: 1 }, 'each-press', { keys: new EventTarget(), gamepads: () => pads }, (smoke) => heard.push(smoke));
      vi.advanceTimersByTime(200);
      pads = [null, pad(true, true)];
      vi.advanceTimersByTime(200);
      pads = [null, pad(true, false)];
      vi.advanceTimersByTime(200);
      pads = [pad(false, true), null];
      vi.advanceTimersByTime(200);
      expect(heard).toEqual(['on', 'off']);
    });

    it('learns a button pressed now, not one that is held down by something', () => {
      let pads: readonly (Gamepad | null)[] = [pad(true, false, false)];
      const learned: SwitchWiring[] = [];
      learnSmokeSwitch({ keys: new EventTarget(), gamepads: () => pads }, (wiring) => learned.push(wiring));
      vi.advanceTimersByTime(100);
      pads = [pad(true, false, true)];
      vi.advanceTimersByTime(100);
      expect(learned).toEqual([{ kind: 'gamepad', button: 2 }]);
    });
  });

  it('learns a key once, by its character when it has no place on the board', () => {
    const keys = new EventTarget();
    const learned: SwitchWiring[] = [];
    learnSmokeSwitch({ keys, gamepads: () => [] }, (wiring) => learned.push(wiring));
    keys.dispatchEvent(new Press('keydown', 'Tab'));
    keys.dispatchEvent(new Press('keydown', '', { key: 'F13' }));
    keys.dispatchEvent(new Press('keydown', 'KeyB'));
    expect(learned).toEqual([{ kind: 'key', code: 'F13' }]);
  });
});
