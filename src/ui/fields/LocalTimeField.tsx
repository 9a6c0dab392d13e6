import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import { instantFromLocalText, localTextFromInstant, utcText } from '../words/zoned-time.ts';

export interface LocalTimeFieldProps {
  readonly label: string;
  /** RFC 3339 in UTC; null where nobody has said. */
  readonly time: string | null;
  /** Of the place: typed in its hours. UTC for one that nobody knows. */
  readonly timeZone: string;
  readonly onChange: (time: string | null) => void;
}

/** A date and hour typed in the time of a place, its zone beside it; emptied, nobody has said. */
export function LocalTimeField({ label, time, timeZone, onChange }: LocalTimeFieldProps): VNode {
  const id = useId();
  const known = localTextFromInstant(0, timeZone) !== null;
  const zone = known ? timeZone : 'UTC';
  return (
    <div class="field local-time">
      <label for={id}>
        {label}, {known ? 'local time' : 'UTC'}
      </label>
      <input
        id={id}
        type="datetime-local"
        value={time === null ? '' : (localTextFromInstant(Date.parse(time), zone) ?? '')}
        onInput={(event) => {
          const written = event.currentTarget.value;
          const instant = instantFromLocalText(written, zone);
          if (instant !== null) onChange(utcText(instant));
          else if (written === '') onChange(null);
        }}
      />
      <span class="small">{time === null ? 'Not entered' : `${time.slice(0, 16).replace('T', ' ')} UTC`}</span>
    </div>
  );
}
