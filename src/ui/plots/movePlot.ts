/** A band's level against how far B is moved. */
import { MOST_MOVE_CM } from '../../advice/tryOut/tried';
import { SUM_LOW_DB } from '../../state/views/combView';
import type { MoveView } from '../../state/views/triedView';
import { fixed } from '../../text/number';
import { paintMoveOver, paintMoveUnder } from './paint/paintMove';
import type { Plot } from './plots';
import { sheet } from './sheet';

const TICKS_CM = [-60, -40, -20, 0, 20, 40, 60];
const TICKS_DB = [6, 0, -6, -12, -18];
/** the highest that a sum can lie, and room for a name above it */
const TOP_DB = 9.5;

/** px: narrower plots have every other figure */
const NARROW_PX = 460;

const tick = (cm: number): string =>
  cm === -MOST_MOVE_CM ? '60 cm back' : cm === MOST_MOVE_CM ? '60 cm closer' : fixed(Math.abs(cm), 0);

export function movePlot(host: HTMLElement): Plot<MoveView | null> {
  let view: MoveView | null = null;
  const page = sheet(
    host,
    {
      padding: [4, 40, 0, 0],
      scales: {
        x: { time: false, range: [-MOST_MOVE_CM, MOST_MOVE_CM] },
        y: { range: [SUM_LOW_DB, TOP_DB] },
      },
      axes: [
        {
          splits: () => TICKS_CM,
          filter: (_u, splits) => splits,
          values: (u, v) => v.map((cm) => (u.width < NARROW_PX && Math.abs(cm) === 40 ? '' : tick(cm))),
          size: 26,
        },
        { splits: () => TICKS_DB, values: (_u, v) => v.map((n) => (n === 6 ? '+6 dB' : fixed(n, 0))), size: 44 },
      ],
      series: [{}, { paths: () => null, points: { show: false } }],
    },
    [
      [-MOST_MOVE_CM, MOST_MOVE_CM],
      [null, null],
    ],
    (pen) => view && paintMoveUnder(pen, view),
    (pen) => view && paintMoveOver(pen, view),
  );
  const { across, valueAt, down, recolour, destroy } = page;
  return {
    draw(next) {
      view = next;
      page.plot.redraw(false, true);
    },
    across,
    valueAt,
    down,
    recolour,
    destroy,
  };
}
