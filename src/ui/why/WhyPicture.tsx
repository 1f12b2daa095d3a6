/** A hit as a picture: A above, B below, on one time axis; where each begins, and which way its first push goes. */
import { For, type JSX, Show } from 'solid-js';
import type { ChannelPicture, HitPicture } from '../../reading/hitPictures';
import { fixed } from '../../text/number';
import { ticksMs, wavePath } from './wavePath';

/** Heights of a channel's lane, in the units of the width. */
const SMALL_LANE = 60;
const LARGE_LANE = 96;
/** ±1 reaches over so much of half a lane */
const REACH = 0.88;

/** @param props.window of the time axis, ms: with it the picture is a large one, with ticks and letters */
export function WhyPicture(props: {
  picture: HitPicture | null;
  width: number;
  window?: { fromMs: number; lengthMs: number } | undefined;
}): JSX.Element {
  const lane = (): number => (props.window ? LARGE_LANE : SMALL_LANE);
  /** A's line goes through both lanes: B's push stands on it where the two are aligned. */
  const start = (at: number | null, top: number): string =>
    at === null ? '' : `M${(at * props.width).toFixed(1)} ${top}V${2 * lane()}`;
  return (
    <svg class="why-picture" viewBox={`0 0 ${props.width} ${2 * lane() + (props.window ? 18 : 0)}`} aria-hidden="true">
      <path class="mark-thin" d={`M0 ${lane() / 2}H${props.width}M0 ${1.5 * lane()}H${props.width}`} />
      <Show when={props.window}>
        {(span) => (
          <>
            <text x="2" y="16">
              A
            </text>
            <text x="2" y={lane() + 16}>
              B
            </text>
            <For each={ticksMs(span().fromMs, span().lengthMs)}>
              {(ms) => {
                const x = (): number => (ms - span().fromMs) / span().lengthMs;
                return (
                  <>
                    <path class="why-tick" d={`M${x() * props.width} 0V${2 * lane() + 3}`} />
                    <text
                      class="why-ms"
                      text-anchor={x() < 0.02 ? 'start' : x() > 0.98 ? 'end' : 'middle'}
                      x={x() * props.width}
                      y={2 * lane() + 15}
                    >
                      {fixed(ms, ms % 1 === 0 ? 0 : 1)}
                      {ms === 0 ? ' ms' : ''}
                    </text>
                  </>
                );
              }}
            </For>
          </>
        )}
      </Show>
      <Show when={props.picture}>
        {(picture) => (
          <>
            <For each={['a', 'b'] as const}>
              {(which) => <Channel of={picture()[which]} width={props.width} lane={lane()} letter={which} />}
            </For>
            <path class="why-start-a" d={start(picture().a.arrival, 0)} />
            <path class="why-start-b" d={start(picture().b.arrival, lane())} />
          </>
        )}
      </Show>
    </svg>
  );
}

function Channel(props: { of: ChannelPicture; width: number; lane: number; letter: 'a' | 'b' }): JSX.Element {
  const middle = (): number => (props.letter === 'a' ? 0.5 : 1.5) * props.lane;
  // an arrow beside the line, before the wave begins: up or down as the push goes
  const arrow = (): string => {
    const at = props.of.arrival;
    const way = props.of.push > 0 ? -1 : 1;
    return at === null ? '' : `M${(at * props.width - 9).toFixed(1)} ${middle()}v${16 * way}m-5 0h10l-5 ${9 * way}z`;
  };
  return (
    <g class={`why-${props.letter}`} data-push={props.of.push > 0 ? 'up' : props.of.push < 0 ? 'down' : ''}>
      <path class="why-wave" d={wavePath(props.of.columns, props.width, middle(), (REACH / 2) * props.lane)} />
      <path class="why-arrow" d={arrow()} />
    </g>
  );
}
