import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { PilotUp } from '../../app/draw/desk.ts';
import { createSvgPathSink } from '../../core/letters/letter-drawing.ts';
import { type ShipPlan, wholeFlight } from '../../core/plan/plan.ts';
import { directionFromBearing } from '../../core/units/angle.ts';
import { AircraftMarks } from './AircraftMarks.tsx';
import { arrowInset, cornerBoxes, reachesCorner } from './corner-arrows.ts';
import { HoldCircles } from './HoldCircles.tsx';
import { FlownStrokes } from './FlownStrokes.tsx';
import { fittingView, type PictureView, pictureDirection } from './picture-view.ts';
import { PlainArrow } from './PlainArrow.tsx';
import { drawPlanePath, planePathFromAir, planePathsBox } from './plane-path.ts';
import { createPolylineSink } from './polyline-sink.ts';
import { StrokeNumbers } from './StrokeNumbers.tsx';
import { useElementWidth } from './use-element-width.ts';
import { viewSink } from './view-sink.ts';

export interface PilotPictureProps {
  readonly ships: readonly ShipPlan[];
  readonly shipNames: readonly string[];
  /** Whose strokes are numbered. */
  readonly shipIndex: number;
  /** Or a bearing, clockwise from true north. */
  readonly up: PilotUp | { readonly bearingRadians: number };
  /** Bearing the wind comes from, clockwise from true north, with the words under its arrow; null when unknown. */
  readonly wind: { readonly fromRadians: number; readonly text: string } | null;
  /** Instant of the plan shown; null shows all of it done and no aircraft. */
  readonly atSeconds: number | null;
  readonly maximumHeightPixels: number;
  readonly description: string;
}

const MARGIN_PIXELS = 34;
const MINIMUM_HEIGHT_PIXELS = 200;
/** Kept above the drawing when it would reach into the arrows, and what of its lower margin is given up for it. */
const ARROWS_PIXELS = 44;
const LOWER_PIXELS = 12;

/** The same text from above, as it is flown: mirrored, strokes numbered in order, the ways between them dashed. */
export function PilotPicture(props: PilotPictureProps): VNode {
  const { ships, shipNames, shipIndex, up, wind, atSeconds, maximumHeightPixels, description } = props;
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const drawn = useMemo(() => {
    const first = ships[shipIndex]?.legs.find(({ kind }) => kind === 'smoke');
    const turnRadians =
      typeof up === 'object'
        ? Math.PI / 2 - directionFromBearing(up.bearingRadians)
        : up === 'north' || first === undefined
          ? 0
          : Math.PI / 2 - first.path.start.directionRadians;
    const legs = ships.flatMap(wholeFlight);
    const box = planePathsBox(
      legs.map(({ path }) => planePathFromAir(path)),
      turnRadians,
      false,
    );
    if (box === null || widthPixels === 0) return null;
    const proportion = (box.highYMetres - box.lowYMetres) / (box.highXMetres - box.lowXMetres);
    const wanted = (widthPixels - 2 * MARGIN_PIXELS) * proportion + 2 * MARGIN_PIXELS;
    const heightPixels = Math.round(
      Math.max(Math.min(MINIMUM_HEIGHT_PIXELS, maximumHeightPixels), Math.min(maximumHeightPixels, Number.isFinite(wanted) ? wanted : maximumHeightPixels)),
    );
    const boxes = cornerBoxes({ widthPixels, heightPixels }, wind?.text ?? null);
    const whole = fittingView(box, { widthPixels, heightPixels }, MARGIN_PIXELS, turnRadians, false);
    const line = createPolylineSink(8);
    for (const leg of legs) drawPlanePath(planePathFromAir(leg.path), viewSink(whole, line));
    const view = reachesCorner(line.points(), boxes)
      ? under(fittingView(box, { widthPixels, heightPixels: heightPixels - ARROWS_PIXELS + 2 * LOWER_PIXELS }, MARGIN_PIXELS, turnRadians, false))
      : whole;
    const ways = createSvgPathSink();
    for (const leg of legs) if (leg.kind !== 'smoke') drawPlanePath(planePathFromAir(leg.path), viewSink(view, ways));
    return { heightPixels, view, ways: ways.pathData() };
  }, [ships, shipIndex, up, wind?.text, widthPixels, maximumHeightPixels]);
  const numbered = useMemo(() => smokePaths(ships[shipIndex]), [ships, shipIndex]);
  if (drawn === null) return <div class="pilot-picture" ref={element} />;
  const { view, heightPixels } = drawn;
  return (
    <div class="pilot-picture" ref={element}>
      <svg width={widthPixels} height={heightPixels} viewBox={`0 ${-heightPixels} ${widthPixels} ${heightPixels}`} role="img" aria-label={description}>
        <path class="way" d={drawn.ways} />
        <HoldCircles ships={ships} names={shipNames} view={view} />
        <FlownStrokes ships={ships} view={view} atSeconds={atSeconds} />
        <StrokeNumbers strokes={numbered} view={view} current={currentStroke(ships[shipIndex], atSeconds)} />
        <PlainArrow kind="north" xPixels={widthPixels - 24} yPixels={-heightPixels + 26} directionRadians={pictureDirection(Math.PI / 2, view)} text="N" />
        {wind !== null && (
          <PlainArrow
            kind="wind"
            xPixels={arrowInset(wind.text)}
            yPixels={-heightPixels + 26}
            directionRadians={pictureDirection(directionFromBearing(wind.fromRadians) + Math.PI, view)}
            text={wind.text}
          />
        )}
        {atSeconds !== null && <AircraftMarks ships={ships} names={shipNames} view={view} atSeconds={atSeconds} />}
      </svg>
    </div>
  );
}

function under(view: PictureView): PictureView {
  return { ...view, originUpPixels: view.originUpPixels - LOWER_PIXELS };
}

function smokePaths(ship: ShipPlan | undefined) {
  return (ship?.legs ?? []).filter(({ kind }) => kind === 'smoke').map(({ path }) => planePathFromAir(path));
}

function currentStroke(ship: ShipPlan | undefined, atSeconds: number | null): number | null {
  if (ship === undefined || atSeconds === null) return null;
  const next = ship.legs.filter(({ kind }) => kind === 'smoke').findIndex(({ endSeconds }) => atSeconds < endSeconds);
  return next < 0 ? null : next;
}
