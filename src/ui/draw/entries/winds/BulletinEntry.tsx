import type { VNode } from 'preact';
import { useId, useMemo, useState } from 'preact/hooks';
import { parseWindsAloft, type WindsAloftStation } from '../../../../core/job/winds-aloft.ts';
import { BulletinTimes } from './BulletinTimes.tsx';
import { readWinds } from '../../../../core/winds/read-winds.ts';
import { useDesk } from '../../desk-context.ts';
import { WindReadingView } from './WindReadingView.tsx';
import type { UnitText } from '../../../../core/text/unit-text.ts';
import { useUnitText } from '../../../fields/units-context.ts';

const LONGEST_BYTES = 1_000_000;

/** Winds pasted or loaded in whatever form they came, shown as they were understood, and taken with a touch. */
export function BulletinEntry(): VNode {
  const units = useUnitText();
  const { editor } = useDesk();
  const id = useId();
  const [text, setText] = useState(editor.job.value.windsText);
  const { readTime, site } = editor.job.value;
  const isBulletin = /^\s*FT\s+\d{4}/im.test(text);
  const parsed = useMemo(() => (!isBulletin ? null : parseWindsAloft(text)), [text, isBulletin]);
  const other = useMemo(
    () => (text.trim() === '' ? null : readWinds(text, { nearMilliseconds: Date.parse(readTime), aerodromeFeet: site.elevationFeet })),
    [text, readTime, site.elevationFeet],
  );
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
      <label for={id}>Bulletin, pasted as it came: winds aloft, rows, a table, spot winds, a sounding, model levels, METAR or TAF</label>
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
        {!isBulletin && other?.ok === false && <p class="fault">Not read: {other.reason}. The rows below stay as they are.</p>}
        {parsed?.ok === true && <BulletinTimes bulletin={parsed.bulletin} />}
      </div>
      <label class="button plain">
        From a file
        <input
          type="file"
          class="visually-hidden"
          accept=".txt,.csv,.json,text/plain,text/csv,application/json"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            event.currentTarget.value = '';
            if (file !== undefined) void file.slice(0, LONGEST_BYTES).text().then(setText);
          }}
        />
      </label>
      {other?.ok === true && (!isBulletin || parsed?.ok === true) && <WindReadingView reading={other.reading} />}
      {parsed?.ok === true && (
        <div class="row stations" role="group" aria-label="Stations">
          {parsed.bulletin.stations.map((station) => (
            <button key={station.station} type="button" onClick={() => take(station)}>
              Take {station.station}
              <span class="small quiet">{heightsText(station, units)}</span>
            </button>
          ))}
        </div>
      )}
    </div>
  );
}

function heightsText({ rows, missingFeet }: WindsAloftStation, { height }: UnitText): string {
  const count = `${rows.length} height${rows.length === 1 ? '' : 's'}`;
  return missingFeet.length === 0 ? count : `${count}, none at ${missingFeet.map((feet) => height.own(feet)).join(', ')}`;
}
