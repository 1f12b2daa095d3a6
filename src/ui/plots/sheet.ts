/** A plot's canvas with its axes: the only file besides `plots` that knows uPlot. Zones, marks and labels are painted by others. */
import uPlot from 'uplot';
import { type Ink, inkOf } from './paint/ink';
import { type Pen, TYPE_PX } from './paint/pen';

/** Where values lie on the screen, CSS px from the left and the top edge of the plot's place. */
export interface Places {
  across(value: number): number;
  valueAt(px: number): number;
  /** where the plotting area begins, and how high it is */
  down(): [number, number];
}

type Painter = (pen: Pen) => void;

export interface Sheet extends Places {
  plot: uPlot;
  ink(): Ink;
  recolour(): void;
  destroy(): void;
}

export function sheet(
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
        ticks: { stroke: () => ink.soft, width: 1, size: 4, ...axis.ticks },
      })),
      hooks: { drawClear: [run(under)], draw: [run(over)] },
    },
    data,
    host,
  );
  const watch = new ResizeObserver(() => {
    const width = Math.max(80, host.clientWidth);
    const height = Math.max(60, host.clientHeight);
    if (width === plot.width && height === plot.height) return;
    plot.setSize({ width, height });
    // a scale may leave room that is as high at every size
    plot.redraw(true, true);
  });
  watch.observe(host);
  return {
    plot,
    ink: () => ink,
    across: (value) => plot.valToPos(value, 'x') + plot.bbox.left / uPlot.pxRatio,
    valueAt: (px) => plot.posToVal(px - plot.bbox.left / uPlot.pxRatio, 'x'),
    down: () => [plot.bbox.top / uPlot.pxRatio, plot.bbox.height / uPlot.pxRatio],
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
