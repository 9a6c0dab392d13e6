import { DemoMark } from '../drawing/DemoMark.tsx';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { GroundPlan } from '../../app/ground/ground-plan.ts';
import { ChoiceField } from '../fields/ChoiceField.tsx';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import { formatBearing } from '../../core/text/number-formats.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { readsValue } from '../words/reads-text.ts';
import { AboveWatch } from './AboveWatch.tsx';
import { CallButtons } from './CallButtons.tsx';
import { useGround } from './ground-context.ts';
import { useGroundSky } from './ground-sky.ts';
import { GroundClock, SetClockFold } from './GroundClock.tsx';
import '../photographs/photographs.css';
import { GroundPhotograph } from './GroundPhotograph.tsx';
import { GroundHung } from './GroundHung.tsx';
import { WIND_WORDS } from './ground-words.ts';
import { LetterRatings } from './LetterRatings.tsx';
import { LinkPanel } from '../link/LinkPanel.tsx';
import { LookPanel } from './LookPanel.tsx';
import { NowNext } from './NowNext.tsx';
import { ObserverNotes } from './ObserverNotes.tsx';
import { ReceiverPanel } from './ReceiverPanel.tsx';
import { ShipList } from './ShipList.tsx';
import { StandingPlace } from './StandingPlace.tsx';
import { SkyWatch } from './SkyWatch.tsx';
import { useUnitText } from '../fields/units-context.ts';

/** The Ground screen once its job is at hand: the clock, where to look, what should be there, and what the eye says. */
export function GroundDeskView({ offeredAddress }: { readonly offeredAddress: string | null }): VNode {
  const { job, plan } = useGround();
  const state = plan.value;
  return (
    <div class="ground" data-reads={state.kind === 'planned' ? readsValue(state.value.window) : undefined}>
      <header class="ground-head">
        <h1>Ground: {writtenWords(job)}</h1>
        <p class="quiet small">{job.name}</p>
        <DemoMark job={job} />
      </header>
      <div class="ground-columns">
        <div class="ground-column">
          <GroundClock />
          <SetClockFold place="above" />
          {state.kind === 'planned' && <PlannedParts plan={state.value} />}
          {state.kind === 'planning' && (
            <p class="quiet ground-waiting" role="status" style={{ '--more-ships': String(job.ships.length - 1) }}>
              Working out the plan
            </p>
          )}
          {state.kind === 'none' && (
            <p class="notice caution" role="alert">
              There is no plan to go by. {state.reason} Notes, the clock and the link work all the same.
            </p>
          )}
          <CallButtons plan={state.kind === 'planned' ? state.value : null} />
          <SetClockFold place="below" />
        </div>
        <div class="ground-column">
          {state.kind === 'planning' && <div class="ground-waiting-sky" style={{ '--letters': String(writtenWords(job).replaceAll(/\s/g, '').length) }} />}
          {state.kind === 'planned' && <RatedLetters plan={state.value} />}
          {state.kind === 'planned' && <WatchedSky plan={state.value} />}
          <GroundHung />
          <GroundPhotograph jobId={job.id} place={job.site} />
          <ObserverNotes />
          <LinkPanel offeredAddress={offeredAddress} when="now" />
          <ReceiverPanel />
        </div>
      </div>
    </div>
  );
}

function PlannedParts({ plan }: { readonly plan: GroundPlan }): VNode {
  const since = useGround().sinceDatumSeconds.value ?? 0;
  return (
    <>
      <LookPanel plan={plan} sinceDatumSeconds={since} />
      <NowNext plan={plan} sinceDatumSeconds={since} />
    </>
  );
}

function RatedLetters({ plan }: { readonly plan: GroundPlan }): VNode {
  return <LetterRatings plan={plan} sinceDatumSeconds={useGround().sinceDatumSeconds.value ?? 0} />;
}

function WatchedSky({ plan }: { readonly plan: GroundPlan }): VNode {
  const units = useUnitText();
  const since = useGround().sinceDatumSeconds.value ?? 0;
  const from = useSignal<'here' | 'above'>('here');
  const sky = useGroundSky(plan);
  const { smokeIs, windIs, wind } = sky.value;
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  return (
    <section class="ground-sky" aria-labelledby="ground-sky-title">
      <h2 id="ground-sky-title">In the sky</h2>
      <ChoiceField
        label="Seen from"
        value={from.value}
        choices={[
          { value: 'here', label: 'Here' },
          { value: 'above', label: 'Above' },
        ]}
        onChange={(next) => (from.value = next)}
      />
      <StandingPlace plan={plan} sinceDatumSeconds={since} />
      {from.value === 'here' ? <SkyWatch plan={plan} sinceDatumSeconds={since} sky={sky} /> : <AboveWatch plan={plan} sinceDatumSeconds={since} sky={sky} />}
      <p class="small">
        {smokeIs === 'told' ? 'The smoke that the ships told they laid' : 'The smoke as the plan lays it; no ship has told of any'}, drifting with{' '}
        {WIND_WORDS[windIs]}, {formatBearing(degreesFromRadians(fromRadians))}° true at {units.speed.text(speedMetresPerSecond)}. Thin lines: the plan.
      </p>
      <ShipList sky={sky} />
    </section>
  );
}
