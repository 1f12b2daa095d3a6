/** The three plots: what stands on their axes, and their lines. */
import { HISTORY_SECONDS } from '../state/history';
import { SUM_HZ, SUM_LOW_DB, type SumView } from '../state/sumView';
import { type Chart, chart } from './chart';
import { fixed, hzShort } from './format';
import {
  type ArrivalDrawing,
  paintArrival,
  paintSumOver,
  paintSumUnder,
  paintTraceOver,
  paintTraceUnder,
  type TraceView,
} from './painters';

export interface Plot<View> {
  draw(view: View): void;
  /** paper or ink changed */
  recolour(): void;
  destroy(): void;
}

const SUM_TICKS_HZ = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];
const SUM_TICKS_DB = [6, 0, -6, -12, -18];
const TRACE_TICKS_S = [-30, -20, -10, 0];

/** A chart of the newest view. */
function plotOf<View>(make: (view: () => View | null) => Chart): Plot<View> {
  let newest: View | null = null;
  const made = make(() => newest);
  return {
    draw(view) {
      newest = view;
      made.draw();
    },
    recolour: made.recolour,
    destroy: made.destroy,
  };
}

/** The sum over frequency. */
export function sumPlot(host: HTMLElement): Plot<SumView | null> {
  return plotOf((view) =>
    chart(host, {
      padding: [17, 25],
      x: () => [20, 20000],
      y: () => [SUM_LOW_DB, 8],
      logarithmic: true,
      axes: [
        {
          side: 'bottom',
          size: 26,
          ticks: () => SUM_TICKS_HZ,
          text: (hz) => (hz === 20 ? '20 Hz' : hzShort(hz)),
        },
        {
          side: 'left',
          size: 44,
          ticks: () => SUM_TICKS_DB,
          text: (db) => (db === 6 ? '+6 dB' : fixed(db, 0)),
        },
      ],
      lines: () => [
        { xs: SUM_HZ, ys: view()?.predictedDb ?? [], colour: (ink) => ink.soft, width: 1 },
        { xs: SUM_HZ, ys: view()?.afterDb ?? [], colour: (ink) => ink.accent, width: 2.5, dash: [9, 6] },
      ],
      under(pen) {
        const now = view();
        if (now) paintSumUnder(pen, now);
      },
      over(pen) {
        const now = view();
        if (now) paintSumOver(pen, now);
      },
    }),
  );
}

/** The correlation trace over the last 30 s. */
export function tracePlot(host: HTMLElement): Plot<TraceView> {
  return plotOf((view) => {
    const now = (): number => view()?.history.nowSeconds ?? 0;
    return chart(host, {
      padding: [6, 10],
      x: () => [now() - HISTORY_SECONDS, now() + 0.3],
      y: () => [-1.08, 1.08],
      axes: [
        {
          side: 'bottom',
          size: 24,
          ticks: () => TRACE_TICKS_S.map((s) => now() + s),
          text: (_, i) => (i === 3 ? 'now' : `${fixed(TRACE_TICKS_S[i] ?? 0, 0)} s`),
        },
        { side: 'left', size: 30, ticks: () => [-1, 0, 1], text: (value) => (value > 0 ? '+1' : fixed(value, 0)) },
      ],
      lines: () => [
        {
          xs: view()?.history.times ?? [],
          ys: view()?.history.values[view()?.bandIndex ?? 0] ?? [],
          colour: (ink) => ink.soft,
          width: 2,
        },
      ],
      under(pen) {
        const trace = view();
        if (trace) paintTraceUnder(pen, trace);
      },
      over(pen) {
        const trace = view();
        if (trace) paintTraceOver(pen, trace);
      },
    });
  });
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
  return plotOf((view) => {
    const range = (): number => view()?.rangeMs ?? 11;
    const perMs = (): number => view()?.cmPerMs ?? 34.3;
    const height = (): number => view()?.height ?? 1;
    const unitAtZero = (ms: number, unit: string): string => (Math.abs(ms) < 1e-9 ? unit : '');
    return chart(host, {
      padding: [0, 10],
      x: () => [-range(), range()],
      y: () => [-1.08 * height(), 1.08 * height()],
      axes: [
        {
          side: 'bottom',
          size: 24,
          ticks: () => ticks(range() * perMs()).map((cm) => cm / perMs()),
          text: (ms) => `${fixed(ms * perMs(), 0)}${unitAtZero(ms, ' cm')}`,
        },
        {
          side: 'left',
          size: 40,
          ticks: () => [-height(), 0, height()],
          text: (value) => (value === 0 ? '0' : fixed(value, 2)),
        },
        {
          side: 'top',
          size: 22,
          ticks: () => ticks(range(), 2),
          text: (ms) => `${fixed(ms, range() < 2 ? 1 : 0)}${unitAtZero(ms, ' ms')}`,
          bare: true,
        },
      ],
      lines() {
        const now = view();
        if (!now || now.hits === 0) return [];
        return [{ xs: now.lagsMs, ys: now.values, colour: (ink) => ink.ink, width: 1.75, fill: (ink) => ink.faint }];
      },
      over: (pen) => paintArrival(pen, view()),
    });
  });
}
