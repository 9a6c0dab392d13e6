import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Site, SitePoint } from '../../core/earth/site-frame.ts';
import { type CrowdEye, eyeFromMiddle, placeName } from '../../core/job/crowd-place.ts';
import type { JobPoint } from '../../core/job/job.ts';
import { createSvgPathSink } from '../../core/letters/letter-drawing.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { GroundCircle } from '../../core/place/area.ts';
import type { DriftCorridor } from '../../core/place/drift-corridor.ts';
import type { Overlay } from '../../core/place/overlay.ts';
import { metresFromStatuteMiles } from '../../core/units/quantity.ts';
import { fittingView, type PictureView, picturePoint, type PlaneBox } from '../drawing/picture-view.ts';
import { PlainArrow } from '../drawing/PlainArrow.tsx';
import { drawPlanePath, planePathFromAir } from '../drawing/plane-path.ts';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { viewSink } from '../drawing/view-sink.ts';
import { MapLabel } from './MapLabel.tsx';
import { MapOverlay } from './MapOverlay.tsx';
import { MapRings } from './MapRings.tsx';

export interface CorridorMapProps {
  readonly plan: Plan;
  readonly corridor: DriftCorridor;
  /** The smoke over the ground where it is laid, stroke by stroke. */
  readonly laid: readonly (readonly SitePoint[])[];
  /** How far the air has moved at the read time, and at the end. */
  readonly driftAtRead: SitePoint;
  readonly driftAtEnd: SitePoint;
  /** Within it the text reads at the read time; a radius of 0 is not drawn. */
  readonly readable: GroundCircle;
  readonly siteName: string;
  readonly facingRadians: number;
  /** The user's own areas and landmarks; null without any. */
  readonly overlay: Overlay | null;
  readonly site: Site;
  readonly namedPoints: readonly JobPoint[];
  /** Where people look from, site first; more than one are marked each, and the middle of them all. */
  readonly eyes: readonly CrowdEye[];
}

const MARGIN_PIXELS = 30;

