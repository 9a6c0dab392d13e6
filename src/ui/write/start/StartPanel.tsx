import { DemoMark } from '../../drawing/DemoMark.tsx';
import { useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { DatumWish, Preflight } from '../../../app/flight/preflight.ts';
import { airPathLengthMetres } from '../../../core/paths/air-path.ts';
import type { ShipPlan } from '../../../core/plan/plan.ts';
import { useUnitText } from '../../fields/units-context.ts';
import { LetterPicture } from '../../drawing/LetterPicture.tsx';
import { counted } from '../../../core/text/counted.ts';
import { formatDuration } from '../../../core/text/number-formats.ts';
import { writtenWords } from '../../../core/job/written-words.ts';
import { planePathFromAir } from '../../drawing/plane-path.ts';
import { lazily } from '../../lazily.tsx';
import { DatumChooser } from './DatumChooser.tsx';
import { EarsChooser } from './EarsChooser.tsx';
import { FlightCautions } from './FlightCautions.tsx';
import { GoSummary } from './GoSummary.tsx';
import { ReadinessList } from './ReadinessList.tsx';
import { ShipChooser } from './ShipChooser.tsx';
import { SourceChooser } from './SourceChooser.tsx';
import { SwitchChooser } from './SwitchChooser.tsx';

// No flight needs the link, so its entries are no part of the script that a flight starts with.
const LinkPanel = lazily(async () => (await import('../../link/LinkPanel.tsx')).LinkPanel, 'Link');

const DRAWING_HEIGHT_PIXELS = 150;
const START_WORDS = { device: 'Start flight', rehearsal: 'Start rehearsal', walking: 'Start walking', recorded: 'Start recording' } as const;
const START_AS = { device: 'Start', rehearsal: 'Start rehearsal', walking: 'Start walking', recorded: 'Start recording' } as const;
const DATUM_WORDS = { 'first-smoke': '', 'at-time': 'at the time', 'time-hack': 'on the hack' } as const;

/** What the button begins: with several ships, which of them this is and when its clock starts. */
export function startWords(source: keyof typeof START_WORDS, shipName: string | null, datum: DatumWish | null): string {
  const when = datum === null ? '' : DATUM_WORDS[datum.kind];
  if (shipName === null) return `${START_WORDS[source]}${datum?.kind === 'time-hack' ? ' on the call' : ''}`;
  if (shipName === '') return START_AS[source];
  return `${START_AS[source]} as ${shipName}${when === '' ? '' : `, ${when}`}`;
}

/** On the ground: what is flown, with what, from when on, and whether everything is ready. */
export function StartPanel({ preflight }: { readonly preflight: Preflight }): VNode {
  const { job, obstacle, source, datum, shipIndex } = preflight;
  const planned = preflight.planned.value;
  const ships = planned?.ok === true ? planned.value.plan.ships : [];
  const ship = ships[shipIndex.value ?? 0];
  return (
    <section class="write-ground">
      <header class="write-ground-head">
        <h1>Write {writtenWords(job)}</h1>
        <p class="quiet">{job.name}</p>
        <DemoMark job={job} />
      </header>
      <div class="write-ground-columns">
        <div class="write-ground-column">
          <ReadinessList preflight={preflight} />
        </div>
        <div class="write-ground-column">
          <GoSummary preflight={preflight} />
          <FlightCautions preflight={preflight} />
        </div>
      </div>
      {planned === null && <div class="write-ground-waiting" aria-hidden="true" />}
      {ship !== undefined && planned?.ok === true && (
        <WordDrawing
          ships={shipIndex.value === null ? ships : [ship]}
          letterHeightMetres={planned.value.plan.letterHeightMetres}
          facingRadians={planned.value.plan.frame.facingRadians}
          text={writtenWords(job)}
        />
      )}
      {ship !== undefined && shipIndex.value !== null && <ShipFigures ship={ship} />}
      <div class="write-ground-columns">
        <div class="write-ground-column">
          <SourceChooser preflight={preflight} />
          <SwitchChooser preflight={preflight} />
        </div>
        <div class="write-ground-column">
          <DatumChooser preflight={preflight} />
          <EarsChooser preflight={preflight} />
          <LinkPanel offeredAddress={null} when="in-flight" />
        </div>
      </div>
      <div class="write-ground-start">
        <ShipChooser preflight={preflight} />
        <button type="button" class="main write-start" disabled={obstacle.value !== null} onClick={() => preflight.start()}>
          {startWords(source.value, job.ships.length > 1 ? (job.ships[shipIndex.value ?? -1]?.name ?? '') : null, datum.value)}
        </button>
        <StartHint preflight={preflight} />
      </div>
    </section>
  );
}

function StartHint({ preflight: { obstacle, readiness } }: { readonly preflight: Preflight }): VNode {
  const hint = useComputed(() => {
    if (obstacle.value !== null) return obstacle.value;
    const bad = readiness.checks.value.filter(({ state }) => state === 'bad').map(({ name }) => name.toLowerCase());
    return bad.length === 0 ? '' : `Not ready: ${bad.join(', ')}. See above.`;
  });
  return (
    <p class="write-start-hint" role="status">
      {hint}
    </p>
  );
}

interface WordDrawingProps {
  /** Until one is chosen, all of them write. */
  readonly ships: readonly ShipPlan[];
  readonly letterHeightMetres: number;
  readonly facingRadians: number;
  readonly text: string;
}

function WordDrawing({ ships, letterHeightMetres, facingRadians, text }: WordDrawingProps): VNode {
  const strokes = useMemo(
    () => ships.flatMap(({ legs }) => legs.filter(({ kind }) => kind === 'smoke').map(({ path }) => planePathFromAir(path))),
    [ships.map(({ shipIndex }) => shipIndex).join(), ships[0]],
  );
  return (
    <LetterPicture
      strokes={strokes}
      letterHeightMetres={letterHeightMetres}
      facingRadians={facingRadians}
      shares={null}
      maximumHeightPixels={DRAWING_HEIGHT_PIXELS}
      description={`${text}, as the crowd sees it`}
    />
  );
}

function ShipFigures({ ship }: { readonly ship: ShipPlan }): VNode {
  const strokeCount = ship.legs.filter(({ kind }) => kind === 'smoke').length;
  const seconds = ship.legs.at(-1)?.endSeconds ?? 0;
  const { crowdDistance, mass } = useUnitText();
  const metres = ship.legs.reduce((sum, { path }) => sum + airPathLengthMetres(path), 0);
  return (
    <p class="write-ground-figures">
      {counted(strokeCount, 'stroke')}, {formatDuration(seconds)} from first smoke to last, {crowdDistance.text(metres)}, smoke on for{' '}
      {formatDuration(ship.smokeSeconds)}, {mass.text(ship.oilKilograms)} of oil.
    </p>
  );
}
