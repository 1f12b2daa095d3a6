/** The three plots. The only file that knows uPlot: axes and scales are its work, zones, marks and labels are drawn here. */
import uPlot from 'uplot';
import { NEAR_LAG_MS } from '../../advice/plan/pairKinds';
import { speedOfSound } from '../../reading/acoustics';
import { SPECTRUM_HIGH_HZ, SPECTRUM_LOW_HZ } from '../../reading/bands';
import { USUAL_TEMPERATURE_C } from '../../state/settings/settings';
import { SUM_HZ, SUM_LOW_DB, SUM_TICKS_HZ, type SumView } from '../../state/views/sumView';
import { HISTORY_SECONDS } from '../../state/views/traceHistory';
import { hzLabel } from '../../text/frequency';
import { fixed } from '../../text/number';
import { type Ink, inkOf } from './ink';
import {
  type ArrivalDrawing,
  type Pen,
  paintArrival,
  paintSumOver,
  paintSumUnder,
  paintTraceOver,
  paintTraceUnder,
  type TraceView,
  TYPE_PX,
} from './painters';

export interface Plot<View> {
  draw(view: View): void;
  /** paper or ink changed */
  recolour(): void;
  destroy(): void;
}

const SUM_TICKS_DB = [6, 0, -6, -12, -18];
const TRACE_TICKS_S = [-30, -20, -10, 0];

type Painter = (pen: Pen) => void;

interface Sheet {
  plot: uPlot;
  ink(): Ink;
  recolour(): void;
  destroy(): void;
}

function sheet(
  host: HTMLElement,
  options: Partial<uPlot.Options>,
  data: uPlot.AlignedData,
  under: Painter,
  over: Painter,
): Sheet {
  let ink = inkOf(host);
  const run = (painter: Painter) => (u: uPlot) => {
    u.ctx.save();
    u.ctx.setLineDash([]);
    painter({
      ctx: u.ctx,
      box: u.bbox,
      ink,
      px: uPlot.pxRatio,
      x: (value) => u.valToPos(value, 'x', true),
      y: (value) => u.valToPos(value, 'y', true),
    });
    u.ctx.restore();
  };
  const plot = new uPlot(
    {
      width: Math.max(80, host.clientWidth),
      height: Math.max(60, host.clientHeight),
      legend: { show: false },
      cursor: { show: false },
      series: [],
      ...options,
      axes: (options.axes ?? []).map((axis) => ({
        stroke: () => ink.soft,
        font: `${TYPE_PX}px system-ui, sans-serif`,
        labelFont: `${TYPE_PX}px system-ui, sans-serif`,
        labelSize: 16,
        gap: 3,
        ...axis,
        grid: { stroke: () => ink.faint, width: 1, ...axis.grid },
        ticks: { stroke: () => ink.faint, width: 1, size: 4, ...axis.ticks },
      })),
      hooks: { drawClear: [run(under)], draw: [run(over)] },
    },
    data,
    host,
  );
  const watch = new ResizeObserver(() => {
    const width = Math.max(80, host.clientWidth);
    const height = Math.max(60, host.clientHeight);
    if (width !== plot.width || height !== plot.height) plot.setSize({ width, height });
  });
  watch.observe(host);
  return {
    plot,
    ink: () => ink,
    recolour() {
      ink = inkOf(host);
      plot.redraw(false, true);
    },
    destroy() {
      watch.disconnect();
      plot.destroy();
    },
  };
}

const HIDDEN: uPlot.Series = { paths: () => null, points: { show: false } };

/** The sum over frequency. */
export function sumPlot(host: HTMLElement): Plot<SumView | null> {
  let view: SumView | null = null;
  const empty = SUM_HZ.map(() => null);

  const page: Sheet = sheet(
    host,
    {
      scales: {
        x: { time: false, distr: 3, log: 10, range: [SPECTRUM_LOW_HZ, SPECTRUM_HIGH_HZ] },
        y: { range: [SUM_LOW_DB, 8] },
      },
      axes: [
        {
          splits: () => [...SUM_TICKS_HZ],
          filter: (_u, splits) => splits,
          values: (_u, v) => v.map(hzLabel),
          size: 26,
        },
        { splits: () => SUM_TICKS_DB, values: (_u, v) => v.map((n) => (n === 6 ? '+6 dB' : fixed(n, 0))), size: 44 },
      ],
      series: [
        {},
        HIDDEN,
        { stroke: () => page.ink().soft, width: 1, points: { show: false } },
        { stroke: () => page.ink().accent, width: 2.5, dash: [9, 6], points: { show: false } },
      ],
    },
    [[...SUM_HZ], empty, empty, empty],
    (pen) => view && paintSumUnder(pen, view),
    (pen) => view && paintSumOver(pen, view),
  );
  return {
    draw(next) {
      view = next;
      const lines = [next?.measuredDb ?? empty, next?.predictedDb ?? empty, next?.afterDb ?? empty];
      page.plot.setData([[...SUM_HZ], ...lines] as uPlot.AlignedData, false);
      page.plot.redraw(true, false);
    },
    recolour: page.recolour,
    destroy: page.destroy,
  };
}

