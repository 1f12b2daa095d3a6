import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** The size of an element's inside, px. */
export function createRoom(first: { width: number; height: number }): {
  size: Accessor<{ width: number; height: number }>;
  watch: (element: Element) => void;
} {
  const [size, setSize] = createSignal(first);
  const observer = new ResizeObserver(([entry]) => {
    const { width = 0, height = 0 } = entry?.contentRect ?? {};
    if (width >= 1 && height >= 1) setSize({ width, height });
  });
  onCleanup(() => observer.disconnect());
  return { size, watch: (element) => observer.observe(element) };
}
