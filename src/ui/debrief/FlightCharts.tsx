import 'uplot/dist/uPlot.min.css';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import UPlot from 'uplot';
import { useApplication } from '../application-context.ts';
import type { DeskShip } from '../../app/debrief/desk-types.ts';
import { flightSeries } from '../../core/debrief/flight-series.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { clockText } from '../words/clock.ts';
import { useDebrief } from './debrief-context.ts';
import type { FlightSpan } from './flight-player.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface FlightChartsProps {
  readonly ship: DeskShip;
  readonly span: FlightSpan;
  readonly timeZone: string;
}

interface Chart {
  readonly title: string;
  readonly unit: string;
  readonly values: Float64Array;
}

const HEIGHT_PIXELS = 120;

/** Offset from the line, airspeed, wind and height over time, with the player's moment; a touch on them seeks it. */
export function FlightCharts({ ship, span, timeZone }: FlightChartsProps): VNode | null {
  const { debrief, log } = ship;
  const units = useUnitText();
  const drawn = useMemo(() => {
    if (debrief === null) return null;
    const seconds = (milliseconds: number): number => (milliseconds - log.zeroMilliseconds) / 1000;
    const series = flightSeries(debrief, seconds(span.fromMilliseconds), seconds(span.toMilliseconds));
    if (series === null) return null;
    const charts: Chart[] = [
      { title: 'Off the line, right positive', unit: units.height.unit, values: series.offLineMetres.map(units.height.of) },
      { title: 'True airspeed', unit: units.speed.unit, values: series.trueAirspeedMetresPerSecond.map(units.speed.of) },
      { title: 'Wind', unit: units.speed.unit, values: series.windSpeedMetresPerSecond.map(units.speed.of) },
      { title: 'Height, by the receiver', unit: units.height.unit, values: series.heightMetres.map(units.height.of) },
    ];
    return { at: series.atSeconds.map((second) => log.zeroMilliseconds / 1000 + second), charts: charts.filter(({ values }) => values.some(Number.isFinite)) };
  }, [debrief, log, span.fromMilliseconds, span.toMilliseconds, units.height.unit, units.speed.unit]);
  if (drawn === null) return null;
  return (
    <div class="flight-charts">
      {drawn.charts.map((chart) => (
        <ChartView key={chart.title} at={drawn.at} chart={chart} timeZone={timeZone} />
      ))}
    </div>
  );
}

function ChartView({ at, chart, timeZone }: { readonly at: Float64Array; readonly chart: Chart; readonly timeZone: string }): VNode {
  const { player } = useDebrief();
  const night = useApplication().appearance.appearance.value === 'night';
  const host = useRef<HTMLDivElement>(null);
  const line = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const box = host.current;
    if (box === null) return;
    const style = getComputedStyle(box);
    const [mark, rule] = [style.getPropertyValue('--mark'), style.getPropertyValue('--rule')];
    const axis = { stroke: mark, grid: { stroke: rule, width: 1 }, ticks: { stroke: rule, width: 1 }, font: '13px system-ui, sans-serif' };
    const plot = new UPlot(
      {
        width: box.clientWidth,
        height: HEIGHT_PIXELS,
        legend: { show: false },
        hooks: { ready: [() => place()], setSize: [() => place()] },
        cursor: { drag: { x: false, y: false }, y: false },
        scales: { x: { time: true } },
        axes: [
          { ...axis, values: (_, ticks) => ticks.map((tick) => clockText(tick * 1000, timeZone).split(' ')[0] ?? '') },
          { ...axis, size: 64, values: (_, ticks) => ticks.map((tick) => formatNumber(tick, Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0)) < 1 ? 1 : 0)) },
        ],
        series: [{}, { stroke: mark, width: 2, spanGaps: false }],
      },
      [at, Array.from(chart.values, (value) => (Number.isFinite(value) ? value : null))],
      box,
    );
    /** Laid out by itself, after the plot. */
    function place(): void {
      const mine = line.current;
      const milliseconds = player.atMilliseconds.peek();
      const left = plot.valToPos(milliseconds / 1000, 'x');
      if (mine === null) return;
      mine.hidden = !Number.isFinite(left);
      mine.style.left = `${plot.over.offsetLeft + left}px`;
    }
    const seek = (event: PointerEvent): void => {
      player.pause();
      player.seekMilliseconds(plot.posToVal(event.clientX - plot.over.getBoundingClientRect().left, 'x') * 1000);
    };
    plot.over.addEventListener('pointerdown', seek);
    const observer = new ResizeObserver(() => plot.setSize({ width: box.clientWidth, height: HEIGHT_PIXELS }));
    observer.observe(box);
    const endMoment = player.atMilliseconds.subscribe(() => place());
    return () => {
      endMoment();
      observer.disconnect();
      plot.destroy();
    };
  }, [at, chart, night, timeZone]);
  const known = chart.values.filter(Number.isFinite);
  const words = `${chart.title}: ${formatNumber(Math.min(...known))} to ${formatNumber(Math.max(...known))} ${chart.unit}`;
  return (
    <figure class="flight-chart">
      <figcaption>
        {chart.title}, {chart.unit}; hours {clockText((at[0] ?? 0) * 1000, timeZone).split(' ')[1] ?? ''}
      </figcaption>
      <div class="flight-chart-plot" ref={host} role="img" aria-label={words}>
        <div class="flight-chart-moment" ref={line} />
      </div>
    </figure>
  );
}
