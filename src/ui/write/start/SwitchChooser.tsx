import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import { useApplication } from '../../application-context.ts';

/** Which key, gamepad button or Bluetooth button is the true smoke switch. */
export function SwitchChooser({ preflight }: { readonly preflight: Preflight }): VNode {
  const { flightDesk } = useApplication();
  const { wiring, action } = flightDesk.switchSettings.value;
  const learning = preflight.learningSwitch.value;
  const wired =
    wiring === null ? 'No key or button is wired to the smoke switch.' : wiring.kind === 'key' ? `Key ${wiring.code}` : `Gamepad button ${wiring.button + 1}`;
  return (
    <fieldset class="panel write-choice">
      <legend>Smoke switch</legend>
      <p role="status">{learning ? 'Press the switch now.' : wired}</p>
      <div class="row">
        <button type="button" disabled={learning} onClick={() => preflight.learnSwitch()}>
          Show me the switch
        </button>
        {(wiring !== null || learning) && (
          <button type="button" class="plain" onClick={() => preflight.forgetSwitch()}>
            None
          </button>
        )}
      </div>
      {wiring !== null && (
        <label class="field">
          <span>Smoke is on</span>
          <select
            value={action}
            onChange={(event) => preflight.setSwitchAction(event.currentTarget.value === 'while-pressed' ? 'while-pressed' : 'each-press')}
          >
            <option value="each-press">from one press to the next</option>
            <option value="while-pressed">while it is pressed</option>
          </select>
        </label>
      )}
    </fieldset>
  );
}
