/** The last of a list that scrolls: tells how many of its rows lie below its edge, or are cut off by it. */
import { createSignal, type JSX, onCleanup, onMount, Show } from 'solid-js';

/** the line covers so much of the list, px; as `.more-below` says */
const LINE_PX = 22;

/** @param props.rows selector of the list's rows; the list is the element that this one stands in */
export function MoreBelow(props: { rows: string }): JSX.Element {
  const [more, setMore] = createSignal(0);
  let line: HTMLParagraphElement | undefined;
  const count = (): void => {
    const list = line?.parentElement;
    if (!list) return;
    const isAtEnd = list.scrollHeight - list.scrollTop - list.clientHeight <= 2;
    const edge = list.getBoundingClientRect().bottom - LINE_PX;
    const below = [...list.querySelectorAll(props.rows)].filter((row) => row.getBoundingClientRect().bottom > edge + 1);
    setMore(isAtEnd ? 0 : below.length);
  };
  const size = new ResizeObserver(count);
  const text = new MutationObserver(count);
  onMount(() => {
    const list = line?.parentElement;
    if (!list) return;
    size.observe(list);
    text.observe(list, { childList: true, characterData: true, subtree: true });
    list.addEventListener('scroll', count, { passive: true });
  });
  onCleanup(() => {
    size.disconnect();
    text.disconnect();
  });
  // whoever doesn't see it goes through the list itself
  return (
    <p class="more-below" ref={line} aria-hidden="true">
      <Show when={more() > 0}>
        <span>{more()} more below ↓</span>
      </Show>
    </p>
  );
}
