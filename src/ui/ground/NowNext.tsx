import { clockInRow } from '../words/clock.ts';
import type { VNode } from 'preact';
import { skyNow, type ShipNow } from '../../core/sky/look-plan.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatBearing } from '../../core/text/number-formats.ts';
import { type LookProps, useGround } from './ground-context.ts';
import { askewWords, readsWords } from '../words/reads.ts';
import { highWords } from '../words/high-words.ts';
import { waitWords } from './ground-words.ts';

/** What every ship should be doing now by the plan, and what comes next. */
export function NowNext({ plan, sinceDatumSeconds }: LookProps): VNode {
  const { job, datum, observerPlace } = useGround();
  const { ships, next } = skyNow(plan.plan, plan.window, sinceDatumSeconds, {
    eye: observerPlace.eye.value,
    wind: plan.air.wind,
    layerAboveSiteMetres: plan.air.layerAboveSiteMetres,
  });
  return (
    <section class="ground-now" aria-labelledby="ground-now-title">
      <h2 id="ground-now-title">Now, by the plan</h2>
      <dl class="figure-rows">
        {ships.map((ship) => (
          <FigureRow
            key={ship.shipIndex}
            label={job.ships[ship.shipIndex]?.name ?? `Ship ${ship.shipIndex + 1}`}
            name={`ship-${ship.shipIndex}`}
            value={ship.doing}
            note={
              ship.doing === 'finished'
                ? undefined
                : `${ship.doing === 'waiting' ? 'there' : 'ship now'} at ${formatBearing(degreesFromRadians(ship.look.azimuthRadians))}\u00b0 true, ${highWords(ship.look.elevationRadians)}`
            }
          >
            {shipWords(ship)}
          </FigureRow>
        ))}
        <FigureRow label="Next" name="next-letter" value={next?.character ?? ''}>
          {next === null ? 'No letter is left' : `${next.character} in ${waitWords(next.inSeconds)}`}
        </FigureRow>
        <WholeText plan={plan} datumMilliseconds={datum.value?.datumMilliseconds ?? Number.NaN} timeZone={job.site.timeZone} />
      </dl>
    </section>
  );
}

interface WholeTextProps extends Pick<LookProps, 'plan'> {
  readonly datumMilliseconds: number;
  readonly timeZone: string;
}

/** From when until when all letters read together. */
function WholeText({ plan: { window }, datumMilliseconds, timeZone }: WholeTextProps): VNode {
  const at = (seconds: number): string => clockInRow(datumMilliseconds + seconds * 1000, timeZone).hours;
  const { zone } = clockInRow(datumMilliseconds, timeZone);
  const { fromSeconds, until, first } = window;
  const notes = [askewWords(window, at), first === null ? '' : `${first.character} is expected to go first`].filter((each) => each !== '');
  return (
    <FigureRow
      label="All of it reads"
      name="reads-until"
      value={until.highSeconds <= fromSeconds ? '' : Math.round(until.lowSeconds)}
      note={notes.length === 0 ? undefined : notes.join('; ')}
    >
      {until.highSeconds <= fromSeconds ? 'at no time, by the plan' : readsWords(fromSeconds, until, at, zone)}
    </FigureRow>
  );
}

function shipWords({ doing, character, smokeChangesInSeconds }: ShipNow): string {
  const seconds = waitWords(smokeChangesInSeconds ?? 0);
  switch (doing) {
    case 'waiting':
      return `begins ${character ?? ''} in ${seconds}`;
    case 'smoke':
      return `writing ${character ?? ''}, smoke off in ${seconds}`;
    case 'between':
      return `no smoke, ${character ?? ''} in ${seconds}`;
    case 'finished':
      return 'finished';
  }
}
