/** Drums and microphones are put elsewhere on the drawing: dragged by a pointer, or by the arrow keys. One step to undo each. */
import { type Accessor, createSignal } from 'solid-js';
import { placeDrum, placeMicrophone } from '../../sheet/document/edits';
import type { KitSheet, Place } from '../../sheet/document/model';

/** What is on the move; `from`: where it stood */
export interface Moving {
  what: 'microphone' | 'drum';
  id: string;
  from: Place;
  to: Place;
}

/** A finger that trembles drags nothing, px. */
const LEAST_DRAG_PX = 5;
/** of the drawing, with each press of an arrow */
const STEP = 0.02;
const FINE_STEP = 0.005;

const WAYS: Readonly<Record<string, Place>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

export const moved = (sheet: KitSheet, { what, id, from, to }: Moving): KitSheet =>
  what === 'drum' ? placeDrum(sheet, id, from, to) : placeMicrophone(sheet, id, to);

export interface Moves {
  moving: Accessor<Moving | null>;
  /** of an element that stands for a drum or a microphone */
  onPointerDown(event: PointerEvent, what: Moving['what'], id: string, from: Place): void;
  /** @returns true: the key was taken */
  onKeyDown(event: KeyboardEvent, what: Moving['what'], id: string, from: Place): boolean;
  /** an arrow was let go, or the focus went elsewhere: it stands where it is */
  settle(): void;
  /** a click that ends a drag is none */
  wasDrag(): boolean;
}

/** @param plan of one unit of a place, px */
export function createMoves(plan: Accessor<{ width: number; height: number }>, put: (moving: Moving) => void): Moves {
  const [moving, setMoving] = createSignal<Moving | null>(null);
  let dragged = false;
  const within = (value: number): number => Math.min(1, Math.max(0, value));
  const settle = (): void => {
    const now = moving();
    setMoving(null);
    if (now && (now.to.x !== now.from.x || now.to.y !== now.from.y)) put(now);
  };
  return {
    moving,
    settle,
    wasDrag: () => dragged,
    onPointerDown(event, what, id, from) {
      dragged = false;
      if (event.button !== 0) return;
      const element = event.currentTarget as Element;
      const start = { x: event.clientX, y: event.clientY };
      const done = new AbortController();
      const listen = (type: string, act: (e: PointerEvent) => void): void =>
        element.addEventListener(type, act as EventListener, { signal: done.signal });
      element.setPointerCapture(event.pointerId);
      listen('pointermove', (e) => {
        const [dx, dy] = [e.clientX - start.x, e.clientY - start.y];
        if (!dragged && Math.hypot(dx, dy) < LEAST_DRAG_PX) return;
        dragged = true;
        const { width, height } = plan();
        setMoving({ what, id, from, to: { x: within(from.x + dx / width), y: within(from.y + dy / height) } });
      });
      listen('pointerup', () => {
        done.abort();
        settle();
      });
      listen('pointercancel', () => {
        done.abort();
        setMoving(null);
      });
    },
    onKeyDown(event, what, id, from) {
      if (event.key === 'Escape' && moving()) {
        setMoving(null);
        return true;
      }
      const way = WAYS[event.key];
      if (!way || event.ctrlKey || event.metaKey || event.altKey) return false;
      const step = event.shiftKey ? FINE_STEP : STEP;
      const now = moving()?.id === id ? (moving() as Moving) : { what, id, from, to: from };
      setMoving({ ...now, to: { x: within(now.to.x + step * way.x), y: within(now.to.y + step * way.y) } });
      return true;
    },
  };
}
