import './office/booking.css';
import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { BOOKING_LENGTHS } from '../../../core/job/booking-schema.ts';
import { crowdEyes } from '../../../core/job/crowd-place.ts';
import type { JobViewingPlace } from '../../../core/job/job.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import { formatLatitude, formatLongitude, formatNumber } from '../../../core/text/number-formats.ts';
import { typedPosition } from '../../../core/text/typed-position.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { RemoveButton } from '../../fields/RemoveButton.tsx';
import { RemoveHeading } from '../../fields/RemoveHeading.tsx';
import { useDesk } from '../desk-context.ts';
import { useFieldUnit } from '../../fields/units-context.ts';

/** Other places where people look from, each with its weight; the text is hung for the weighted middle of all. */
export function ViewingPlacesEntry(): VNode {
  const { label: feet } = useFieldUnit('ft');
  const { editor } = useDesk();
  const job = editor.job.value;
  const { viewingPlaces, site } = job;
  const put = (name: string, next: (before: readonly JobViewingPlace[]) => readonly JobViewingPlace[]): void =>
    editor.edit(name, (before) => ({ ...before, viewingPlaces: next(before.viewingPlaces) }));
  const change = (index: number, part: Partial<JobViewingPlace>): void =>
    put(`viewing place ${index + 1}`, (before) => before.map((each, at) => (at === index ? { ...each, ...part } : each)));
  const eyes = crowdEyes(job);
  return (
    <div class="viewing-places">
      <h3>Other viewing places</h3>
      {viewingPlaces.length > 0 && (
        <table class="entry-rows">
          <caption class="visually-hidden">Viewing places and their weights</caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Weight</th>
              <th scope="col">{feet('Elevation, ft')}</th>
              <RemoveHeading />
            </tr>
          </thead>
          <tbody>
            <tr>
              <td>
                {site.name === '' ? 'The site' : site.name}
                <span class="small quiet"> {sharePercent(eyes[0]?.share)}</span>
              </td>
              <td>
                <NumberCell
                  label="Weight of the site"
                  value={site.crowdWeight}
                  limits={jobLimits('site.crowdWeight')}
                  onChange={(crowdWeight) => editor.edit('the site\u2019s weight', (before) => ({ ...before, site: { ...before.site, crowdWeight } }))}
                />
              </td>
              <td />
              <td />
            </tr>
            {viewingPlaces.map(({ name, latitudeDegrees, longitudeDegrees, elevationFeet, weight }, index) => (
              <tr key={index}>
                <td>
                  <input
                    aria-label={`Viewing place ${index + 1}, name`}
                    value={name}
                    maxLength={60}
                    placeholder="not entered"
                    onInput={(event) => change(index, { name: event.currentTarget.value })}
                  />
                  <span class="small quiet">
                    {formatLatitude(latitudeDegrees)} {formatLongitude(longitudeDegrees)} {sharePercent(eyes[index + 1]?.share)}
                  </span>
                  {weight > 0 && eyes[index + 1]?.share === 0 && (
                    <span class="fault" role="alert">
                      Farther than 100 km from the site: not weighed. Is the position right?
                    </span>
                  )}
                </td>
                <td>
                  <NumberCell
                    label={`Viewing place ${index + 1}, weight`}
                    value={weight}
                    limits={jobLimits('viewingPlaces.weight')}
                    onChange={(next) => change(index, { weight: next })}
                  />
                </td>
                <td>
                  <NumberCell
                    label={feet(`Viewing place ${index + 1}, elevation in feet; empty takes the site's`)}
                    value={elevationFeet ?? Number.NaN}
                    unit="ft"
                    limits={jobLimits('viewingPlaces.elevationFeet')}
                    placeholder="as the site"
                    onChange={(next) => change(index, { elevationFeet: next })}
                    onEmpty={() => change(index, { elevationFeet: null })}
                  />
                </td>
                <td>
                  <RemoveButton
                    label={`Remove viewing place ${index + 1}`}
                    onPress={() => put('a viewing place less', (before) => before.filter((_, at) => at !== index))}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {viewingPlaces.length < BOOKING_LENGTHS.viewingPlaces && (
        <NewPlace
          key={viewingPlaces.length}
          onNew={(place) => put('a viewing place', (before) => [...before, { ...place, name: '', elevationFeet: null, weight: 1 }])}
        />
      )}
    </div>
  );
}

/** A place is added by its position, pasted in any form, when the entry is left. */
function NewPlace({ onNew }: { readonly onNew: (place: Pick<JobViewingPlace, 'latitudeDegrees' | 'longitudeDegrees'>) => void }): VNode {
  const [text, setText] = useState('');
  const read = text.trim() === '' ? null : typedPosition(text);
  const take = (): void => {
    if (read?.ok === true && Math.abs(read.latitudeDegrees) <= 85) onNew({ latitudeDegrees: read.latitudeDegrees, longitudeDegrees: read.longitudeDegrees });
  };
  return (
    <label class="field">
      <span>Position of another viewing place</span>
      <input
        value={text}
        autocomplete="off"
        placeholder="pasted in any form"
        aria-invalid={read !== null && !read.ok ? 'true' : undefined}
        onInput={(event) => setText(event.currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
        }}
      />
      {read !== null && (
        <span class={read.ok ? 'small quiet' : 'fault'} role="status">
          {read.ok ? `= ${formatLatitude(read.latitudeDegrees)} ${formatLongitude(read.longitudeDegrees)}` : read.reason}
        </span>
      )}
    </label>
  );
}

const sharePercent = (share = 0): string => `${formatNumber(100 * share)} % of the crowd`;
