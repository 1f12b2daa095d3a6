/** Drawn marks: every state and polarity has a shape of its own, so that none depends on colour. */
import { For, type JSX, Match, Show, Switch } from 'solid-js';
import type { ReadingState } from '../../reading/codes';
import type { Polarity } from '../../reading/reading';
import type { Way } from '../../state/views/pushesView';

/** The way of B's first push, from A's as it was read. */
const bWayOf = (aWay: Way, polarity: Polarity | null): Way => (polarity === 'inverted' ? ((0 - aWay) as Way) : aWay);

/**
 * The first push of A and of B on two lines, one below the other, each up or down as it goes, B's set aside by its delay.
 * No push is drawn while A's way isn't known.
 */
export function PushMark(props: { polarity: Polarity | null; aWay: Way; shiftShare: number }): JSX.Element {
  const START = 62;
  const start = () => START + Math.max(-1, Math.min(1, props.shiftShare)) * 42;
  const hump = (x: number, y: number, way: Way): string => (way === 0 ? '' : `M${x} ${y} q15 ${way * -48} 30 0Z`);
  return (
    <svg class="push-mark" viewBox="0 0 160 114" aria-hidden="true">
      <text x="2" y="35">
        A
      </text>
      <text x="2" y="89">
        B
      </text>
      <path class="mark-line" d="M18 30H156M18 84H156" />
      <Show when={props.polarity !== null}>
        <path class="mark-fill-a" d={hump(START, 30, props.aWay)} />
        <path class="mark-thin" d={`M${START} 4V110`} />
        <path class="mark-fill-b" d={hump(start(), 84, bWayOf(props.aWay, props.polarity))} />
        <path class="mark-thin mark-b-line" d={`M${start()} 58V110`} />
      </Show>
    </svg>
  );
}

/** The two first pushes side by side, each up or down as it goes. */
export function PolarityMark(props: { polarity: Polarity | null; aWay: Way }): JSX.Element {
  const hump = (x: number, way: Way): string => (way === 0 ? '' : `M${x} 14 q8 ${way * -22} 16 0Z`);
  return (
    <svg class="mini-mark" viewBox="0 0 44 28" aria-hidden="true">
      <path class="mark-line" d="M1 14H43" />
      <Show when={props.polarity !== null}>
        <path class="mark-fill-a" d={hump(4, props.aWay)} />
        <path class="mark-fill-b" d={hump(24, bWayOf(props.aWay, props.polarity))} />
      </Show>
    </svg>
  );
}

/** The state as a shape; while listening, as many spokes are inked as hits are in. */
export function StateMark(props: {
  state: ReadingState | null;
  have: number;
  need: number;
  /** measured, and the distance isn't known well enough for a tick: only the push is drawn */
  rough?: boolean;
  /** nothing arrives any more: whatever the state was, no tick */
  old?: boolean;
}): JSX.Element {
  const spokes = () => {
    const need = Math.max(1, Math.min(12, props.need));
    return Array.from({ length: need }, (_, i) => {
      const turn = (i / need) * 2 * Math.PI - Math.PI / 2;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      return { x1: 20 + 7 * c, y1: 20 + 7 * s, x2: 20 + 16 * c, y2: 20 + 16 * s, on: i < props.have };
    });
  };
  return (
    <svg class="state-mark" viewBox="0 0 40 40" aria-hidden="true">
      <Switch fallback={<circle class="mark-line mark-dots" cx="20" cy="20" r="15" />}>
        <Match when={props.old}>
          <circle class="mark-line mark-dots" cx="20" cy="20" r="16" />
          <path class="mark-line" d="M20 10V20L27 25" />
        </Match>
        <Match when={props.state === 'measured' && props.rough}>
          <circle class="mark-line" cx="20" cy="20" r="16" />
          <path class="mark-solid" d="M10 23 Q20 3 30 23Z" />
        </Match>
        <Match when={props.state === 'measured'}>
          <circle class="mark-solid" cx="20" cy="20" r="17" />
          <path class="mark-cut" d="M11 20.5 L17.5 27 L29 14" />
        </Match>
        <Match when={props.state === 'following'}>
          <path class="mark-solid" d="M16 6 L34 20 L16 34Z" />
          <path class="mark-line" d="M10 11V29M4 15V25" />
        </Match>
        <Match when={props.state === 'listening'}>
          <For each={spokes()}>
            {(s) => <line class={s.on ? 'mark-thick' : 'mark-thin'} x1={s.x1} y1={s.y1} x2={s.x2} y2={s.y2} />}
          </For>
        </Match>
        <Match when={props.state === 'unclear'}>
          <path class="mark-line" d="M20 3 L37 20 L20 37 L3 20Z" />
          <path class="mark-line" d="M15 16 q0 -6 5.5 -6 t5 5.5 q0 3 -5.5 6 v3 M20 29 v.5" />
        </Match>
        <Match when={props.state === 'same-signal'}>
          <path class="mark-thick" d="M6 14H34M6 26H34" />
        </Match>
        <Match when={props.state === 'overloaded'}>
          <path class="mark-thick" d="M3 34 L11 8 H29 L37 34" />
        </Match>
      </Switch>
    </svg>
  );
}

/** A triangle with a stroke and a dot: something needs a person. */
export function ProblemMark(): JSX.Element {
  return (
    <svg class="problem-mark" viewBox="0 0 40 40" aria-hidden="true">
      <path class="mark-line" d="M20 4 L37 35 H3Z" />
      <path class="mark-thick" d="M20 15V24M20 29V30" />
    </svg>
  );
}

/** A printer's register mark: the page's own sign. */
export function RegisterMark(): JSX.Element {
  return (
    <svg class="register-mark" viewBox="0 0 40 40" aria-hidden="true">
      <circle class="mark-line" cx="20" cy="20" r="11" />
      <path class="mark-line" d="M20 1V39M1 20H39" />
    </svg>
  );
}
