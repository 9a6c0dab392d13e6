import './photographs.css';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { LaidPhotograph, PhotographDesk } from '../../app/photographs/photograph-desk.ts';
import { type Photograph, pictureOf } from '../../app/photographs/photograph-shelf.ts';
import type { SpreadingSeen } from '../../core/photograph/spreading.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { RemoveButton } from '../fields/RemoveButton.tsx';
import { clockText } from '../words/clock.ts';
import { PhotographTime } from './PhotographTime.tsx';
import { PlacedPicture } from './PlacedPicture.tsx';
import { RectifiedPicture } from './RectifiedPicture.tsx';
import { TakePhotograph } from './TakePhotograph.tsx';
import { useUnitText } from '../fields/units-context.ts';

export interface PhotographPanelProps {
  readonly desk: PhotographDesk;
  readonly timeZone: string;
  readonly name: string;
  /** Takes what the widths tell of the smoke as a lesson; null where nothing may be learnt. */
  readonly onSpreading: ((seen: SpreadingSeen) => void) | null;
}

/** The photographs of a job: taken, the word laid over each, and what they tell of smoke and wind. */
export function PhotographPanel({ desk, timeZone, name, onSpreading }: PhotographPanelProps): VNode {
  const units = useUnitText();
  const chosen = desk.chosen.value;
  const work = desk.work.value;
  const laid = chosen === null ? undefined : desk.laid.value.get(chosen.id);
  const spreading = desk.spreading();
  const wind = desk.wind();
  return (
    <div class="photographs" data-photographs={desk.photographs.value.length} data-work={work.kind}>
      <p class="small">
        A picture of the word from below is the only witness of the real smoke. It stays on this device as it was taken, goes into its backup, and is sent
        nowhere.
      </p>
      <TakePhotograph onFiles={(files) => void desk.take(files)} />
      {desk.notices.value.map((line) => (
        <p key={line} class="fault" role="alert">
          {line}
        </p>
      ))}
      <ul class="photograph-list">
        {desk.photographs.value.map((photograph) => (
          <li key={photograph.id}>
            <button type="button" class="plain" aria-pressed={chosen?.id === photograph.id} onClick={() => desk.choose(photograph)}>
              {photograph.fileName}, {clockText(photograph.takenAtMilliseconds, timeZone, { seconds: true, day: 'date' })}
              {desk.laid.value.has(photograph.id) ? ', laid' : ''}
            </button>
            <RemoveButton label={`Take out ${photograph.fileName}`} onPress={() => void desk.remove(photograph)} />
          </li>
        ))}
      </ul>
      {chosen !== null && <Chosen desk={desk} photograph={chosen} laid={laid} timeZone={timeZone} name={name} />}
      {work.kind === 'working' && (
        <p role="status">
          {work.words}{' '}
          <button type="button" class="plain" onClick={() => desk.stop()}>
            Stop
          </button>
        </p>
      )}
      {work.kind === 'refused' && (
        <p class="fault" role="alert" data-refused>
          {work.reason}
        </p>
      )}
      <dl class="figure-rows">
        {spreading !== null && (
          <FigureRow
            label="Smoke spreads"
            name="photograph-spreading"
            value={spreading.horizontalSquareMetresPerSecond.toFixed(2)}
            note={`by ${spreading.count} widths of different age, give or take ${formatNumber(spreading.sigmaSquareMetresPerSecond, 1)}`}
          >
            {formatNumber(spreading.horizontalSquareMetresPerSecond, 1)} m²/s
          </FigureRow>
        )}
        {wind !== null && (
          <FigureRow
            label="Wind beyond the one believed"
            name="photograph-wind"
            value={Math.hypot(wind.eastMetresPerSecond, wind.northMetresPerSecond).toFixed(2)}
            note={`by the drift between two pictures; give or take ${units.speed.text(Math.hypot(wind.eastSigma, wind.northSigma), 1)}`}
          >
            {units.speed.text(wind.eastMetresPerSecond, 1)} east, {units.speed.text(wind.northMetresPerSecond, 1)} north
          </FigureRow>
        )}
      </dl>
      {spreading !== null && onSpreading !== null && (
        <button type="button" onClick={() => onSpreading(spreading)}>
          Take the spreading as a lesson
        </button>
      )}
    </div>
  );
}

interface ChosenProps {
  readonly desk: PhotographDesk;
  readonly photograph: Photograph;
  readonly laid: LaidPhotograph | undefined;
  readonly timeZone: string;
  readonly name: string;
}

