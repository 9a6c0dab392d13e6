import type { VNode } from 'preact';
import { BOOKING_LENGTHS } from '../../../../core/job/booking-schema.ts';
import type { Job } from '../../../../core/job/job.ts';
import { LocalTimeField } from '../../../fields/LocalTimeField.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { clockText } from '../../../words/clock.ts';
import { useDesk } from '../../desk-context.ts';

type Forecast = Job['forecasts'][number];

/** Winds and clouds of several hours and days, each with where it is from and how old it is. */
export function ForecastsEntry(): VNode {
  const { editor } = useDesk();
  const job = editor.job.value;
  const { forecasts, site } = job;
  const put = (name: string, next: (before: readonly Forecast[]) => readonly Forecast[]): void =>
    editor.edit(name, (before) => ({
      ...before,
      forecasts: next(before.forecasts).toSorted((one, other) => Date.parse(one.validTime) - Date.parse(other.validTime)),
    }));
  const change = (forecast: Forecast, part: Partial<Forecast>): void =>
    put('an hour of winds', (before) => before.map((each) => (each === forecast ? { ...each, ...part } : each)));
  return (
    <div class="forecasts-entry">
      <h3>Hours and days</h3>
      {forecasts.map((forecast, index) => {
        const { validTime, issuedTime, source, winds, conditions } = forecast;
        const at = clockText(Date.parse(validTime), site.timeZone, { day: 'weekday' });
        return (
          <details key={index} class="forecast" data-forecast={validTime}>
            <summary>
              {at}
              <span class="small quiet">
                {' '}
                {winds.length} {winds.length === 1 ? 'height' : 'heights'},{' '}
                {conditions.clouds === null ? 'cloud not looked up' : conditions.clouds.length === 0 ? 'no cloud' : 'cloud'},{' '}
                {source === '' ? 'source not entered' : source}
                {issuedTime === null ? '' : `, made ${clockText(Date.parse(issuedTime), 'UTC', { day: 'date' })}`}
              </span>
            </summary>
            <div class="fields">
              <LocalTimeField
                label="Valid at"
                time={validTime}
                timeZone={site.timeZone}
                onChange={(time) => time !== null && change(forecast, { validTime: time })}
              />
              <LocalTimeField label="Made at" time={issuedTime} timeZone={site.timeZone} onChange={(time) => change(forecast, { issuedTime: time })} />
              <TextField label="From" value={source} onInput={(next) => change(forecast, { source: next })} />
            </div>
            <p class="row">
              <button type="button" onClick={() => editor.edit(`winds of ${at}`, (before) => ({ ...before, winds, conditions, windsText: '' }))}>
                Plan with these winds
              </button>
              <RemoveButton label={`Remove the hour ${at}`} onPress={() => put('an hour less', (before) => before.filter((each) => each !== forecast))} />
            </p>
          </details>
        );
      })}
      {forecasts.length < BOOKING_LENGTHS.forecasts && job.winds.length > 0 && (
        <LocalTimeField
          key={forecasts.length}
          label="Keep the winds above for"
          time={null}
          timeZone={site.timeZone}
          onChange={(time) => {
            if (time !== null)
              put('an hour of winds', (before) => [...before, { validTime: time, issuedTime: null, source: '', winds: job.winds, conditions: job.conditions }]);
          }}
        />
      )}
      {forecasts.length === 0 && <p class="small quiet">None yet. Kept for an hour, winds and clouds are weighed in the picture of the days.</p>}
    </div>
  );
}
