/** Text in a place of fixed size is set smaller, step by step, until all of it is there: the place doesn’t grow. */
import { onCleanup, onMount } from 'solid-js';

/** of smaller type, and of what is left out; at the last one what is still too long can be scrolled */
const STEPS = 6;

const isOver = (box: Element): boolean => box.scrollHeight > box.clientHeight + 1;

/** @param place has the step as `data-fit`, for its styles */
export function createFit(place: HTMLElement): void {
  const fit = (): void => {
    let step = 0;
    place.dataset.fit = '0';
    while (step < STEPS && isOver(place)) place.dataset.fit = String(++step);
  };
  const size = new ResizeObserver(fit);
  const text = new MutationObserver(fit);
  onMount(() => {
    size.observe(place);
    text.observe(place, { childList: true, characterData: true, subtree: true });
  });
  onCleanup(() => {
    size.disconnect();
    text.disconnect();
  });
}
