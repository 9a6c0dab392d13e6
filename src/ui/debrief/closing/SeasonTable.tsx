import type { VNode } from 'preact';
import { type Money, seasons } from '../../../core/days/season.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { useApplication } from '../../application-context.ts';

/** What each season came to: how its days ended and why, fees, what is paid, what is open, what failures cost. */
export function SeasonTable(): VNode | null {
  const { jobs } = useApplication();
  const state = jobs.state.value;
  const all = state.kind === 'ready' ? seasons(state.jobs) : [];
  if (all.length === 0) return null;
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label="Seasons">
      <table class="figures season-table">
        <caption>Seasons, by the jobs stored here</caption>
        <thead>
          <tr>
            {['Year', 'Jobs', 'Flown', 'Duds', 'Cancelled', 'Postponed', 'Why not', 'Fees', 'Paid', 'Sent, open', 'Cost of days lost'].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {all.map(({ year, jobs: count, outcomes, causes, fees, paid, open, costs }) => (
            <tr key={year} data-season={year}>
              <th scope="row">{year}</th>
              <td class="number">{count}</td>
              <td class="number">{outcomes.flown}</td>
              <td class="number">{outcomes.dud}</td>
              <td class="number">{outcomes.cancelled}</td>
              <td class="number">{outcomes.postponed}</td>
              <td>{causes.map((each) => `${each.cause}${each.count > 1 ? ` (${each.count})` : ''}`).join(', ')}</td>
              <td>{moneyText(fees)}</td>
              <td>{moneyText(paid)}</td>
              <td>{moneyText(open)}</td>
              <td>{moneyText(costs)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Amounts of several currencies are never added up. */
function moneyText(money: Money): string {
  const parts = Object.entries(money).map(
    ([currency, amount]) => `${formatNumber(amount, Number.isInteger(amount) ? 0 : 2)} ${currency === '' ? '(no currency)' : currency}`,
  );
  return parts.length === 0 ? '\u2013' : parts.join(', ');
}
