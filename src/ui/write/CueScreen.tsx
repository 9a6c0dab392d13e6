import { type ReadonlySignal, useComputed, useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Spoken } from '../../app/flight/voice/speaker-types.ts';
import type { Touch } from '../../app/flight/touch.ts';
import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { Cues } from '../../core/guidance/cues.ts';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { lazily } from '../lazily.tsx';
import type { AheadDrawingProps } from './AheadDrawing.tsx';
import { Cautions } from './Cautions.tsx';
import { CueValue } from './CueValue.tsx';
import { Figures } from './Figures.tsx';
import { FormationBand } from './FormationBand.tsx';
import type { UnitText } from '../../core/text/unit-text.ts';
import { countdownFigures, type Glance, glanceFrom, glanceSentence } from './glance.ts';
import { LineMark } from './LineMark.tsx';
import { SmokeBand } from './SmokeBand.tsx';
import { Touches } from './Touches.tsx';
import { type StripLetter, WordStrip } from './WordStrip.tsx';
import { knotsFromMetresPerSecond } from '../../core/units/quantity.ts';
import type { NoticeProps } from './Notice.tsx';
import { TurnBlock } from './TurnBlock.tsx';

/** Fetched once the first cue stands: the figures that steer come before the picture and the line about the word. */
const AheadDrawing = lazily(async () => (await import('./AheadDrawing.tsx')).AheadDrawing, EmptyAhead);
const HungLine = lazily(async () => (await import('./HungLine.tsx')).HungLine, EmptyHungLine);

const Notice = lazily(async () => (await import('./Notice.tsx')).Notice, BareNotice);

/** The one word, until its reasons are there. */
function BareNotice({ shown, title }: NoticeProps): VNode | null {
  return shown.value ? <strong class="write-notice-title">{title}</strong> : null;
}

function EmptyAhead({ onTouch }: AheadDrawingProps): VNode {
  return <div class="write-ahead" onClick={onTouch} />;
}

function EmptyHungLine(): VNode {
  return <p class="write-word" />;
}

/** What the cue screen shows and calls; a flight being flown fits. */
export interface CueScreenProps {
  readonly cues: ReadonlySignal<Cues>;
  /** As chosen on this tablet; null until they are known. */
  readonly units: ReadonlySignal<UnitText | null>;
  readonly view: ReadonlySignal<FlightView | null>;
  readonly undoableTouch: ReadonlySignal<FlightFact['kind'] | null>;
  readonly smokeMarked: ReadonlySignal<'on' | 'off' | null>;
  readonly begun: ReadonlySignal<boolean>;
  /** Seconds until a timed datum; null when there is none ahead. */
  readonly datumInSeconds: ReadonlySignal<number | null>;
  /** Whether the pilot flies by ear alone: the screen is dark but for the smoke and what stops the flight. */
  readonly byEar: ReadonlySignal<boolean>;
  readonly onEars: (byEar: boolean) => void;
  /** The text, letter by letter, with the strokes that write each. */
  readonly letters: readonly StripLetter[];
  /** How long the cued and the marked smoke have differed; null while they agree. */
  readonly smokeDiffersSeconds: ReadonlySignal<number | null>;
  /** What is being said. */
  readonly spoken: ReadonlySignal<Spoken>;
  readonly cautions: ReadonlySignal<readonly string[]>;
  /** REHEARSAL, REPLAY; empty for a flight. */
  readonly kindWord: string;
  readonly onTouch: (touch: Touch) => void;
  /** Whether the screen was off, or else the clock was set. */
  readonly onClockAnswered: (slept: boolean) => void;
  readonly onNewHack: () => void;
  readonly onLeave: () => void;
  /** The word was touched: another stroke is to come next. */
  readonly onWord: () => void;
  /** Where that is chosen; null while it is not. */
  readonly chooser: VNode | null;
  /** What a flight at the desk has beside the cues; null in the air. */
  readonly deskControls: VNode | null;
  /** What the ground says, in words; it acts on nothing. */
  readonly groundCalls: VNode | null;
  /** The fuel that is left, beside the oil. */
  readonly fuel: VNode;
}

