import type { VNode } from 'preact';
import type { DeskShip } from '../../app/debrief/desk-types.ts';
import { ratingsOf, type ObservedMoment } from '../../app/debrief/observed.ts';
import { ratedEnds } from '../../core/debrief/lessons/spreading.ts';
import type { LetterWindow } from '../../core/sky/reading-window.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { Photograph } from '../../app/photographs/photograph-shelf.ts';
import { againstTrack, type PhotographedLetter, ratingFromPhotograph } from '../../core/debrief/photographed-letter.ts';
import { useDebrief } from './debrief-context.ts';
import { acrossWords, lateWords, longWords, shapeWords } from './score-words.ts';
import { minutesRange } from '../words/reads-text.ts';
import { useUnitText } from '../fields/units-context.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

/** Every stroke as it was flown, in flying order; a touch goes to its smoke. */
export function StrokeTable({ ship }: { readonly ship: DeskShip }): VNode | null {
  const { player } = useDebrief();
  const units = useUnitText();
  const { debrief, log } = ship;
  if (debrief === null || debrief.strokeScores.length === 0) return null;
  return (
    <div role="region" aria-label="Strokes">
      <table class="figures stacks">
        <thead>
          <tr>
            <th scope="col">Stroke</th>
            <th scope="col">Off the line, rms</th>
            <th scope="col">Heading</th>
            <th scope="col">Smoke on</th>
            <th scope="col">Smoke off</th>
            <th scope="col">By the plan</th>
            <th scope="col">Again</th>
          </tr>
        </thead>
        <tbody>
          {debrief.strokeScores.map((score) => {
            const first = debrief.strokes[score.strokeIndex]?.samples[0];
            return (
              <tr key={score.strokeIndex} data-stroke={score.strokeIndex}>
                <th scope="row">
                  <button
                    type="button"
                    class="plain"
                    disabled={first === undefined}
                    onClick={() => first !== undefined && player.seek(log.zeroMilliseconds + first.atSeconds * 1000)}
                  >
                    {score.strokeIndex + 1} {score.character}
                  </button>
                </th>
                <td data-label="Off the line, rms">{acrossWords(score, units)}</td>
                <td data-label="Heading">
                  {score.headingErrorRmsRadians === null ? '\u2013' : `${formatNumber(degreesFromRadians(score.headingErrorRmsRadians), 1)}\u00b0`}
                </td>
                <td data-label="Smoke on">{lateWords(score.onErrorSeconds)}</td>
                <td data-label="Smoke off">{longWords(score.offErrorSeconds)}</td>
                <td data-label="By the plan">{lateWords(score.lateSeconds)}</td>
                <td data-label="Again">{score.redoneCount === 0 ? '' : `${score.redoneCount}\u00d7`}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

export interface LetterTableProps {
  readonly ship: DeskShip;
  readonly observed: readonly ObservedMoment[];
  /** What photographs showed, each at its moment. */
  readonly photographs: readonly Photograph[];
  /** Until when each letter was to read, from the smoke as flown. */
  readonly windows: readonly LetterWindow[];
}

/** Every letter: its shape, its place in the word, and how long it read. */
export function LetterTable({ ship, observed, photographs, windows }: LetterTableProps): VNode | null {
  const units = useUnitText();
  const { debrief, log } = ship;
  if (debrief === null || debrief.letterScores.length === 0) return null;
  const datumMilliseconds = log.zeroMilliseconds + debrief.datumSeconds * 1000;
  const pictures = photographs.flatMap(({ seen, takenAtMilliseconds }) =>
    (seen ?? []).map((letter) => ({ letter, atSeconds: (takenAtMilliseconds - datumMilliseconds) / 1000 })),
  );
  const ends = ratedEnds([...ratingsOf(observed, datumMilliseconds), ...pictures.map(({ letter, atSeconds }) => ratingFromPhotograph(letter, atSeconds))]);
  return (
    <div role="region" aria-label="Letters">
      <table class="figures stacks">
        <thead>
          <tr>
            <th scope="col">Letter</th>
            <th scope="col">Shape</th>
            <th scope="col">In the word</th>
            <th scope="col">In smoke</th>
            <th scope="col">To read until, after first smoke</th>
            <th scope="col">Rated</th>
            {pictures.length > 0 && <th scope="col">Photographed</th>}
          </tr>
        </thead>
        <tbody>
          {debrief.letterScores.map((letter) => {
            const window = windows.find(({ letterIndex }) => letterIndex === letter.letterIndex);
            const end = ends.find(({ letterIndex }) => letterIndex === letter.letterIndex);
            return (
              <tr key={letter.letterIndex} data-letter={letter.character}>
                <th scope="row">{letter.character}</th>
                <td data-label="Shape">
                  {shapeWords(letter)}
                  {letter.shapeErrorMetres === null ? '' : `, ${units.height.text(letter.shapeErrorMetres)}`}
                </td>
                <td data-label="In the word">{placeWords(letter.place, units)}</td>
                <td data-label="In smoke">{formatNumber(letter.coverage * 100)} %</td>
                <td data-label="To read until, after first smoke">
                  {window === undefined ? '\u2013' : `${minutesRange(window.until.lowSeconds, window.until.highSeconds)} min`}
                </td>
                <td data-label="Rated">
                  {end === undefined
                    ? 'not rated'
                    : end.notAfterSeconds === Infinity
                      ? `read at ${formatDuration(end.notBeforeSeconds)}`
                      : `until ${formatDuration(end.notBeforeSeconds)} to ${formatDuration(end.notAfterSeconds)}`}
                </td>
                {pictures.length > 0 && (
                  <td data-label="Photographed" data-photographed={letter.letterIndex}>
                    {photographedWords(pictures.findLast((each) => each.letter.letterIndex === letter.letterIndex)?.letter ?? null, letter.coverage)}
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
      <p class="small quiet">
        A letter counts as in place as far as the wind that was found can tell:{' '}
        {units.height.text(Math.max(...debrief.letterScores.map(({ place }) => place?.sigmaMetres ?? 0)))} and less.
      </p>
    </div>
  );
}

/** What the latest photograph showed of a letter; where it is not what the track says, both. */
function photographedWords(letter: PhotographedLetter | null, coverage: number): string {
  if (letter === null) return '\u2013';
  const found = `${formatNumber(100 * letter.foundShare)} %`;
  switch (againstTrack(letter, coverage)) {
    case 'less smoke':
      return `${found} in smoke, by the track ${formatNumber(100 * coverage)} %`;
    case 'elsewhere':
      return `${formatNumber(100 * (letter.offHeights ?? 0))} % of a letter off the track`;
    case 'as flown':
      return `as flown, ${found}`;
  }
}

/** A letter's place is told only where the wind is known well enough to tell it. */
function placeWords(place: { readonly eastMetres: number; readonly northMetres: number; readonly sigmaMetres: number } | null, { height }: UnitText): string {
  if (place === null) return '\u2013';
  const off = Math.hypot(place.eastMetres, place.northMetres);
  return off < 1.5 * place.sigmaMetres ? 'in place' : `${height.text(off)} off, \u00b1 ${height.number(place.sigmaMetres)}`;
}
