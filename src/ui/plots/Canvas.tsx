/** A plot's place, and the line by which a person reads it out: under the pointer, or by the arrow keys. */
import { createEffect, createSignal, createUniqueId, type JSX, on, onCleanup, onMount, Show, untrack } from 'solid-js';
import { onComeBack } from '../page/onComeBack';
import { useApp } from '../shared/appScope';
import { keyTo, type ReadOut } from './keyTo';
import type { Plot } from './plots';

/** Makes the plot when its place is there, draws when `view` changes, recolours with the lights. */
export function Canvas<View>(props: {
  make: (host: HTMLElement) => Plot<View>;
  view: () => View;
  readOut: ReadOut;
}): JSX.Element {
  const { inkVersion } = useApp();
  const id = createUniqueId();
  const [spoken, setSpoken] = createSignal('');
  let host!: HTMLDivElement;
  let cross!: HTMLElement;
  let plot: Plot<View> | null = null;

  const place = (): void => {
    const { at } = untrack(() => props.readOut);
    cross.hidden = at === null;
    if (at === null || plot === null) return;
    const [top, height] = plot.down();
    cross.style.height = `${height}px`;
    cross.style.transform = `translate(${plot.across(at)}px, ${top}px)`;
  };
  onMount(() => {
    const made = props.make(host);
    plot = made;
    // nobody sees a hidden page: it is drawn when it is come back to
    createEffect(() => {
      const view = props.view();
      if (!document.hidden) made.draw(view);
      // scales follow the view in a task of their own
      if (!cross.hidden) queueMicrotask(place);
    });
    onComeBack(() => made.draw(untrack(props.view)));
    createEffect(on(inkVersion, () => made.recolour(), { defer: true }));
    createEffect(on(() => props.readOut.at, place));
    onCleanup(() => {
      plot = null;
      made.destroy();
    });
  });

  const point = (event: PointerEvent): void => {
    if (plot === null) return;
    const { min, max, set, take } = props.readOut;
    const value = plot.valueAt(event.clientX - host.getBoundingClientRect().left);
    if (!Number.isFinite(value)) return;
    const at = Math.max(min, Math.min(max, value));
    set(at);
    if (event.type === 'pointerdown' || event.buttons === 1) take?.(at);
  };
  const byKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    // the focus stays, nothing is read out any more
    if (event.key === 'Escape') done();
    const to = keyTo(event, props.readOut);
    if (to === null) return;
    event.preventDefault();
    props.readOut.set(to);
    props.readOut.take?.(to);
    setSpoken(props.readOut.say(to));
  };
  const done = (): void => {
    setSpoken('');
    props.readOut.set(null);
  };
  return (
    <div
      class="canvas"
      role="slider"
      tabIndex={0}
      aria-label={props.readOut.name}
      aria-describedby={id}
      aria-valuemin={props.readOut.min}
      aria-valuemax={props.readOut.max}
      aria-valuenow={props.readOut.at ?? props.readOut.start}
      aria-valuetext={spoken() || 'arrow keys read it out'}
      ref={host}
      onPointerMove={point}
      onPointerDown={point}
      onPointerLeave={(event) => event.pointerType === 'mouse' && done()}
      onKeyDown={byKey}
      onBlur={done}
    >
      <p class="unseen" id={id}>
        {props.readOut.text}
      </p>
      <i class="cross" ref={cross} hidden />
    </div>
  );
}

/** A place of its own beside a plot: what is read out, or what else is to be said. It never changes its size. */
export function Slot(props: { readOut: ReadOut; children: JSX.Element }): JSX.Element {
  return (
    <p class="legend slot" data-reading={String(props.readOut.at !== null)}>
      <Show when={props.readOut.at !== null} fallback={props.children}>
        {props.readOut.say(props.readOut.at as number)}
      </Show>
    </p>
  );
}