/** Where the text is written, read and lost over the ground, north up, with rings of distance round the site. */
export function CorridorMap({
  plan,
  corridor,
  laid,
  driftAtRead,
  driftAtEnd,
  readable,
  siteName,
  facingRadians,
  overlay,
  site,
  namedPoints,
  eyes,
}: CorridorMapProps): VNode {
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const drawn = useMemo(() => {
    if (widthPixels === 0) return null;
    const box = boxOf([
      { eastMetres: 0, northMetres: 0 },
      ...eyes.filter(({ share }) => share > 0).map((eye) => eyeFromMiddle(eye, site)),
      ...corridor.smokeArea,
      ...corridor.flightArea,
    ]);
    const proportion = (box.highYMetres - box.lowYMetres) / (box.highXMetres - box.lowXMetres);
    const heightPixels = Math.round(Math.min(620, Math.max(300, (widthPixels - 2 * MARGIN_PIXELS) * proportion + 2 * MARGIN_PIXELS)));
    const view = fittingView(box, { widthPixels, heightPixels }, MARGIN_PIXELS, 0, false);
    return { heightPixels, view };
  }, [corridor, widthPixels, eyes]);
  if (drawn === null) return <div class="corridor-map" ref={element} />;
  const { view, heightPixels } = drawn;
  const at = (point: SitePoint): string => {
    const { xPixels, upPixels } = picturePoint(point.eastMetres, point.northMetres, view);
    return `${xPixels.toFixed(1)} ${(-upPixels).toFixed(1)}`;
  };
  const outline = (points: readonly SitePoint[]): string => `M${points.map(at).join('L')}Z`;
  const readableMiddle = picturePoint(readable.centre.eastMetres, readable.centre.northMetres, view);
  const sight = metresFromStatuteMiles(0.6);
  return (
    <div class="corridor-map" ref={element}>
      <svg
        width={widthPixels}
        height={heightPixels}
        viewBox={`0 ${-heightPixels} ${widthPixels} ${heightPixels}`}
        role="img"
        aria-label="Where the text is written, read and lost over the ground, north up"
      >
        <path class="smoke-area" d={outline(corridor.smokeArea)} />
        <MapRings
          view={view}
          widthPixels={widthPixels}
          heightPixels={heightPixels}
          avoid={corridor.stations.map(({ middle }) => picturePoint(middle.eastMetres, middle.northMetres, view))}
        />
        <MapOverlay overlay={overlay} site={site} namedPoints={namedPoints} view={view} widthPixels={widthPixels} heightPixels={heightPixels} />
        {readable.radiusMetres > 0 && (
          <circle class="readable" cx={readableMiddle.xPixels} cy={-readableMiddle.upPixels} r={readable.radiusMetres * view.pixelsPerMetre} />
        )}
        <path class="flight-area" d={outline(corridor.flightArea)} />
        <path class="drift-line" d={`M${corridor.stations.map(({ middle }) => at(middle)).join('L')}`} />
        {corridor.stations.map(({ middle, atSeconds }, index) =>
          index > 6 && index % (widthPixels < 480 ? 12 : 6) === 0 ? (
            <MapLabel
              key={index}
              kind="station"
              place={picturePoint(middle.eastMetres, middle.northMetres, view)}
              widthPixels={widthPixels}
              text={`${Math.round(atSeconds / 60)} min`}
            />
          ) : null,
        )}
        <path class="text-lost" d={textPath(plan, driftAtEnd, view)} />
        <path class="text-written" d={laid.map((stroke) => `M${stroke.map(at).join('L')}`).join('')} />
        <path class="text-read" d={textPath(plan, driftAtRead, view)} />
        <path
          class="sight"
          d={`M${at({ eastMetres: 0, northMetres: 0 })}L${at({ eastMetres: sight * Math.sin(facingRadians), northMetres: sight * Math.cos(facingRadians) })}`}
        />
        <MapLabel kind="site" place={picturePoint(0, 0, view)} widthPixels={widthPixels} text={eyes.length > 1 ? 'the crowd\u2019s middle' : siteName} />
        {eyes.length > 1 &&
          eyes.map((eye, index) => {
            const { eastMetres, northMetres } = eyeFromMiddle(eye, site);
            return (
              <MapLabel
                key={index}
                kind="landmark"
                place={picturePoint(eastMetres, northMetres, view)}
                widthPixels={widthPixels}
                text={placeName(eye.name, index)}
              />
            );
          })}
        <MapLabel
          kind="first-smoke"
          place={picturePoint(corridor.firstSmoke.eastMetres, corridor.firstSmoke.northMetres, view)}
          widthPixels={widthPixels}
          text="first smoke"
        />
        <PlainArrow kind="north" xPixels={widthPixels - 24} yPixels={-heightPixels + 26} directionRadians={Math.PI / 2} text="N" />
      </svg>
    </div>
  );
}

function boxOf(points: readonly SitePoint[]): PlaneBox {
  const east = points.map(({ eastMetres }) => eastMetres);
  const north = points.map(({ northMetres }) => northMetres);
  return { lowXMetres: Math.min(...east), highXMetres: Math.max(...east), lowYMetres: Math.min(...north), highYMetres: Math.max(...north) };
}

function textPath(plan: Plan, drift: SitePoint, view: PictureView): string {
  const sink = createSvgPathSink();
  const moved: PictureView = {
    ...view,
    originXPixels: view.originXPixels + drift.eastMetres * view.pixelsPerMetre,
    originUpPixels: view.originUpPixels + drift.northMetres * view.pixelsPerMetre,
  };
  for (const leg of plan.ships.flatMap(({ legs }) => legs)) if (leg.kind === 'smoke') drawPlanePath(planePathFromAir(leg.path), viewSink(moved, sink));
  return sink.pathData();
}
