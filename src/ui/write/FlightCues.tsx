import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { FlightHere } from '../../app/flight/flight-here.ts';
import { soon } from '../../app/soon.ts';
import { useApplication } from '../application-context.ts';
import { lazily, Nothing } from '../lazily.tsx';
import { CueScreen } from './CueScreen.tsx';
import type { StripLetter } from './WordStrip.tsx';
import { NEW_HACK_SECONDS } from './Touches.tsx';

/** Fetched after the cues stand: a flight shows its first cue without them. */
const LinkNotices = lazily(async () => (await import('../link/LinkNotices.tsx')).LinkNotices, 'What the link says');
const FuelLeft = lazily(async () => (await import('./FuelLeft.tsx')).FuelLeft, Nothing);
const FormationHung = lazily(async () => (await import('./FormationHung.tsx')).FormationHung, 'Where the word hangs');
const StrokeChooser = lazily(async () => (await import('./StrokeChooser.tsx')).StrokeChooser, Nothing);
const DeskControls = lazily(async () => (await import('./DeskControls.tsx')).DeskControls, 'The desk');

const KIND_WORDS = { device: '', rehearsal: 'REHEARSAL', walking: 'WALKING REHEARSAL', recorded: 'RECORDING' } as const;

/** The cue screen of a flight of this page. */
export function FlightCues({ flight }: { readonly flight: FlightHere }): VNode {
  const { database, flightDesk, go, link } = useApplication();
  const state = flight.state();
  const choosing = useSignal(false);
  const { units } = flight;
  useEffect(() => soon(async () => (await import('../../app/flight/tell-units.ts')).tellUnits(database, units)), []);
  return (
    <>
      <CueScreen
        cues={flight.cues}
        view={flight.view}
        units={units}
        undoableTouch={flight.undoableTouch}
        smokeMarked={flight.smokeMarked}
        begun={flight.begun}
        datumInSeconds={flight.datumInSeconds}
        letters={lettersOf(flight)}
        smokeDiffersSeconds={flight.smokeDiffersSeconds}
        spoken={flight.spoken}
        byEar={flight.byEar}
        onEars={flight.chooseEars}
        cautions={flight.cautions}
        kindWord={KIND_WORDS[flight.source]}
        deskControls={flight.speed === null ? null : <DeskControls flight={flight} speed={flight.speed} />}
        groundCalls={
          <>
            {link.settings.value?.on === true && <LinkNotices link={link} onClose={flight.sayClose} />}
            {state.phase !== 'idle' && state.flight.formation !== null && <FormationHung flight={flight} units={units} />}
          </>
        }
        fuel={<FuelLeft flight={flight} units={units} />}
        onTouch={flight.touch}
        onClockAnswered={flight.answerClock}
        onNewHack={() => flight.newHack(NEW_HACK_SECONDS)}
        onWord={() => (choosing.value = !choosing.value && flight.cues.value.smoke === 'off')}
        chooser={choosing.value ? <StrokeChooser flight={flight} onClose={() => (choosing.value = false)} /> : null}
        onLeave={() => {
          flightDesk.leave();
          go({ screen: 'debrief', jobId: flight.jobId });
        }}
      />
      {/* For whoever watches the storage: what is on the disk by now. */}
      <span hidden data-log-confirmed={flight.log.confirmedSequence} data-flight={flight.flightId} />
    </>
  );
}

/** The setup's strokes by the letters they write, in reading order. */
function lettersOf(flight: FlightHere): StripLetter[] {
  const state = flight.state();
  if (state.phase === 'idle') return [];
  const letters = new Map<number, { character: string; strokeIndexes: number[] }>();
  for (const [index, { letterIndex, character }] of state.flight.setup.strokes.entries()) {
    const letter = letters.get(letterIndex) ?? { character, strokeIndexes: [] };
    letter.strokeIndexes.push(index);
    letters.set(letterIndex, letter);
  }
  return [...letters].sort(([one], [other]) => one - other).map(([, letter]) => letter);
}
