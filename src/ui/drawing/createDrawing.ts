/** The open kit's drawing at the size that its place on the screen has, as it stands while something is being moved. */
import { type Accessor, createMemo, createSignal, onCleanup } from 'solid-js';
import type { KitSheet } from '../../sheet/document/model';
import { type DrawnSize, type KitDrawing, kitDrawing } from '../../sheet/drawing/kitDrawing';
import { micNotes, type PairMark, pairMark } from '../../sheet/drawing/pairMarks';
import type { KitChoice } from '../../sheet/kit/kitChoice';

export interface DrawingParts {
  sheet: Accessor<KitSheet>;
  /** the same with what is on the move */
  shown: Accessor<KitSheet>;
  /** null: not worked out, or not yet */
  choice: Accessor<KitChoice | null>;
  /** id of the pair to do next */
  next: Accessor<string | null>;
  /** so many pairs may be drawn by now */
  rows: Accessor<number>;
  size: Accessor<DrawnSize>;
}

export function createDrawing(parts: DrawingParts): Accessor<KitDrawing> {
  const marks = createMemo((): PairMark[] =>
    parts
      .sheet()
      .pairs.slice(0, parts.rows())
      .map((pair) => pairMark(parts.sheet(), parts.choice(), pair, parts.next())),
  );
  const notes = createMemo(() => micNotes(parts.sheet(), parts.choice()));
  const moving = (): boolean => parts.shown() !== parts.sheet();
  return createMemo(() => kitDrawing(parts.shown(), marks(), notes(), { ...parts.size(), hasty: moving() }));
}

/** px; below that the letters are smaller */
const ROOMY = 700;
const LARGE = 1100;

/** The size of an element's inside, and of the letters in it. */
export function createSize(): { size: Accessor<DrawnSize>; watch: (element: Element) => void } {
  const [size, setSize] = createSignal<DrawnSize>({ width: 880, height: 560, letters: 14 });
  const observer = new ResizeObserver(([entry]) => {
    const { width = 0, height = 0 } = entry?.contentRect ?? {};
    if (width < 1 || height < 1) return;
    setSize({ width, height, letters: width < ROOMY ? 12 : width < LARGE ? 14 : 16 });
  });
  onCleanup(() => observer.disconnect());
  return { size, watch: (element) => observer.observe(element) };
}
