import { clockText } from '../../words/clock.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { type LogbookReading, readLogbook } from '../../../app/debrief/logbook-shelf.ts';
import { handOverFile } from '../../../app/hand-over-file.ts';
import { hashFromRoute } from '../../../app/route.ts';
import { logbookTotals } from '../../../core/debrief/logbook.ts';
import { useApplication } from '../../application-context.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { useDebrief } from '../debrief-context.ts';
import { logbookCsv } from './logbook-csv.ts';
import { SeasonTable } from './SeasonTable.tsx';
import { useUnitText } from '../../fields/units-context.ts';

type Shown = 'all' | 'flight' | 'rehearsal';

/** All flights of this device: hours, oil, words, how many were read. */
export function Logbook({ timeZone }: { readonly timeZone: string }): VNode {
  const units = useUnitText();
  const { database } = useApplication();
  const { desk } = useDebrief();
  const reading = useSignal<LogbookReading | 'failed' | null>(null);
  const shown = useSignal<Shown>('flight');
  const debrief = desk.ships.value[0]?.debrief ?? null;
  useEffect(() => {
    let ended = false;
    // The entry of the flight on the desk is stored a moment after it was judged.
    const timer = setTimeout(() => {
      readLogbook(database).then(
        (read) => void (ended || (reading.value = read)),
        () => void (ended || (reading.value = 'failed')),
      );
    }, 150);
    return () => {
      ended = true;
      clearTimeout(timer);
    };
  }, [database, debrief, reading]);
  const read = reading.value;
  if (read === null) return <p class="quiet">Opening the logbook</p>;
  if (read === 'failed') return <p>The stored flights cannot be read just now. Nothing was deleted.</p>;
  const lines = read.lines.filter(({ flight }) => shown.value === 'all' || (shown.value === 'rehearsal' ? flight.kind !== 'flight' : flight.kind === 'flight'));
  const totals = logbookTotals(lines.flatMap(({ entry }) => (entry === null ? [] : [entry])));
  const unjudged = lines.filter(({ entry }) => entry === null).length;
  return (
    <div class="logbook">
      <SeasonTable />
      <div class="row">
        <ChoiceField
          label="Show"
          value={shown.value}
          choices={[
            { value: 'flight', label: 'Flights' },
            { value: 'rehearsal', label: 'Rehearsals' },
            { value: 'all', label: 'All' },
          ]}
          onChange={(next) => (shown.value = next)}
        />
        <button
          type="button"
          disabled={lines.length === 0}
          onClick={() => void handOverFile({ name: 'quillwind-logbook.csv', type: 'text/csv', content: logbookCsv(lines) })}
        >
          Export as CSV
        </button>
      </div>
      <p>
        {totals.flights} {totals.flights === 1 ? 'flight' : 'flights'}, {formatNumber(totals.flownSeconds / 3600, 1)} h, {units.mass.text(totals.oilKilograms)}{' '}
        of oil, {totals.wordsComplete} {totals.wordsComplete === 1 ? 'word' : 'words'} whole,{' '}
        {totals.wordsRated === 0 ? 'none rated from the ground.' : `${totals.wordsRead} of ${totals.wordsRated} rated from the ground did read.`}
        {unjudged > 0 ? ` ${unjudged} more ${unjudged === 1 ? 'was' : 'were'} never debriefed and ${unjudged === 1 ? 'is' : 'are'} not counted.` : ''}
      </p>
      {read.damagedNames.length > 0 && <p class="small">Damaged and not shown: {read.damagedNames.join(', ')}.</p>}
      {lines.length > 0 && (
        <div class="scrolls" tabIndex={0} role="region" aria-label="Flights">
          <table class="figures">
            <thead>
              <tr>
                <th scope="col">When</th>
                <th scope="col">Word</th>
                <th scope="col">Ship</th>
                <th scope="col" class="number">
                  Hours
                </th>
                <th scope="col" class="number">
                  Oil, {units.mass.unit}
                </th>
                <th scope="col" class="number">
                  Strokes
                </th>
                <th scope="col">Read</th>
              </tr>
            </thead>
            <tbody>
              {lines.map(({ flight, entry }) => (
                <tr key={flight.id}>
                  <th scope="row">
                    <a href={hashFromRoute({ screen: 'debrief', jobId: flight.jobId })}>{clockText(flight.startedAtMilliseconds, timeZone, { day: 'date' })}</a>
                  </th>
                  <td>{entry === null ? flight.name : entry.text}</td>
                  <td>{entry?.shipName ?? '\u2013'}</td>
                  <td class="number">{entry === null ? '\u2013' : formatNumber(entry.flownSeconds / 3600, 2)}</td>
                  <td class="number">{entry === null ? '\u2013' : units.mass.number(entry.oilKilograms)}</td>
                  <td class="number">{entry === null ? '\u2013' : `${entry.strokesFlown} of ${entry.strokesPlanned}`}</td>
                  <td>{entry?.read ?? 'not debriefed'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}
