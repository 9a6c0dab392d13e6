import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { ReceiverChoice } from '../../../app/flight/flight-choices.ts';
import {
  BAUD_RATES,
  chooseBluetooth,
  chooseSerialPort,
  hasBluetooth,
  hasSerialPorts,
  type ReceiverHeard,
  tryReceiver,
} from '../../../app/flight/own-receiver.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';

/** A receiver on a cable or over Bluetooth, by its sentences: chosen, heard for a while, and then flown with. */
export function ReceiverOptions({ receiver }: { readonly receiver: Signal<ReceiverChoice | null> }): VNode | null {
  const heard = useSignal<ReceiverHeard | null>(null);
  const rate = useSignal(9600);
  useEffect(() => {
    if (receiver.value === null) {
      heard.value = null;
      return undefined;
    }
    const trial = tryReceiver(receiver.value);
    const unsubscribe = trial.heard.subscribe((next) => (heard.value = next));
    return () => {
      unsubscribe();
      trial.end();
    };
  }, [receiver.value]);
  const [ports, radios] = [hasSerialPorts(), hasBluetooth()];
  if (!ports && !radios) return null;
  const now = heard.value;
  return (
    <div class="write-options">
      <div class="row">
        {ports && (
          <>
            <label class="field">
              <span>Baud</span>
              <select value={String(rate.value)} onChange={(event) => (rate.value = Number(event.currentTarget.value))}>
                {BAUD_RATES.map((each) => (
                  <option key={each} value={String(each)}>
                    {each}
                  </option>
                ))}
              </select>
            </label>
            <button
              type="button"
              onClick={() =>
                void chooseSerialPort().then((chosen) => {
                  if (chosen) receiver.value = { kind: 'port', baudRate: rate.value };
                })
              }
            >
              Receiver on a port
            </button>
          </>
        )}
        {radios && (
          <button
            type="button"
            onClick={() =>
              void chooseBluetooth().then((device) => {
                if (device !== null) receiver.value = { kind: 'bluetooth', device };
              })
            }
          >
            Receiver over Bluetooth
          </button>
        )}
        {receiver.value !== null && (
          <button type="button" class="plain" onClick={() => (receiver.value = null)}>
            Use this device{'\u2019'}s own
          </button>
        )}
      </div>
      {now !== null && (
        <p class="small" role="status" data-receiver={now.talker}>
          {now.talker === ''
            ? receiver.value?.kind === 'bluetooth'
              ? `Listening to ${receiver.value.device?.name ?? 'the receiver'} over Bluetooth. One that sends no text is not heard.`
              : 'Listening to the port.'
            : `${now.talker}: ${now.ratePerSecond === null ? 'rate not known yet' : `${formatNumber(now.ratePerSecond, 1)} a second`}, ${
                now.lateSeconds === null ? '' : `${formatNumber(now.lateSeconds, 2)} s late by this device\u2019s clock, `
              }precise to ${now.accuracyMetres === null ? 'nobody knows what' : `${formatNumber(now.accuracyMetres)} m`}${now.garbage > 0 ? `, ${now.garbage} lines damaged` : ''}.`}
          {now.lost && ' It is silent now.'}
        </p>
      )}
    </div>
  );
}
