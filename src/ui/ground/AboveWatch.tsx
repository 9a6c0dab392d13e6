import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import '../map/map.css';
import type { SitePoint } from '../../core/earth/site-frame.ts';
import { plumeSpread } from '../../core/sky/plume.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import { SMOKE_RANGE } from '../../core/sky/smoke-range.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { fittingView, type PictureView, picturePoint } from '../drawing/picture-view.ts';
import { PlainArrow } from '../drawing/PlainArrow.tsx';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { MapLabel } from '../map/MapLabel.tsx';
import { MapRings } from '../map/MapRings.tsx';
import { type LookProps, useGround } from './ground-context.ts';
import type { GroundSky } from './ground-sky.ts';
import { SkyMark } from './SkyMark.tsx';

export interface AboveWatchProps extends LookProps {
  readonly sky: ReadonlySignal<GroundSky>;
}

const MARGIN_PIXELS = 34;
/** Smoke older than this is drawn no fainter. */
const OLD_SECONDS = 1500;

/** The same sky from above, north up: the site, the smoke where the wind has taken it, the ships. */
export function AboveWatch({ plan, sinceDatumSeconds, sky }: AboveWatchProps): VNode {
  const { job } = useGround();
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const at = Math.max(0, sinceDatumSeconds);
  const { trails, marks, wind, smokeIs } = sky.value;
  const planned = plan.trails.map((trail) => groundLine(trail, plan.air.wind, at));
  const smoke = sinceDatumSeconds < 0 ? [] : trails.flatMap((trail) => laidBy(trail, at)).map((trail) => ({ line: groundLine(trail, wind, at), trail }));
  const places = marks.flatMap(({ place }) => (place === null ? [] : [place]));
  const box = boxOf([
    { eastMetres: 0, northMetres: 0 },
    ...planned.flat(),
    ...smoke.flatMap(({ line }) => line),
    ...places.filter((place) => Math.hypot(place.eastMetres, place.northMetres) < 40_000),
  ]);
  const drawn = useMemo(() => {
    if (widthPixels === 0) return null;
    const proportion = (box.highYMetres - box.lowYMetres) / Math.max(1, box.highXMetres - box.lowXMetres);
    const heightPixels = Math.round(Math.min(560, Math.max(260, (widthPixels - 2 * MARGIN_PIXELS) * proportion + 2 * MARGIN_PIXELS)));
    return { heightPixels, view: fittingView(box, { widthPixels, heightPixels }, MARGIN_PIXELS, 0, false) };
  }, [box.lowXMetres, box.highXMetres, box.lowYMetres, box.highYMetres, widthPixels]);
  if (drawn === null) return <div class="corridor-map above-watch" ref={element} />;
  const { heightPixels, view } = drawn;
  return (
    <div class="corridor-map above-watch" ref={element} data-smoke={smokeIs}>
      <svg
        width={widthPixels}
        height={heightPixels}
        viewBox={`0 ${-heightPixels} ${widthPixels} ${heightPixels}`}
        role="img"
        aria-label="The smoke and the ships over the ground, north up"
      >
        <MapRings
          view={view}
          widthPixels={widthPixels}
          heightPixels={heightPixels}
          avoid={planned.flat().map((point) => picturePoint(point.eastMetres, point.northMetres, view))}
        />
        <path class="above-plan" d={planned.map((line) => pathOf(line, view)).join('')} />
        {smoke.map(({ line, trail }, index) => (
          <path key={index} class="above-smoke" d={pathOf(line, view)} style={smokeStyle(trail, at, view)} />
        ))}
        <MapLabel kind="site" place={picturePoint(0, 0, view)} widthPixels={widthPixels} text={job.site.name} />
        {marks.map((mark) => {
          if (mark.place === null) return null;
          const { xPixels, upPixels } = picturePoint(mark.place.eastMetres, mark.place.northMetres, view);
          return (
            <g key={mark.device} transform={`translate(0 ${-heightPixels})`}>
              <SkyMark mark={mark} xPixels={xPixels} yPixels={heightPixels - upPixels} widthPixels={widthPixels} heightPixels={heightPixels} />
            </g>
          );
        })}
        <PlainArrow kind="north" xPixels={widthPixels - 24} yPixels={-heightPixels + 26} directionRadians={Math.PI / 2} text="N" />
      </svg>
    </div>
  );
}

/** Wider and fainter with age, as the plume spreads. */
function smokeStyle(trail: Trail, atSeconds: number, view: PictureView): { readonly strokeWidth: string; readonly strokeOpacity: string } {
  const first = trail.points[0]?.laidAtSeconds ?? atSeconds;
  const ageSeconds = Math.max(0, atSeconds - (first + (trail.points.at(-1)?.laidAtSeconds ?? first)) / 2);
  const spread = plumeSpread(ageSeconds, SMOKE_RANGE.likely.assumedShearPerSecond, SMOKE_RANGE.likely.air).horizontalMetres;
  return {
    strokeWidth: `${Math.max(2.4, 3 * spread * view.pixelsPerMetre).toFixed(1)}px`,
    strokeOpacity: (1 - 0.75 * Math.min(1, ageSeconds / OLD_SECONDS)).toFixed(2),
  };
}

function laidBy(trail: Trail, atSeconds: number): Trail[] {
  const points = trail.points.filter(({ laidAtSeconds }) => laidAtSeconds <= atSeconds);
  return points.length < 2 ? [] : [{ ...trail, points }];
}

function groundLine(trail: Trail, wind: GroundSky['wind'], atSeconds: number): SitePoint[] {
  return trail.points.map((point) => siteFromAir(point, wind, atSeconds));
}

function pathOf(line: readonly SitePoint[], view: PictureView): string {
  return `M${line
    .map(({ eastMetres, northMetres }) => {
      const { xPixels, upPixels } = picturePoint(eastMetres, northMetres, view);
      return `${xPixels.toFixed(1)} ${(-upPixels).toFixed(1)}`;
    })
    .join('L')}`;
}

/** Grown in whole steps, so that the picture does not creep with every second of drift. */
function boxOf(points: readonly SitePoint[]) {
  const step = 2000;
  const east = points.map(({ eastMetres }) => eastMetres);
  const north = points.map(({ northMetres }) => northMetres);
  const least = (values: readonly number[]): number => Math.floor(Math.min(...values) / step) * step;
  const most = (values: readonly number[]): number => Math.ceil(Math.max(...values) / step) * step;
  return { lowXMetres: least(east), highXMetres: most(east), lowYMetres: least(north), highYMetres: most(north) };
}
