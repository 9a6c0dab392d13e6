import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import type { JobWind } from '../../../../core/job/job.ts';
import { JOB_LENGTHS } from '../../../../core/job/job-schema.ts';
import { jobLimits } from '../../../../core/job/job-limits.ts';
import { NumberCell } from '../../../fields/NumberCell.tsx';
import { useFieldUnit, useUnitText } from '../../../fields/units-context.ts';
import { metresPerSecondFromKnots } from '../../../../core/units/quantity.ts';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { RemoveHeading } from '../../../fields/RemoveHeading.tsx';
import { useDesk } from '../../desk-context.ts';

/** The winds as rows to type into: height, direction, speed, temperature. */
export function WindRows(): VNode {
  const { editor } = useDesk();
  const { winds } = editor.job.value;
  const units = useUnitText();
  const { unit: heightUnit, label: feet } = useFieldUnit('ft');
  const { unit: speedUnit, label: knots } = useFieldUnit('kt');
  const { unit: temperatureUnit } = useFieldUnit('\u00b0C');
  const change = (index: number, part: Partial<JobWind>): void =>
    editor.edit(`wind row ${index + 1}`, (job) => ({ ...job, winds: job.winds.map((row, at) => (at === index ? { ...row, ...part } : row)) }));
  return (
    <div class="wind-rows">
      <table>
        <caption>Winds typed or taken, true degrees</caption>
        <thead>
          <tr>
            <th scope="col">Height, {heightUnit}</th>
            <th scope="col">From, {'\u00b0'}</th>
            <th scope="col">Speed, {speedUnit}</th>
            <th scope="col">{temperatureUnit}</th>
            <RemoveHeading />
          </tr>
        </thead>
        <tbody>
          {winds.map((row, index) => (
            <tr key={index}>
              <td>
                <NumberCell
                  label={feet(`Row ${index + 1}, height in feet`)}
                  value={row.altitudeFeet}
                  limits={jobLimits('winds.altitudeFeet')}
                  unit="ft"
                  onChange={(altitudeFeet) => change(index, { altitudeFeet })}
                />
              </td>
              <td>
                <NumberCell
                  label={`Row ${index + 1}, direction it blows from; empty is light and variable`}
                  value={row.fromDegreesTrue ?? Number.NaN}
                  limits={jobLimits('winds.fromDegreesTrue')}
                  placeholder="light"
                  onChange={(fromDegreesTrue) => change(index, { fromDegreesTrue })}
                  onEmpty={() => change(index, { fromDegreesTrue: null, speedKnots: 0 })}
                />
              </td>
              <td>
                {row.fromDegreesTrue === null ? (
                  <span class="quiet">under {units.speed.number(metresPerSecondFromKnots(LIGHT_KNOTS))}</span>
                ) : (
                  <NumberCell
                    label={knots(`Row ${index + 1}, speed in knots`)}
                    value={row.speedKnots}
                    limits={jobLimits('winds.speedKnots')}
                    unit="kt"
                    onChange={(speedKnots) => change(index, { speedKnots })}
                  />
                )}
              </td>
              <td>
                <NumberCell
                  label={`Row ${index + 1}, temperature; empty is not known`}
                  value={row.temperatureCelsius ?? Number.NaN}
                  unit={'\u00b0C'}
                  limits={jobLimits('winds.temperatureCelsius')}
                  placeholder={'\u2013'}
                  onChange={(temperatureCelsius) => change(index, { temperatureCelsius })}
                  onEmpty={() => change(index, { temperatureCelsius: null })}
                />
              </td>
              <td>
                <RemoveButton
                  label={`Remove row ${index + 1}`}
                  onPress={() => editor.edit('a wind row less', (job) => ({ ...job, winds: job.winds.filter((_, at) => at !== index) }))}
                />
              </td>
            </tr>
          ))}
          {winds.length < JOB_LENGTHS.winds && <NewWind key={winds.length} />}
        </tbody>
      </table>
      <p class="small quiet">A new height counts once its direction and speed are typed: nothing stands there before somebody says it.</p>
    </div>
  );
}

const NOTHING = { altitudeFeet: Number.NaN, fromDegreesTrue: Number.NaN, speedKnots: Number.NaN };
/** Light and variable: a wind of unknown direction is under this. */
const LIGHT_KNOTS = 5;

/** A height is added by typing it: it becomes a row when height, direction and speed are there, or when it is said to be light. */
function NewWind(): VNode {
  const { editor } = useDesk();
  const [typed, setTyped] = useState(NOTHING);
  const { label: feet } = useFieldUnit('ft');
  const { label: knots } = useFieldUnit('kt');
  const add = (row: Pick<JobWind, 'altitudeFeet' | 'fromDegreesTrue' | 'speedKnots'>): void =>
    editor.edit('a wind row', (job) => ({ ...job, winds: [...job.winds, { ...row, temperatureCelsius: null }] }));
  const set = (part: Partial<typeof NOTHING>): void => {
    const next = { ...typed, ...part };
    if (Object.values(next).every(Number.isFinite)) add(next);
    else setTyped(next);
  };
  const cell = (field: keyof typeof NOTHING, label: string, placeholder: string, unit?: string): VNode => (
    <NumberCell
      label={`New height, ${label}`}
      value={typed[field]}
      limits={jobLimits(`winds.${field}`)}
      placeholder={placeholder}
      settled
      onChange={(value) => set({ [field]: value })}
      onEmpty={() => set({ [field]: Number.NaN })}
      {...(unit === undefined ? {} : { unit })}
    />
  );
  const { altitudeFeet, fromDegreesTrue, speedKnots } = typed;
  const mayBeLight = Number.isFinite(altitudeFeet) && !Number.isFinite(fromDegreesTrue) && !(speedKnots >= LIGHT_KNOTS);
  return (
    <tr class="new-row">
      <td>{cell('altitudeFeet', feet('in feet'), 'new', 'ft')}</td>
      <td>{cell('fromDegreesTrue', 'direction it blows from', '\u2013')}</td>
      <td>{cell('speedKnots', knots('speed in knots'), '\u2013', 'kt')}</td>
      <td colSpan={2}>
        {mayBeLight && (
          <button
            type="button"
            class="plain"
            onClick={() => add({ altitudeFeet, fromDegreesTrue: null, speedKnots: Number.isFinite(speedKnots) ? speedKnots : 0 })}
          >
            Light
          </button>
        )}
      </td>
    </tr>
  );
}
