import type { VNode } from 'preact';
import type { Account } from '../../../core/days/account.ts';
import type { Job } from '../../../core/job/job.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { DemoMark } from '../../drawing/DemoMark.tsx';
import { clockText } from '../../words/clock.ts';
import { useUnitText } from '../../fields/units-context.ts';
import { kilogramsFromPounds } from '../../../core/units/quantity.ts';
import { litresFromGallons } from '../../../core/units/quantity.ts';

const OWED = { words: 'the words in the sky', pictures: 'pictures', film: 'a film' } as const;

/** One page of account: who owes what for which flights, and what they took. */
export function AccountSheet({ job, account }: { readonly job: Job; readonly account: Account }): VNode {
  const units = useUnitText();
  const { booking, site } = job;
  const day = (time: string | null): string => (time === null ? 'no' : clockText(Date.parse(time), site.timeZone, { day: 'date' }));
  const money = (amount: number | null): string =>
    amount === null
      ? 'not entered'
      : `${formatNumber(amount, Number.isInteger(amount) ? 0 : 2)} ${booking.feeCurrency === '' ? '(currency not entered)' : booking.feeCurrency}`;
  return (
    <article class="account-sheet paper-sheet" aria-label="Account">
      <h1>Account: {job.name}</h1>
      <DemoMark job={job} />
      <table class="figures">
        <tbody>
          <tr>
            <th scope="row">Client</th>
            <td>{booking.client === '' ? 'not entered' : booking.client}</td>
          </tr>
          <tr>
            <th scope="row">Fee</th>
            <td>{money(booking.feeAmount)}</td>
          </tr>
          <tr>
            <th scope="row">For</th>
            <td>{booking.owed.length === 0 ? 'not entered' : booking.owed.map((kind) => OWED[kind]).join(', ')}</td>
          </tr>
          <tr>
            <th scope="row">Sent</th>
            <td>{day(booking.sentTime)}</td>
          </tr>
          <tr>
            <th scope="row">Paid</th>
            <td>{day(booking.paidTime)}</td>
          </tr>
          {account.costAmount > 0 && (
            <tr>
              <th scope="row">Cost of days lost</th>
              <td>{money(account.costAmount)}</td>
            </tr>
          )}
        </tbody>
      </table>
      <h2>Flights</h2>
      {account.lines.length === 0 ? (
        <p>No real flight of this job was debriefed on this device. Rehearsals are no flights.</p>
      ) : (
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Word</th>
              <th scope="col">Hours</th>
              <th scope="col">Oil, {units.mass.unit}</th>
              <th scope="col">Fuel, {units.volume.unit}</th>
            </tr>
          </thead>
          <tbody>
            {account.lines.map(({ flightId, startedAtMilliseconds, text, hours, oilPounds, fuelGallons }) => (
              <tr key={flightId}>
                <th scope="row">{clockText(startedAtMilliseconds, site.timeZone, { day: 'date' })}</th>
                <td>{text}</td>
                <td class="number">{formatNumber(hours, 2)}</td>
                <td class="number">{units.mass.number(kilogramsFromPounds(oilPounds))}</td>
                <td class="number">{fuelGallons === null ? 'not entered' : units.volume.number(litresFromGallons(fuelGallons), 1)}</td>
              </tr>
            ))}
            <tr>
              <th scope="row">Together</th>
              <td />
              <td class="number">{formatNumber(account.hours, 2)}</td>
              <td class="number">{units.mass.number(kilogramsFromPounds(account.oilPounds))}</td>
              <td class="number">{account.fuelGallons === null ? 'not entered' : units.volume.number(litresFromGallons(account.fuelGallons), 1)}</td>
            </tr>
          </tbody>
        </table>
      )}
      <p class="small">
        Hours from the recorded flights, oil from the smoke that was cued, fuel from the ship{'\u2019'}s own burn. Not an invoice by any country{'\u2019'}s
        rules.
      </p>
    </article>
  );
}