/** Phases in which there is nothing to steer by: the words fill the screen. */
const NOTICED: readonly Cues['phase'][] = ['standby', 'hold', 'finished', 'no-cue'];

/** Hands and valves need a moment; later than this a difference is an order. */
const DIFFERS_SECONDS = 2;
/** By night a touch on the heading dims the screen by one step, the last one back to full (the style sheet has the steps). */
const DIM_STEPS = 4;
/** Known no better than this, one standard deviation, the wind is the plan's. */
const PLAN_SIGMA = 2.5;

/** What is known of the wind: the plan's until it was measured, then within how much of the unit it is told in, two standard deviations. */
function windDoubt(windText: string, sigma: number | null, units: UnitText | null): string {
  if (windText === '' || sigma === null) return '';
  return sigma > PLAN_SIGMA ? ' plan' : ` ±${Math.ceil(units?.speed.of(2 * sigma) ?? knotsFromMetresPerSecond(2 * sigma))}`;
}

/** Until a timed datum, and how late the first smoke of a ship alone will be. */
function datumText(inSeconds: number | null, lateSeconds: number | null): string {
  return [inSeconds === null ? '' : `in ${countdownFigures(inSeconds)}`, (lateSeconds ?? 0) > 1 ? `${lateSeconds} s late` : '']
    .filter((part) => part !== '')
    .join(', ');
}

