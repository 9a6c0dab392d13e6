import { DemoMark } from '../drawing/DemoMark.tsx';
import { lastsText, readsValue } from '../words/reads-text.ts';
import { useMemo } from 'preact/hooks';
import { Fragment, type VNode } from 'preact';
import { placeName } from '../../core/job/crowd-place.ts';
import { placeSights } from '../../core/checks/place-sights.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import { seenFrom, layerPoint } from '../../core/sky/perspective.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { LetterPicture } from '../drawing/LetterPicture.tsx';
import { formatBearing, formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { planePathFromAir } from '../drawing/plane-path.ts';
import { type Briefing, briefClock, briefDay } from './briefing.ts';
import { useUnitText } from '../fields/units-context.ts';

const PICTURE_HEIGHT_PIXELS = 300;
const COMPASS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'];

/** One page for whoever pays: what will be seen, where to look, when, and what may stop it. */
export function ClientSheet({ briefing }: { readonly briefing: Briefing }): VNode {
  const { job, planned } = briefing;
  const { plan, air, readSeconds } = planned;
  const units = useUnitText();
  const strokes = useMemo(
    () => plan.ships.flatMap(({ legs }) => legs.filter(({ kind }) => kind === 'smoke').map(({ path }) => planePathFromAir(path))),
    [plan],
  );
  const look = seenFrom(layerPoint(siteFromAir(plan.frame.middle, air.wind, readSeconds), air.layerAboveSiteMetres), {
    eastMetres: 0,
    northMetres: 0,
    upMetres: 0,
  });
  const azimuth = degreesFromRadians(look.azimuthRadians);
  const side = COMPASS[Math.round(azimuth / 45) % 8];
  return (
    <article class="sheet client-sheet" aria-label="Sheet for the client">
      <header>
        <h2>{job.name}</h2>
        <p>
          {briefDay(briefing)}, {job.site.name === '' ? 'site’s name not entered' : job.site.name}
        </p>
        <DemoMark job={job} />
      </header>
      <LetterPicture
        strokes={strokes}
        letterHeightMetres={plan.letterHeightMetres}
        facingRadians={plan.frame.facingRadians}
        shares={null}
        maximumHeightPixels={PICTURE_HEIGHT_PIXELS}
        description={`${writtenWords(job)}, as it will be seen`}
      />
      <dl>
        <dt>Where to look{job.viewingPlaces.length > 0 && ', from the crowd\u2019s middle'}</dt>
        <dd>
          to the {side} ({formatBearing(azimuth)}°), {formatNumber(degreesFromRadians(look.elevationRadians))}° up: about{' '}
          {formatNumber(Math.max(1, degreesFromRadians(look.elevationRadians) / 10), 1)} fists at arm’s length above the horizon
        </dd>
        {job.viewingPlaces.length > 0 &&
          placeSights(planned, briefing).map(({ name, look: seen, endedBy }, index) => (
            <Fragment key={index}>
              <dt>From {placeName(name, index)}</dt>
              <dd>
                {seen.elevationRadians > 0
                  ? `to the ${COMPASS[Math.round(degreesFromRadians(seen.azimuthRadians) / 45) % 8] ?? ''} (${formatBearing(degreesFromRadians(seen.azimuthRadians))}\u00b0), ${formatNumber(degreesFromRadians(seen.elevationRadians))}\u00b0 up`
                  : 'below the horizon'}
                {endedBy === 'never large enough' && ', too far to be read'}
              </dd>
            </Fragment>
          ))}
        <dt>When</dt>
        <dd>
          the first letter begins at {briefClock(briefing, briefing.datumMilliseconds)}; the whole text stands at{' '}
          {briefClock(briefing, briefing.readMilliseconds)}, after {formatDuration(plan.durationSeconds)} of writing
        </dd>
        <dt>How large</dt>
        <dd>
          letters {units.height.text(plan.letterHeightMetres)} high, the text {units.crowdDistance.text(plan.textWidthMetres, 1)} long,{' '}
          {units.crowdDistance.text(air.layerAboveSiteMetres, 1)} up, written by {plan.ships.length === 1 ? 'one ship' : `${plan.ships.length} ships`}
        </dd>
        <dt>How long it lasts</dt>
        <dd data-figure="reads" data-value={readsValue(briefing.window)}>
          {lastsText(briefing.window)}
        </dd>
        <dt>What may stop it</dt>
        <dd>
          cloud, wind, traffic, a controller’s word or the pilot’s judgement, up to the last minute. Smoke cannot be rubbed out: a broken letter stays broken.
        </dd>
      </dl>
    </article>
  );
}
