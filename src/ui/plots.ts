/** The three plots. The only file that knows uPlot: axes and scales are its work, zones, marks and labels are drawn here. */
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { ArrivalView } from '../state/arrivalView';
import type { TraceHistory } from '../state/history';
import { HISTORY_SECONDS } from '../state/history';
import { SUM_HZ, SUM_LOW_DB, type SumView } from '../state/sumView';
import type { TraceBand } from '../state/traceView';
import { fixed, hzShort, hzText, lengthText } from './format';
import { type Box, hatch, type Ink, inkOf, label, upright } from './ink';

export interface Plot<View> {
  draw(view: View): void;
  /** paper or ink changed */
  recolour(): void;
  destroy(): void;
}

const SUM_TICKS_HZ = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];
const SUM_TICKS_DB = [6, 0, -6, -12, -18];
const TRACE_TICKS_S = [-30, -20, -10, 0];
const TYPE_PX = 12;

type Painter = (u: uPlot, pen: CanvasRenderingContext2D, box: Box, ink: Ink, px: number) => void;

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
    const box: Box = u.bbox;
    u.ctx.save();
    painter(u, u.ctx, box, ink, uPlot.pxRatio);
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

/** x in canvas pixels, held inside the box. */
function xAt(u: uPlot, box: Box, value: number): number {
  return Math.min(box.left + box.width, Math.max(box.left, u.valToPos(value, 'x', true)));
}

const HIDDEN: uPlot.Series = { paths: () => null, points: { show: false } };