/** The correlation trace over the last 30 s. */
export function tracePlot(host: HTMLElement): Plot<TraceView> {
  let view: TraceView | null = null;
  const now = (): number => view?.history.nowSeconds ?? 0;

  const page: Sheet = sheet(
    host,
    {
      padding: [6, 10, 0, 0],
      scales: {
        x: { time: false, range: () => [now() - HISTORY_SECONDS, now() + 0.3] },
        y: { range: [-1.08, 1.08] },
      },
      axes: [
        {
          splits: () => TRACE_TICKS_S.map((s) => now() + s),
          values: (_u, v) => v.map((_, i) => (i === 3 ? 'now' : `${fixed(TRACE_TICKS_S[i] ?? 0, 0)} s`)),
          size: 24,
        },
        { splits: () => [-1, 0, 1], values: () => ['−1', '0', '+1'], size: 30 },
      ],
      series: [{}, { stroke: () => page.ink().soft, width: 2, points: { show: false } }],
    },
    [[], []],
    (pen) => view && paintTraceUnder(pen, view),
    (pen) => view && paintTraceOver(pen, view),
  );
  return {
    draw(next) {
      view = next;
      const { times, values } = next.history;
      page.plot.setData([times, values[next.bandIndex] ?? []] as uPlot.AlignedData, true);
    },
    recolour: page.recolour,
    destroy: page.destroy,
  };
}

/** The step of 1, 2 or 5 nearest to `rough`. */
function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  return power * (lead < 1.5 ? 1 : lead < 3.5 ? 2 : lead < 7.5 ? 5 : 10);
}

function ticks(half: number, perSide = 3): number[] {
  const step = niceStep(half / perSide);
  const count = Math.floor(half / step + 1e-9);
  return Array.from({ length: 2 * count + 1 }, (_, i) => (i - count) * step);
}

/** The arrival curve against lag: cm below, ms above. */
export function arrivalPlot(host: HTMLElement): Plot<ArrivalDrawing | null> {
  let view: ArrivalDrawing | null = null;
  const range = (): number => view?.rangeMs ?? NEAR_LAG_MS;
  const perMs = (): number => view?.cmPerMs ?? speedOfSound(USUAL_TEMPERATURE_C) / 10;
  const height = (): number => view?.height ?? 1;

  const page: Sheet = sheet(
    host,
    {
      padding: [0, 10, 0, 0],
      scales: {
        x: { time: false, range: () => [-range(), range()] },
        y: { range: () => [-1.08 * height(), 1.08 * height()] },
      },
      axes: [
        {
          splits: () => ticks(range() * perMs()).map((cm) => cm / perMs()),
          values: (_u, v) => v.map((ms) => `${fixed(ms * perMs(), 0)}${Math.abs(ms) < 1e-9 ? ' cm' : ''}`),
          size: 24,
        },
        {
          splits: () => [-height(), 0, height()],
          values: () => [fixed(-height(), 2), '0', fixed(height(), 2)],
          size: 40,
        },
        {
          side: 0,
          scale: 'x',
          splits: () => ticks(range(), 2),
          values: (_u, v) => v.map((ms) => `${fixed(ms, range() < 2 ? 1 : 0)}${Math.abs(ms) < 1e-9 ? ' ms' : ''}`),
          size: 22,
          grid: { show: false },
        },
      ],
      series: [
        {},
        { stroke: () => page.ink().ink, width: 1.75, points: { show: false }, fill: () => `${page.ink().faint}` },
      ],
    },
    [[], []],
    () => undefined,
    (pen) => paintArrival(pen, view),
  );
  return {
    draw(next) {
      view = next;
      const data = next && next.hits > 0 ? [next.lagsMs, next.values] : [[], []];
      page.plot.setData(data as uPlot.AlignedData, true);
    },
    recolour: page.recolour,
    destroy: page.destroy,
  };
}
