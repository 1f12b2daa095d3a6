/** The plots: axes and scales are uPlot's work, zones, marks and labels are painted by ours. */
import type uPlot from 'uplot';
import { NEAR_LAG_MS } from '../../advice/plan/pairKinds';
import { speedOfSound } from '../../reading/acoustics';
import { SPECTRUM_HIGH_HZ, SPECTRUM_LOW_HZ } from '../../reading/bands';
import { USUAL_TEMPERATURE_C } from '../../state/settings/settings';
import { SUM_LOW_DB } from '../../state/views/combView';
import { SUM_HZ, SUM_TICKS_HZ } from '../../state/views/sumView';
import { HISTORY_SECONDS } from '../../state/views/traceHistory';
import { hzLabel } from '../../text/frequency';
import { fixed } from '../../text/number';
import { type CurveDrawing, type PushesDrawing, paintCurve, paintPushes } from './paint/paintArrival';
import { headPx, paintSumOver, paintSumUnder, type SumDrawing } from './paint/paintSum';
import { paintTraceOver, paintTraceUnder, type TraceView } from './paint/paintTrace';
import { type Places, type Sheet, sheet } from './sheet';

export interface Plot<View> extends Places {
  draw(view: View): void;
  /** paper or ink changed */
  recolour(): void;
  destroy(): void;
}

const SUM_TICKS_DB = [6, 0, -6, -12, -18];
/** the highest that a sum can lie, and a little */
const SUM_TOP_DB = 6.4;
const TRACE_TICKS_S = [-30, -20, -10, 0];

const HIDDEN: uPlot.Series = { paths: () => null, points: { show: false } };

/** What a plot hands on of its sheet. */
const handles = ({ across, valueAt, down, recolour, destroy }: Sheet) => ({ across, valueAt, down, recolour, destroy });

/** The sum over frequency: all of it painted by ours, shading and strips lie between the lines. */
export function sumPlot(host: HTMLElement): Plot<SumDrawing | null> {
  let view: SumDrawing | null = null;
  /** above the lines there is room for what is written in the strip */
  const top = (u: uPlot): number => {
    const room = Math.max(60, u.height - 34);
    const head = headPx(room);
    return SUM_TOP_DB + ((SUM_TOP_DB - SUM_LOW_DB) * head) / (room - head);
  };
  const page: Sheet = sheet(
    host,
    {
      padding: [4, 10, 0, 0],
      scales: {
        x: { time: false, distr: 3, log: 10, range: [SPECTRUM_LOW_HZ, SPECTRUM_HIGH_HZ] },
        y: { range: (u) => [SUM_LOW_DB, top(u)] },
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
      series: [{}, HIDDEN],
    },
    [[...SUM_HZ], SUM_HZ.map(() => null)],
    (pen) => view && paintSumUnder(pen, view),
    (pen) => view && paintSumOver(pen, view),
  );
  return {
    draw(next) {
      view = next;
      page.plot.redraw(false, true);
    },
    ...handles(page),
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
    ...handles(page),
    // told by how long ago it was
    across: (seconds) => page.across(now() + seconds),
    valueAt: (px) => page.valueAt(px) - now(),
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

/** Axes over the lag: cm below, ms above. */
function lagAxes(
  cmPerMs: () => number,
  halfMs: () => number,
  within: (ms: number) => boolean,
): [below: uPlot.Axis, above: uPlot.Axis] {
  const labelled = (values: number[], show: (v: number) => string, unit: string): string[] =>
    values.map((v) => show(v) + (Math.abs(v) < 1e-9 ? unit : ''));
  return [
    {
      splits: () =>
        ticks(halfMs() * cmPerMs())
          .map((cm) => cm / cmPerMs())
          .filter(within),
      values: (_u, v) => labelled(v, (ms) => fixed(ms * cmPerMs(), 0), ' cm'),
      size: 24,
    },
    {
      side: 0,
      scale: 'x',
      splits: () => ticks(halfMs(), 2).filter(within),
      values: (_u, v) => labelled(v, (ms) => fixed(ms, halfMs() < 2 ? 1 : 0), ' ms'),
      size: 22,
      grid: { show: false },
    },
  ];
}

const USUAL_CM_PER_MS = speedOfSound(USUAL_TEMPERATURE_C) / 10;

/** How well the whole stroke fits, against the delay. */
export function curvePlot(host: HTMLElement): Plot<CurveDrawing | null> {
  let view: CurveDrawing | null = null;
  const range = (): number => view?.rangeMs ?? NEAR_LAG_MS;
  const height = (): number => view?.height ?? 1;
  const [below, above] = lagAxes(
    () => view?.cmPerMs ?? USUAL_CM_PER_MS,
    range,
    () => true,
  );

  const page: Sheet = sheet(
    host,
    {
      padding: [0, 10, 0, 0],
      scales: {
        x: { time: false, range: () => [-range(), range()] },
        y: { range: () => [-1.08 * height(), 1.08 * height()] },
      },
      axes: [
        below,
        {
          splits: () => [-height(), 0, height()],
          values: () => [fixed(-height(), 2), '0', fixed(height(), 2)],
          size: 40,
        },
        above,
      ],
      series: [
        {},
        { stroke: () => page.ink().ink, width: 1.75, points: { show: false }, fill: () => `${page.ink().faint}` },
      ],
    },
    [[], []],
    () => undefined,
    (pen) => paintCurve(pen, view),
  );
  return {
    draw(next) {
      view = next;
      const data = next && next.hits > 0 ? [next.lagsMs, next.values] : [[], []];
      page.plot.setData(data as uPlot.AlignedData, true);
    },
    ...handles(page),
  };
}

/** The first pushes, laid on each other at A's arrival. */
export function pushesPlot(host: HTMLElement): Plot<{ pushes: PushesDrawing | null; marked: number | null }> {
  let view: { pushes: PushesDrawing | null; marked: number | null } | null = null;
  const from = (): number => view?.pushes?.fromMs ?? -0.3;
  const to = (): number => from() + (view?.pushes?.lengthMs ?? 2);
  const [below, above] = lagAxes(
    () => view?.pushes?.cmPerMs ?? USUAL_CM_PER_MS,
    () => Math.max(-from(), to()),
    (ms) => ms >= from() && ms <= to(),
  );
  const page: Sheet = sheet(
    host,
    {
      padding: [0, 10, 0, 10],
      scales: { x: { time: false, range: () => [from(), to()] }, y: { range: [-1, 1] } },
      axes: [below, { show: false }, above],
      series: [{}, HIDDEN],
    },
    [
      [0, 1],
      [null, null],
    ],
    () => undefined,
    (pen) => paintPushes(pen, view?.pushes ?? null, view?.marked ?? null),
  );
  return {
    draw(next) {
      view = next;
      page.plot.setData(
        [
          [from(), to()],
          [null, null],
        ],
        true,
      );
    },
    ...handles(page),
  };
}
