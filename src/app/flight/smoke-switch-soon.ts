import type { SwitchSettings } from './switch-settings.ts';

const RETRY_MILLISECONDS = 2_000;

/** Follows the pilot's smoke switch as soon as its code is fetched, which the first cue does not wait for; the returned function ends it. */
export function followSmokeSwitchSoon({ wiring, action }: SwitchSettings, onSwitched: (smoke: 'on' | 'off') => void): () => void {
  if (wiring === null) return () => {};
  let ended = false;
  let end = (): void => {};
  const follow = async (): Promise<void> => {
    while (!ended) {
      try {
        const { followSmokeSwitch, switchPlatform } = await import('../../sensors/smoke-switch.ts');
        if (!ended) end = followSmokeSwitch(wiring, action, switchPlatform(), onSwitched);
        return;
      } catch {
        await new Promise((resolve) => setTimeout(resolve, RETRY_MILLISECONDS));
      }
    }
  };
  void follow();
  return () => {
    ended = true;
    end();
  };
}