function Chosen({ desk, photograph, laid, timeZone, name }: ChosenProps): VNode {
  const address = useMemo(() => URL.createObjectURL(pictureOf(photograph)), [photograph.id]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  const busy = desk.work.value.kind === 'working';
  return (
    <section class="photograph-chosen">
      <PhotographTime photograph={photograph} timeZone={timeZone} onTime={(at) => void desk.setTime(photograph, at)} />
      <PlacedPicture
        address={address}
        description={`${photograph.fileName}, a photograph of the word`}
        corners={desk.corners.value}
        lines={laid?.answer.lines ?? []}
        onMove={desk.moveCorner}
      />
      {laid === undefined && <p class="small">Drag the four corners to where the word stands in the picture, roughly.</p>}
      <button type="button" class="main" disabled={busy} onClick={() => void desk.lay()}>
        Lay the word over it
      </button>
      {laid !== undefined && <LaidFigures laid={laid} photograph={photograph} name={name} />}
    </section>
  );
}

function LaidFigures({ laid: { answer }, photograph, name }: { readonly laid: LaidPhotograph; readonly photograph: Photograph; readonly name: string }): VNode {
  const units = useUnitText();
  const { pose, sigma, untold, foundShare, residualHeights, letters } = answer;
  return (
    <>
      <p data-laid>
        <strong>The word lies on the smoke:</strong> {formatNumber(100 * foundShare)} % of it found, {formatNumber(100 * residualHeights, 1)} % of a letter’s
        height off in the mean.
      </p>
      <div class="scrolls" role="region" tabIndex={0} aria-label="Each letter in the picture">
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Letter</th>
              <th scope="col" class="number">
                Found, %
              </th>
              <th scope="col" class="number">
                Off, % of its height
              </th>
              <th scope="col" class="number">
                Width, m
              </th>
              <th scope="col" class="number">
                Age, s
              </th>
            </tr>
          </thead>
          <tbody>
            {letters.map((letter) => (
              <tr key={letter.letterIndex} data-seen-letter={letter.character}>
                <th scope="row">{letter.character}</th>
                <td class="number">{formatNumber(100 * letter.foundShare)}</td>
                <td class="number">{letter.offHeights === null ? '' : formatNumber(100 * letter.offHeights, 1)}</td>
                <td class="number">{letter.sigmaMetres === null ? '' : formatNumber(2 * letter.sigmaMetres)}</td>
                <td class="number">{formatNumber(letter.ageSeconds)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <dl class="figure-rows">
        <FigureRow
          label="Carried beyond the wind believed"
          name="photograph-drift"
          value={Math.hypot(pose.driftEast, pose.driftNorth).toFixed(0)}
          note={`give or take ${units.height.text(Math.hypot(sigma.driftEast, sigma.driftNorth))}`}
        >
          {units.height.text(pose.driftEast)} east, {units.height.text(pose.driftNorth)} north
        </FigureRow>
        <FigureRow label="The camera" name="photograph-camera" value={degreesFromRadians(pose.bearing).toFixed(1)} note={untoldWords(untold)}>
          looked {formatNumber((degreesFromRadians(pose.bearing) + 360) % 360)}° true, {formatNumber(degreesFromRadians(pose.tilt))}° up
        </FigureRow>
      </dl>
      <RectifiedPicture rectified={answer.rectified} name={name} />
      <p class="small">
        Photograph {photograph.fileName}, SHA-256 {photograph.sha256.slice(0, 16)}…; the lines over it, the picture from below and the figures are computed.
      </p>
    </>
  );
}

const UNKNOWN_WORDS: Readonly<Record<LaidPhotograph['answer']['untold'][number], string>> = {
  bearing: 'its bearing',
  tilt: 'its tilt',
  roll: 'its roll',
  focal: 'its focal length',
  distortion: 'its lens’s distortion',
  driftEast: 'the drift east',
  driftNorth: 'the drift north',
  height: 'the layer’s height',
  stretchEast: 'how the wind drew it out eastwards',
  stretchNorth: 'how the wind drew it out northwards',
};

function untoldWords(untold: LaidPhotograph['answer']['untold']): string {
  return untold.length === 0 ? 'told by the picture' : `not told by the picture, left as believed: ${untold.map((each) => UNKNOWN_WORDS[each]).join(', ')}`;
}
