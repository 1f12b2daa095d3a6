/** How far a pair is, as a shape: an open box, a half one, a box with a tick, a question or a bar; two plugs while it is patched. */
import { type JSX, Match, Switch } from 'solid-js';

export type PairState = 'patch' | 'todo' | 'begun' | 'accepted' | 'unsure' | 'left';

export function PairMark(props: { state: PairState }): JSX.Element {
  return (
    <svg class="pair-mark" viewBox="0 0 28 28" aria-hidden="true">
      <Switch fallback={<path class="mark-line" d="M4 4H24V24H4Z" />}>
        <Match when={props.state === 'patch'}>
          <path class="mark-line" d="M2 9H11M17 9H26M2 19H11M17 19H26" />
          <path class="mark-solid" d="M9 6H15V12H9ZM9 16H15V22H9Z" />
        </Match>
        <Match when={props.state === 'begun'}>
          <path class="mark-line" d="M4 4H24V24H4Z" />
          <path class="mark-solid" d="M4 14H24V24H4Z" />
        </Match>
        <Match when={props.state === 'accepted'}>
          <path class="mark-solid" d="M3 3H25V25H3Z" />
          <path class="mark-cut" d="M8 14 L12.5 19 L21 9" />
        </Match>
        <Match when={props.state === 'unsure'}>
          <path class="mark-line" d="M4 4H24V24H4Z" />
          <path class="mark-line" d="M10.5 11.5 q0 -4 4 -4 t3.5 3.5 q0 2 -4 4 v2 M14 20.5 v.5" />
        </Match>
        <Match when={props.state === 'left'}>
          <path class="mark-line" d="M4 4H24V24H4Z" />
          <path class="mark-thick" d="M9 14H19" />
        </Match>
      </Switch>
    </svg>
  );
}
