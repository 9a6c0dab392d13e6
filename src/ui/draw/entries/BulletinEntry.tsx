import type { VNode } from 'preact';
import { useId, useMemo, useState } from 'preact/hooks';
import { parseWindsAloft, type WindsAloftStation } from '../../../core/job/winds-aloft.ts';
import { BulletinTimes } from './BulletinTimes.tsx';
import { useDesk } from '../desk-context.ts';

/** A winds-aloft bulletin pasted as it came; the rows of one station are taken from it with a touch. */
export function BulletinEntry(): VNode {
  const { editor } = useDesk();
  const id = useId();
  const [text, setText] = useState(editor.job.value.windsText);
  const parsed = useMemo(() => (text.trim() === '' ? null : parseWindsAloft(text)), [text]);
  const take = (station: WindsAloftStation): void =>
    editor.edit(`winds of ${station.station}`, (job) => ({
      ...job,
      windsText: text,
      winds: station.rows.map(({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius }) => ({
        altitudeFeet,
        fromDegreesTrue,
        speedKnots,
        temperatureCelsius,
      })),
    }));
  return (
    <div class="bulletin-entry">
      <label for={id}>Bulletin, pasted with its columns as they came</label>
      <textarea
        id={id}
        rows={6}
        spellcheck={false}
        autocomplete="off"
        value={text}
        placeholder={'FT  3000    6000    9000   12000   18000'}
        aria-invalid={parsed !== null && !parsed.ok ? 'true' : undefined}
        aria-describedby={`${id}-said`}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      <div id={`${id}-said`} role="status">
        {parsed !== null && !parsed.ok && <p class="fault">Not read: {parsed.reason}. The rows below stay as they are.</p>}
        {parsed?.ok === true && <BulletinTimes bulletin={parsed.bulletin} />}
      </div>
      {parsed?.ok === true && (
        <div class="row stations" role="group" aria-label="Stations">
          {parsed.bulletin.stations.map((station) => (
            <button key={station.station} type="button" onClick={() => take(station)}>
              Take {station.station}
              <span class="small quiet">{heightsText(station)}</span>
            </button>
          ))}
        </div>
      )}
    </div>
  );
}

function heightsText({ rows, missingFeet }: WindsAloftStation): string {
  const count = `${rows.length} height${rows.length === 1 ? '' : 's'}`;
  return missingFeet.length === 0 ? count : `${count}, none at ${missingFeet.map((feet) => feet.toLocaleString('en-US')).join(', ')} ft`;
}