/** The screen of a flight: what to do now, at a glance of half a second. Nothing on it waits for a touch. */
export function CueScreen(props: CueScreenProps): VNode {
  const {
    cues,
    view,
    units,
    undoableTouch,
    smokeMarked,
    begun,
    datumInSeconds,
    spoken,
    byEar,
    onEars,
    letters,
    smokeDiffersSeconds,
    cautions,
    kindWord,
    onTouch,
    onClockAnswered,
    onNewHack,
    onLeave,
    onWord,
    chooser,
    deskControls,
    groundCalls,
    fuel,
  } = props;
  const glance = useComputed(() => glanceFrom(cues.value, units.value));
  const of = <Name extends keyof Glance>(name: Name): ReadonlySignal<Glance[Name]> => useComputed(() => glance.value[name]);
  const phase = of('phase');
  const smoking = useComputed(() => glance.value.smoke === 'on');
  const sentence = useComputed(() => glanceSentence(glance.value));
  const tone = of('tone');
  const inFormation = useComputed(() => cues.value.part !== null);
  // A ship of a formation is steered even when it holds or is done.
  const noticed = useComputed(() => NOTICED.includes(glance.value.phase) && glance.value.headingText === '');
  const dimStep = useSignal(0);
  const hung = useComputed(() => view.value?.standing?.kind === 'found-wind');
  useEffect(() => {
    document.documentElement.dataset['inFlight'] = '';
    return () => {
      delete document.documentElement.dataset['inFlight'];
    };
  }, []);
  return (
    <section
      class="write"
      aria-label="Cues"
      data-phase={phase}
      data-tone={tone}
      data-noticed={noticed.value ? 'yes' : 'no'}
      data-ears={byEar.value ? 'yes' : 'no'}
      data-dim={dimStep}
    >
      <header class="write-head">
        <CueValue cues={cues} name="phase" class="write-title">
          {of('title')}
        </CueValue>
        <CueValue cues={cues} name="letter" class="write-letter" touch={{ label: 'Choose which stroke comes next', onTouch: onWord }}>
          <WordStrip letters={letters} view={view} strokeIndex={useComputed(() => cues.value.strokeNumber - 1)} />
        </CueValue>
        <CueValue cues={cues} name="stroke" class="write-count">
          {of('strokeText')}
        </CueValue>
        <span class="write-why">{of('because')}</span>
        {deskControls}
        {kindWord !== '' && <span class="write-kind">{kindWord}</span>}
        <CueValue cues={cues} name="ship" class="write-ship">
          {useComputed(() => cues.value.shipName)}
        </CueValue>
        <FormationBand cues={cues} units={units} />
      </header>
      <CueValue
        cues={cues}
        name="heading"
        class="write-heading"
        touch={{ label: 'Dim the screen', onTouch: () => void (dimStep.value = (dimStep.value + 1) % DIM_STEPS) }}
      >
        <span class="write-heading-use" data-use={of('headingUse')}>
          {of('headingUse')}
        </span>
        <Figures text={of('headingText')} places={3} />
        <span class="write-heading-unit">°M</span>
      </CueValue>
      <CueValue cues={cues} name="turn" class="write-turn-cue">
        <TurnBlock turn={of('turn')} bankText={of('bankText')} />
      </CueValue>
      <AheadDrawing view={view} smoking={smoking} onTouch={() => onEars(true)} />
      {byEar.value && (
        <div class="write-dark" onClick={() => onEars(false)}>
          by ear · touch to look
        </div>
      )}
      <CueValue cues={cues} name="cross-track" class="write-line-cue">
        <LineMark side={of('lineSide')} text={of('lineText')} share={of('lineShare')} />
      </CueValue>
      <CueValue cues={cues} name="smoke" class="write-smoke-cue">
        <SmokeBand
          smoke={of('smoke')}
          countdownUse={of('countdownUse')}
          countdownText={of('countdownText')}
          lastSeconds={of('lastSeconds')}
          differs={useComputed(() => (smokeDiffersSeconds.value ?? 0) > DIFFERS_SECONDS)}
          marked={smokeMarked}
        />
      </CueValue>
      <div class="write-notice">
        <Notice
          shown={noticed}
          cues={cues}
          view={view}
          units={units}
          title={of('title')}
          smokeMarked={smokeMarked}
          word={letters.map(({ character }) => character).join('')}
        />
      </div>
      <Cautions cautions={cautions} />
      {groundCalls}
      <HungLine view={view} units={units} />
      <dl class="write-facts">
        <Fact word="datum">{useComputed(() => datumText(datumInSeconds.value, begun.value || inFormation.value ? null : cues.value.lateSeconds))}</Fact>
        <Fact word="next" soon={of('nextSoon')}>
          {of('nextText')}
        </Fact>
        <Fact word="fix">
          <CueValue cues={cues} name="fix-age">
            {of('fixText')}
          </CueValue>
        </Fact>
        <Fact word="wind">
          <CueValue cues={cues} name="wind">
            {useComputed(() => `${glance.value.windText}${windDoubt(glance.value.windText, view.value?.windSigmaMetresPerSecond ?? null, units.value)}`)}
          </CueValue>
        </Fact>
        <Fact word="oil">
          <CueValue cues={cues} name="oil">
            {of('oilText')}
          </CueValue>
        </Fact>
        {fuel}
      </dl>
      <CueValue cues={cues} name="bank" />
      <CueValue cues={cues} name="heading-true" />
      <CueValue cues={cues} name="smoke-in" />
      <CueValue cues={cues} name="held" />
      <div data-cue="said" data-value={useComputed(() => spoken.value.text)} data-seconds={useComputed(() => spoken.value.seconds.toFixed(2))} />
      <p class="visually-hidden" role="status">
        {sentence}
      </p>
      <Touches
        phase={phase}
        begun={begun}
        hung={hung}
        placeDoubted={useComputed(() => view.value?.placeDoubted === true)}
        askedSeconds={useComputed(() => view.value?.askedSeconds ?? null)}
        onClockAnswered={onClockAnswered}
        undoableTouch={undoableTouch}
        inFormation={inFormation}
        onNewHack={onNewHack}
        onTouch={onTouch}
        onLeave={onLeave}
      />
      {chooser}
    </section>
  );
}

interface FactProps {
  readonly word: string;
  readonly children: ComponentChildren;
  readonly soon?: ReadonlySignal<boolean>;
}

function Fact({ word, children, soon }: FactProps): VNode {
  return (
    <div class={`write-fact write-fact-${word}`} data-soon={soon?.value === true ? 'yes' : undefined}>
      <dt>{word}</dt>
      <dd>{children}</dd>
    </div>
  );
}