/** The sum over frequency. */
export function sumPlot(host: HTMLElement): Plot<SumView | null> {
  let view: SumView | null = null;
  const empty = SUM_HZ.map(() => null);

  const under: Painter = (u, pen, box, ink, px) => {
    if (!view) return;
    pen.fillStyle = hatch(pen, ink.soft, 7 * px, 0.8 * px);
    pen.globalAlpha = 0.5;
    for (const [low, high] of view.thinZonesHz) {
      const from = xAt(u, box, low);
      pen.fillRect(from, box.top, Math.max(1, xAt(u, box, high) - from), box.height);
    }
    pen.globalAlpha = 1;
  };

  const measured = (u: uPlot, pen: CanvasRenderingContext2D, ink: Ink, px: number): void => {
    if (!view) return;
    const { measuredDb, weight } = view;
    pen.strokeStyle = ink.ink;
    pen.lineCap = 'round';
    for (let i = 1; i < measuredDb.length; i++) {
      const from = measuredDb[i - 1];
      const to = measuredDb[i];
      if (from === null || to === null || from === undefined || to === undefined) continue;
      const w = Math.min(weight[i - 1] as number, weight[i] as number);
      pen.globalAlpha = 0.14 + 0.86 * w;
      pen.lineWidth = (1 + 2 * w) * px;
      pen.beginPath();
      pen.moveTo(u.valToPos(SUM_HZ[i - 1] as number, 'x', true), u.valToPos(from, 'y', true));
      pen.lineTo(u.valToPos(SUM_HZ[i] as number, 'x', true), u.valToPos(to, 'y', true));
      pen.stroke();
    }
    pen.globalAlpha = 1;
  };

  const ownBand = (u: uPlot, pen: CanvasRenderingContext2D, box: Box, ink: Ink, px: number): void => {
    if (!view?.ownBandHz) return;
    const from = xAt(u, box, view.ownBandHz[0]);
    const to = xAt(u, box, view.ownBandHz[1]);
    const y = box.top + box.height - 8 * px;
    pen.strokeStyle = ink.accent;
    pen.lineWidth = 3 * px;
    pen.beginPath();
    pen.moveTo(from, y - 6 * px);
    pen.lineTo(from, y);
    pen.lineTo(to, y);
    pen.lineTo(to, y - 6 * px);
    pen.stroke();
    const text = 'the drum’s low band';
    label(pen, box, text, (from + to) / 2, y - 14 * px, ink, TYPE_PX * px, { colour: ink.accent, centre: true });
  };

  const notches = (u: uPlot, pen: CanvasRenderingContext2D, box: Box, ink: Ink, px: number): void => {
    if (!view) return;
    let free = box.left;
    for (const [i, hz] of view.notchesHz.entries()) {
      const x = u.valToPos(hz, 'x', true);
      pen.fillStyle = ink.ink;
      pen.beginPath();
      pen.moveTo(x - 5 * px, box.top);
      pen.lineTo(x + 5 * px, box.top);
      pen.lineTo(x, box.top + 8 * px);
      pen.fill();
      pen.font = `700 ${TYPE_PX * px}px ${ink.font}`;
      const text = i === 0 ? hzText(hz) : hzShort(hz);
      const half = pen.measureText(text).width / 2;
      if (x - half < free) continue;
      free = label(pen, box, text, x, box.top + 17 * px, ink, TYPE_PX * px, { bold: true, centre: true }) + 6 * px;
    }
  };

  const over: Painter = (u, pen, box, ink, px) => {
    const zero = u.valToPos(0, 'y', true);
    pen.setLineDash([]);
    pen.strokeStyle = ink.soft;
    pen.lineWidth = 1.5 * px;
    pen.beginPath();
    pen.moveTo(box.left, zero);
    pen.lineTo(box.left + box.width, zero);
    pen.stroke();
    label(pen, box, 'one microphone alone', box.left + 6 * px, zero + 9 * px, ink, 11 * px, { colour: ink.soft });
    pen.save();
    pen.beginPath();
    pen.rect(box.left, box.top, box.width, box.height);
    pen.clip();
    measured(u, pen, ink, px);
    pen.restore();
    ownBand(u, pen, box, ink, px);
    notches(u, pen, box, ink, px);
  };

  const page: Sheet = sheet(
    host,
    {
      scales: {
        x: { time: false, distr: 3, log: 10, range: [20, 20000] },
        y: { range: [SUM_LOW_DB, 8] },
      },
      axes: [
        {
          splits: () => SUM_TICKS_HZ,
          filter: (_u, splits) => splits,
          values: (_u, v) => v.map((hz) => (hz === 20 ? '20 Hz' : hzShort(hz))),
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
    under,
    over,
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

export interface TraceView {
  history: TraceHistory;
  bandIndex: number;
  band: TraceBand;
}

const MARK_TEXT = { invert: 'invert B', restart: 'start over', swap: 'swap', hold: 'hold' } as const;

/** The correlation trace over the last 30 s. */
export function tracePlot(host: HTMLElement): Plot<TraceView> {
  let view: TraceView | null = null;
  const now = (): number => view?.history.nowSeconds ?? 0;

  const under: Painter = (u, pen, box, ink, px) => {
    if (!view) return;
    const top = u.valToPos(view.band.scatter, 'y', true);
    const bottom = u.valToPos(-view.band.scatter, 'y', true);
    pen.fillStyle = hatch(pen, ink.soft, 5 * px, 0.8 * px, false);
    pen.globalAlpha = 0.6;
    pen.fillRect(box.left, top, box.width, Math.max(2 * px, bottom - top));
    pen.globalAlpha = 1;
    for (const gap of view.history.gaps) {
      const from = xAt(u, box, gap.fromSeconds);
      const width = Math.max(2 * px, xAt(u, box, gap.toSeconds) - from);
      pen.fillStyle = hatch(pen, ink.soft, 4 * px, 1.2 * px);
      pen.fillRect(from, box.top, width, box.height);
    }
  };

  const over: Painter = (u, pen, box, ink, px) => {
    if (!view) return;
    const start = now() - HISTORY_SECONDS;
    for (const mark of view.history.marks) {
      if (mark.atSeconds < start) continue;
      const x = xAt(u, box, mark.atSeconds);
      pen.setLineDash([3 * px, 3 * px]);
      upright(pen, box, x, ink.accent, 1.5 * px);
      pen.setLineDash([]);
      label(pen, box, MARK_TEXT[mark.kind], x + 4 * px, box.top + 8 * px, ink, 11 * px, { colour: ink.accent });
    }
    for (const hit of view.history.hits) {
      const value = hit.values[view.bandIndex];
      if (value === null || value === undefined || hit.atSeconds < start) continue;
      const x = u.valToPos(hit.atSeconds, 'x', true);
      const y = u.valToPos(value, 'y', true);
      pen.beginPath();
      const counted = hit.fate === 'used' || hit.fate === 'old';
      pen.arc(x, y, (counted ? 3.5 : 3) * px, 0, 2 * Math.PI);
      pen.lineWidth = 1.5 * px;
      pen.strokeStyle = ink.ink;
      pen.fillStyle = counted ? ink.ink : ink.paper;
      pen.fill();
      pen.stroke();
    }
  };

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
    under,
    over,
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

export interface ArrivalDrawing extends ArrivalView {
  /** cm of path per ms of delay */
  cmPerMs: number;
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
  const range = (): number => view?.rangeMs ?? 11;
  const perMs = (): number => view?.cmPerMs ?? 34.3;
  const height = (): number => view?.height ?? 1;

  const over: Painter = (u, pen, box, ink, px) => {
    upright(pen, box, u.valToPos(0, 'x', true), ink.soft, 1.5 * px);
    label(pen, box, 'A', u.valToPos(0, 'x', true), box.top + 8 * px, ink, TYPE_PX * px, { bold: true, centre: true });
    if (!view || view.foundMs === null) return;
    const x = u.valToPos(view.foundMs, 'x', true);
    upright(pen, box, x, ink.accent, 2.5 * px);
    const text = `B ${lengthText(view.foundMs * view.cmPerMs)}`;
    const side = view.foundMs >= 0 ? x + 5 * px : x - 5 * px - pen.measureText(text).width * 1.1;
    label(pen, box, text, side, box.top + box.height - 10 * px, ink, TYPE_PX * px, { bold: true, colour: ink.accent });
  };

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
    over,
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
