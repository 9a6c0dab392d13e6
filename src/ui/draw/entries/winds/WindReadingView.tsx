import type { VNode } from 'preact';
import { BOOKING_LENGTHS } from '../../../../core/job/booking-schema.ts';
import type { ReadHour, WindReading } from '../../../../core/winds/wind-reading.ts';
import { formatBearing } from '../../../../core/text/number-formats.ts';
import { clockText } from '../../../words/clock.ts';
import { utcText } from '../../../words/zoned-time.ts';
import { useDesk } from '../../desk-context.ts';
import { useUnitText } from '../../../fields/units-context.ts';
import { metresFromFeet } from '../../../../core/units/quantity.ts';
import { metresPerSecondFromKnots } from '../../../../core/units/quantity.ts';

/** What was understood of a text: hour by hour as a table with its picture, what was not by line; taken only with a touch. */
export function WindReadingView({ reading }: { readonly reading: WindReading }): VNode {
  const units = useUnitText();
  const { editor } = useDesk();
  const { kind, hours, left, notes } = reading;
  const job = editor.job.value;
  const take = (hour: ReadHour): void =>
    editor.edit(`winds of ${hour.place === '' ? kind : hour.place}`, (before) => ({
      ...before,
      windsText: '',
      ...(hour.winds.length > 0 ? { winds: hour.winds } : {}),
      conditions: {
        visibilityStatuteMiles: hour.conditions.visibilityStatuteMiles ?? before.conditions.visibilityStatuteMiles,
        altimeterHectopascals: hour.conditions.altimeterHectopascals ?? before.conditions.altimeterHectopascals,
        clouds: hour.conditions.clouds ?? before.conditions.clouds,
      },
    }));
  const timed = hours.filter(({ validMilliseconds }) => validMilliseconds !== null);
  const keep = (): void =>
    editor.edit('hours of winds', (before) => {
      const fresh = timed.map(({ place, validMilliseconds, issuedMilliseconds, winds, conditions }) => ({
        validTime: utcText(validMilliseconds ?? 0),
        issuedTime: issuedMilliseconds === null ? null : utcText(issuedMilliseconds),
        source: `${kind}${place === '' ? '' : ` ${place}`}`,
        winds: winds.slice(0, 60),
        conditions,
      }));
      const all = [...before.forecasts, ...fresh].toSorted((one, other) => Date.parse(one.validTime) - Date.parse(other.validTime));
      return { ...before, forecasts: all.slice(0, BOOKING_LENGTHS.forecasts) };
    });
  return (
    <div class="wind-reading" data-reading={kind} data-hours={hours.length} data-left={left.length}>
      <p>
        Read as <strong>{kind}</strong>
        {hours.length > 1 ? `, ${hours.length} ${kind === 'bulletin' || kind === 'spot winds' ? 'places' : 'hours'}` : ''}. Look at it before you take it.
      </p>
      {notes.map((note) => (
        <p key={note} class="small">
          {note}
        </p>
      ))}
      {hours.slice(0, 24).map((hour, index) => (
        <section key={index} class="read-hour">
          <h4>
            {hour.place} {hour.validMilliseconds === null ? 'time not said' : clockText(hour.validMilliseconds, job.site.timeZone, { day: 'weekday' })}
          </h4>
          {hour.winds.length > 0 && (
            <div class="read-winds">
              <table class="figures">
                <thead>
                  <tr>
                    <th scope="col">{units.height.unit}</th>
                    <th scope="col">From, true</th>
                    <th scope="col">{units.speed.unit}</th>
                    <th scope="col">{units.temperature.unit}</th>
                  </tr>
                </thead>
                <tbody>
                  {hour.winds.map(({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius }) => (
                    <tr key={altitudeFeet}>
                      <td class="number">{units.height.number(metresFromFeet(altitudeFeet))}</td>
                      <td class="number">{fromDegreesTrue === null ? 'light' : `${formatBearing(fromDegreesTrue)}\u00b0`}</td>
                      <td class="number">
                        {fromDegreesTrue === null
                          ? `under ${units.speed.number(metresPerSecondFromKnots(5))}`
                          : units.speed.number(metresPerSecondFromKnots(speedKnots))}
                      </td>
                      <td class="number">{temperatureCelsius === null ? '' : units.temperature.number(temperatureCelsius)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
              <WindPicture hour={hour} />
            </div>
          )}
          {(hour.conditions.visibilityStatuteMiles !== null || hour.conditions.clouds !== null || hour.conditions.altimeterHectopascals !== null) && (
            <p class="small">
              {hour.conditions.visibilityStatuteMiles === null ? '' : `Visibility ${units.crowdDistance.own(hour.conditions.visibilityStatuteMiles, 1)}. `}
              {hour.conditions.clouds?.map(({ baseFeet, oktas }) => `${oktas}/8 at ${units.height.own(baseFeet)}`).join(', ') ?? 'Cloud not said.'}
              {hour.conditions.clouds?.length === 0 && 'Clear sky.'}
              {hour.conditions.altimeterHectopascals !== null && ` QNH ${units.pressure.text(hour.conditions.altimeterHectopascals)}.`}
            </p>
          )}
          <button type="button" onClick={() => take(hour)}>
            {hour.winds.length > 0 ? 'Plan with these' : 'Take visibility, cloud and altimeter setting'}
          </button>
        </section>
      ))}
      {hours.length > 24 && <p class="small">{hours.length - 24} more are read and not shown.</p>}
      {timed.length > 0 && (
        <button type="button" onClick={keep} disabled={job.forecasts.length >= BOOKING_LENGTHS.forecasts}>
          Keep {timed.length === 1 ? 'this hour' : `these ${timed.length} hours`}
        </button>
      )}
      {left.length > 0 && (
        <div class="fault lines-left" role="status">
          <p>Not understood, and left out:</p>
          <ul>
            {left.slice(0, 12).map(({ lineNumber, text, reason }, index) => (
              <li key={index}>
                line {lineNumber}, <bdi>{`\u201c${text}\u201d`}</bdi>: {reason}
              </li>
            ))}
          </ul>
          {left.length > 12 && <p>and {left.length - 12} more.</p>}
        </div>
      )}
    </div>
  );
}

const PICTURE = { widthPixels: 120, heightPixels: 140, marginPixels: 12 };

/** Each height's wind as a stroke that points where it blows to, as long as it is strong. */
function WindPicture({ hour }: { readonly hour: ReadHour }): VNode {
  const { widthPixels, heightPixels, marginPixels } = PICTURE;
  const heights = hour.winds.map(({ altitudeFeet }) => altitudeFeet);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const strongest = Math.max(10, ...hour.winds.map(({ speedKnots }) => speedKnots));
  const y = (feet: number): number => heightPixels - marginPixels - ((feet - low) / Math.max(1, high - low)) * (heightPixels - 2 * marginPixels);
  const reach = (widthPixels / 2 - marginPixels) / strongest;
  return (
    <svg class="read-picture" width={widthPixels} height={heightPixels} viewBox={`0 0 ${widthPixels} ${heightPixels}`} aria-hidden="true">
      {hour.winds.map(({ altitudeFeet, fromDegreesTrue, speedKnots }) => {
        const to = ((fromDegreesTrue ?? 0) * Math.PI) / 180 + Math.PI;
        const [x, up] = [widthPixels / 2, y(altitudeFeet)];
        return (
          <g key={altitudeFeet}>
            <circle cx={x} cy={up} r="2" />
            {fromDegreesTrue !== null && (
              <path d={`M${x} ${up.toFixed(1)}l${(Math.sin(to) * speedKnots * reach).toFixed(1)} ${(-Math.cos(to) * speedKnots * reach).toFixed(1)}`} />
            )}
          </g>
        );
      })}
    </svg>
  );
}
