/** Mics are put elsewhere: dragged by a pointer, or by the arrow keys, 1 cm a press, 1 mm with Shift. */
import type { Accessor } from 'solid-js';
import type { Teaching } from '../../../state/teaching/teaching';
import { moveMic, stepMic } from '../../../teaching/bench/edits';
import type { MicId, Spot } from '../../../teaching/bench/model';

const STEP_CM = 1;
const FINE_STEP_CM = 0.1;

const WAYS: Readonly<Record<string, Spot>> = {
  ArrowLeft: { xCm: -1, yCm: 0 },
  ArrowRight: { xCm: 1, yCm: 0 },
  ArrowUp: { xCm: 0, yCm: 1 },
  ArrowDown: { xCm: 0, yCm: -1 },
};

export interface BenchMoves {
  onPointerDown(event: PointerEvent, mic: MicId): void;
  onKeyDown(event: KeyboardEvent, mic: MicId): void;
  /** an arrow was let go */
  onKeyUp(): void;
  /** the focus went elsewhere */
  onBlur(): void;
}

/** @param perCm px of a cm in the drawing */
export function createBenchMoves(teaching: Teaching, perCm: Accessor<number>): BenchMoves {
  let drags = 0;
  return {
    onPointerDown(event, mic) {
      if (event.button !== 0) return;
      const element = event.currentTarget as SVGElement;
      const start = { x: event.clientX, y: event.clientY };
      const from = teaching.bench()[mic].grille;
      const of = `drag-${++drags}`;
      const done = new AbortController();
      const listen = (type: string, act: (e: PointerEvent) => void): void =>
        element.addEventListener(type, act as EventListener, { signal: done.signal });
      element.setPointerCapture(event.pointerId);
      listen('pointermove', (e) => {
        const to = {
          xCm: from.xCm + (e.clientX - start.x) / perCm(),
          yCm: from.yCm - (e.clientY - start.y) / perCm(),
        };
        teaching.drag(of, (bench) => moveMic(bench, mic, to));
      });
      listen('pointerup', () => {
        done.abort();
        teaching.settle();
      });
      listen('pointercancel', () => {
        done.abort();
        teaching.drag(of, (bench) => moveMic(bench, mic, from));
      });
    },
    onKeyDown(event, mic) {
      const way = WAYS[event.key];
      if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      event.stopPropagation();
      const cm = event.shiftKey ? FINE_STEP_CM : STEP_CM;
      teaching.drag(`keys-${mic}`, (bench) => stepMic(bench, mic, { xCm: way.xCm * cm, yCm: way.yCm * cm }));
    },
    onKeyUp: teaching.settle,
    onBlur() {
      teaching.settle();
      teaching.rest();
    },
  };
}
