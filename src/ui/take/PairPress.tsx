/** A pair of a take that can be opened on the meter. */
import { type JSX, Show } from 'solid-js';
import { type PairView, pairKey } from '../../state/take/pairView';
import type { PairReport } from '../../take/model';
import { stemOf } from '../../take/names';

/** @param instead what a press does where the meter would say something else than all tracks together; nothing: it stands as text */
export function PairPress(props: {
  view: PairView;
  drum: string;
  pair: PairReport;
  instead?: () => void;
  children: JSX.Element;
}): JSX.Element {
  const canOpen = (): boolean => props.view.canOpen(props.drum, props.pair);
  const act = (): void => {
    if (canOpen()) void props.view.open(props.drum, props.pair);
    else props.instead?.();
  };
  return (
    <Show when={canOpen() || props.instead} fallback={props.children}>
      <button
        type="button"
        class="take-pair"
        data-pair={pairKey(props.drum, props.pair)}
        disabled={props.view.opening()}
        title={canOpen() ? `${stemOf(props.pair.a)} – ${stemOf(props.pair.b)} on the meter` : props.pair.reason}
        onClick={act}
      >
        {props.children}
      </button>
    </Show>
  );
}

/** Whoever comes back from the meter goes on where they were. */
export function toPairOpenedLast(view: PairView): void {
  const last = view.last();
  if (last === null) return;
  queueMicrotask(() => document.querySelector<HTMLElement>(`[data-pair="${CSS.escape(last)}"]`)?.focus());
}
