import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Photograph } from '../../app/photographs/photograph-shelf.ts';
import { instantFromLocalText, zoneOffsetMilliseconds } from '../words/zoned-time.ts';

const FROM: Readonly<Record<Photograph['timeFrom'], string>> = {
  picture: 'by the picture’s own data',
  arrival: 'when the file was made; the picture itself does not say it with a zone',
  person: 'entered by hand',
};

export interface PhotographTimeProps {
  readonly photograph: Photograph;
  readonly timeZone: string;
  readonly onTime: (takenAtMilliseconds: number) => void;
}

/** When a photograph was taken, at the site, to the second: the word drifts ten metres in one. */
export function PhotographTime({ photograph, timeZone, onTime }: PhotographTimeProps): VNode {
  const { takenAtMilliseconds, timeFrom } = photograph;
  const fault = useSignal('');
  const offset = zoneOffsetMilliseconds(takenAtMilliseconds, timeZone) ?? 0;
  const text = new Date(takenAtMilliseconds + offset).toISOString().slice(0, 19);
  return (
    <label class="field">
      <span>
        Taken at, local time of the site ({timeZone}), {FROM[timeFrom]}
      </span>
      <input
        type="datetime-local"
        step={1}
        value={text}
        onChange={(event) => {
          const typed = event.currentTarget.value;
          const minute = instantFromLocalText(typed, timeZone);
          const at = minute === null ? Number.NaN : minute + 1000 * Number(typed.slice(17, 19) || 0);
          fault.value = Number.isFinite(at) ? '' : 'Not a date and time; what stood there is kept.';
          if (Number.isFinite(at)) onTime(at);
        }}
      />
      {fault.value !== '' && <span class="fault">{fault.value}</span>}
    </label>
  );
}
