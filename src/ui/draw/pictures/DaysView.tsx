import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { bestWindows, DAY_WEIGHTS, type DayWindow, daysOutlook, type HourOutlook } from '../../../core/checks/days-outlook.ts';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import type { Reading } from '../../../core/sky/reading-of.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { clockInRow, clockText, dayText } from '../../words/clock.ts';
import { utcText } from '../../words/zoned-time.ts';
import { useDesk } from '../desk-context.ts';
import { useUnitText } from '../../fields/units-context.ts';
import { metresFromFeet } from '../../../core/units/quantity.ts';
import { metresPerSecondFromKnots } from '../../../core/units/quantity.ts';

/** The days hour by hour: what is known of each, weighed, and the best windows with their reasons. */
export function DaysView(): VNode | null {
  const { settled, sky } = useDesk();
  const [now, its] = [settled.value, sky.value];
  return now === null || its === null ? null : <Days planned={now} sky={its} />;
}

const KINDS = { booked: 'booked', spare: 'kept free', forecast: 'forecast only' } as const;

function Days({ planned, sky }: { readonly planned: PlannedJob; readonly sky: Reading }): VNode {
  const units = useUnitText();
  const { editor } = useDesk();
  const { job } = planned;
  const { timeZone } = job.site;
  const days = useMemo(() => daysOutlook(planned, sky), [planned, sky]);
  const windows = useMemo(() => bestWindows(days, units), [days, units.shearUnit]);
  const take = ({ readMilliseconds, forecast }: HourOutlook): void =>
    editor.edit('the hour', (before) => {
      const its = before.forecasts.find(({ validTime }) => forecast !== null && Date.parse(validTime) === forecast.validMilliseconds);
      const winds = its === undefined ? {} : { winds: its.winds, conditions: its.conditions, windsText: '' };
      return { ...before, readTime: utcText(readMilliseconds), ...winds };
    });
  return (
    <section class="days-view" data-days={days.length}>
      <h3>Days, hour by hour</h3>
      {windows.length > 0 && (
        <ol class="day-best-cells days-best">
          {windows.map((window) => (
            <li key={window.fromMilliseconds}>
              <button type="button" onClick={() => take(window.best)} data-window={window.best.score?.toFixed(0)}>
                {windowText(window, timeZone)}
              </button>
            </li>
          ))}
        </ol>
      )}
      {days.map(({ noonMilliseconds, kind, hours }) => (
        <div key={noonMilliseconds} class="scrolls" role="region" tabIndex={0} aria-label={dayText(noonMilliseconds, timeZone)}>
          <table class="figures days-table">
            <caption>
              {dayText(noonMilliseconds, timeZone)} ({KINDS[kind]})
            </caption>
            <thead>
              <tr>
                <th scope="row">{clockInRow(noonMilliseconds, timeZone).zone}</th>
                {hours.map(({ readMilliseconds }) => (
                  <th key={readMilliseconds} scope="col">
                    {clockInRow(readMilliseconds, timeZone).hours}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              <Row
                title={`Wind, ${units.speed.unit}`}
                hours={hours}
                cell={({ wind }) => (wind === null ? '' : wind.directionKnown ? units.speed.number(metresPerSecondFromKnots(wind.knots)) : 'light')}
              />
              <Row
                title="From, true"
                hours={hours}
                cell={({ wind }) => (wind === null || !wind.directionKnown ? '' : `${formatNumber(wind.fromDegrees)}\u00b0`)}
              />
              <Row
                title={`Shear, ${units.shearUnit.replace('per', 'in')}`}
                hours={hours}
                cell={({ shear }) => (shear === null ? '' : (units.shear(metresPerSecondFromKnots(shear) / metresFromFeet(1000)).split(' ')[0] ?? ''))}
              />
              <Row title="Cloud" hours={hours} cell={({ cloud }) => (cloud === 'not checked' ? '' : cloud)} />
              <Row
                title="Sun off the word"
                hours={hours}
                cell={({ sunMarginDegrees, dark }) => (dark ? 'dark' : sunMarginDegrees === null ? '' : `${formatNumber(sunMarginDegrees)}\u00b0`)}
              />
              <Row title="Against it" hours={hours} cell={({ against }) => against.join(', ')} />
              <tr>
                <th scope="row">Weighed</th>
                {hours.map((hour) => (
                  <td key={hour.readMilliseconds} class="number">
                    {hour.score === null ? (
                      '\u2013'
                    ) : (
                      <button
                        type="button"
                        class="plain"
                        onClick={() => take(hour)}
                        aria-label={`${formatNumber(hour.score)}: read at ${clockText(hour.readMilliseconds, timeZone, { day: 'date' })}`}
                      >
                        {formatNumber(hour.score)}
                      </button>
                    )}
                  </td>
                ))}
              </tr>
            </tbody>
          </table>
        </div>
      ))}
      <p class="small quiet">
        Of 100, each hour loses {DAY_WEIGHTS.windPerKnot} for a knot of wind over {DAY_WEIGHTS.windFromKnots}, {DAY_WEIGHTS.shearPerKnot} for a knot of shear in
        1,000 ft, {DAY_WEIGHTS.partlyHidden} where cloud hides parts, and half of what the facing loses to sun, crowd and wind. A judgement, not a forecast.
        Winds stand for three hours around theirs; what nobody looked up is left blank and weighs nothing.
      </p>
    </section>
  );
}

function Row({ title, hours, cell }: { readonly title: string; readonly hours: readonly HourOutlook[]; readonly cell: (hour: HourOutlook) => string }): VNode {
  return (
    <tr>
      <th scope="row">{title}</th>
      {hours.map((hour) => (
        <td key={hour.readMilliseconds} class="number">
          {cell(hour)}
        </td>
      ))}
    </tr>
  );
}

function windowText({ fromMilliseconds, toMilliseconds, best, reasons }: DayWindow, timeZone: string): string {
  const from = clockText(fromMilliseconds, timeZone, { day: 'weekday' });
  const span = fromMilliseconds === toMilliseconds ? from : `${from} to ${clockText(toMilliseconds, timeZone)}`;
  return `${span}, best ${clockText(best.readMilliseconds, timeZone)}: ${reasons.join(', ')}`;
}
