import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Cues } from '../../core/guidance/cues.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';
import { useDebrief } from './debrief-context.ts';
import { secondsWords } from './score-words.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { useUnitText } from '../fields/units-context.ts';

/** What the cue screen showed at the player's moment: the log through the same guidance gives the same cues. */
export function CuesShown(): VNode {
  const { desk, player } = useDebrief();
  const cues = useSignal<Cues | null>(null);
  useEffect(() => {
    let asking = false;
    let asked = Number.NaN;
    // One question at a time, always for the newest moment.
    const ask = (): void => {
      const at = player.atMilliseconds.peek();
      if (asking || !Number.isFinite(at) || at === asked) return;
      asking = true;
      asked = at;
      void desk.cuesAt(at).then((answer) => {
        asking = false;
        cues.value = answer;
        ask();
      });
    };
    const endAt = player.atMilliseconds.subscribe(ask);
    const endReplay = desk.replayFraction.subscribe(() => {
      asked = Number.NaN;
      ask();
    });
    return () => {
      endAt();
      endReplay();
    };
  }, [desk, player, cues]);
  const fraction = desk.replayFraction.value;
  const fault = desk.replayFault.value;
  return (
    <section class="cues-shown" aria-label="Cues as they were shown" data-phase={cues.value?.phase ?? ''}>
      <h3>As the pilot saw it</h3>
      {fault !== null && <p class="small">The cues cannot be worked out: {fault}.</p>}
      {fraction !== null && (
        <p class="small quiet" role="status">
          Replaying the log: {Math.floor(fraction * 100)} %
        </p>
      )}
      {cues.value === null ? <p class="quiet small">{fraction === null ? 'No cue was shown then.' : 'Not there yet.'}</p> : <CueLine cues={cues.value} />}
    </section>
  );
}

const PHASES: Readonly<Record<Cues['phase'], string>> = {
  standby: 'Standing by',
  'run-in': 'Run-in',
  stroke: 'On the stroke',
  reposition: 'To the next stroke',
  'go-around': 'Pass again',
  hold: 'Holding',
  finished: 'Finished',
  'no-cue': 'No cue',
};

function CueLine({ cues }: { readonly cues: Cues }): VNode {
  const units = useUnitText();
  const turn = cues.turn === null ? null : cues.turn === 'straight' ? 'Straight' : `Turn ${cues.turn}`;
  const heading = cues.headingMagneticDegrees === null ? '' : ` ${formatBearing(cues.headingMagneticDegrees)}`;
  const bank = cues.bankDegrees === null || cues.bankDegrees === 0 ? '' : `, bank ${formatNumber(cues.bankDegrees)}\u00b0`;
  const smoke =
    cues.smoke === null
      ? null
      : `Smoke ${cues.smoke}${cues.smokeInSeconds === null ? '' : `, ${cues.smoke === 'on' ? 'off' : 'on'} in ${secondsWords(cues.smokeInSeconds)}`}`;
  return (
    <ul class="cue-line">
      <li>
        <strong>{PHASES[cues.phase]}</strong>{' '}
        {cues.character !== null && cues.strokeCount > 0 ? `${cues.character}, stroke ${cues.strokeNumber} of ${cues.strokeCount}` : ''}
      </li>
      {turn !== null && (
        <li>
          {turn}
          {heading}
          {bank}
        </li>
      )}
      {smoke !== null && <li>{smoke}</li>}
      {cues.crossTrackMetres !== null && <li>{acrossWords(cues.crossTrackMetres, units)}</li>}
      {cues.windFromDegrees !== null && cues.windKnots !== null && (
        <li>
          Wind believed {formatBearing(cues.windFromDegrees)}
          {'\u00b0'} true, {units.speed.own(cues.windKnots)}
        </li>
      )}
      <li class="quiet">{cues.because}</li>
    </ul>
  );
}

function acrossWords(metres: number, { height }: UnitText): string {
  return Math.round(height.of(Math.abs(metres))) === 0 ? 'On the line' : `${height.text(Math.abs(metres))} ${metres > 0 ? 'right' : 'left'} of the line`;
}
