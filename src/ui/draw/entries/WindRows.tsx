import type { VNode } from 'preact';
import type { JobWind } from '../../../core/job/job.ts';
import { JOB_LENGTHS } from '../../../core/job/job-schema.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { RemoveButton } from '../../fields/RemoveButton.tsx';
import { useDesk } from '../desk-context.ts';

/** The winds as rows to type into: height, direction, speed, temperature. */
export function WindRows(): VNode {
  const { editor } = useDesk();
  const { winds, layer } = editor.job.value;
  const change = (index: number, part: Partial<JobWind>): void =>
    editor.edit(`wind row ${index + 1}`, (job) => ({ ...job, winds: job.winds.map((row, at) => (at === index ? { ...row, ...part } : row)) }));
  const add = (): void =>
    editor.edit('a wind row', (job) => ({
      ...job,
      winds: [...job.winds, { altitudeFeet: nextAltitude(job.winds, layer.altitudeFeet), fromDegreesTrue: 270, speedKnots: 10, temperatureCelsius: null }],
    }));
  return (
    <div class="wind-rows">
      <table>
        <caption>Winds typed or taken, true degrees</caption>
        <thead>
          <tr>
            <th scope="col">Height, ft</th>
            <th scope="col">From, {'\u00b0'}</th>
            <th scope="col">Speed, kt</th>
            <th scope="col">{'\u00b0C'}</th>
            <th scope="col">
              <span class="visually-hidden">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {winds.map((row, index) => (
            <tr key={index}>
              <td>
                <NumberCell
                  label={`Row ${index + 1}, height in feet`}
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
                  <span class="quiet">under 5</span>
                ) : (
                  <NumberCell
                    label={`Row ${index + 1}, speed in knots`}
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
        </tbody>
      </table>
      <button type="button" onClick={add} disabled={winds.length >= JOB_LENGTHS.winds}>
        Add a height
      </button>
    </div>
  );
}

/** A height no row has yet: the layer's, then 3,000 ft above the highest. */
function nextAltitude(winds: readonly JobWind[], layerFeet: number): number {
  if (!winds.some(({ altitudeFeet }) => altitudeFeet === layerFeet)) return layerFeet;
  return Math.max(...winds.map(({ altitudeFeet }) => altitudeFeet)) + 3000;
}
