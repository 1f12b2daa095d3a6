/** A mic that looks at the place hit; its capsule is drawn where it is, behind the grille. */
import { type JSX, Show } from 'solid-js';
import { capsuleAt } from '../../../teaching/bench/drums';
import type { Bench, MicId } from '../../../teaching/bench/model';
import { micName } from '../../../teaching/words/benchWords';
import { bodyOf, letterOf } from './micPlaces';
import { at, type Scale } from './scale';

export function MicShape(props: {
  bench: Bench;
  mic: MicId;
  scale: Scale;
  push: 1 | -1;
  reached: boolean;
}): JSX.Element {
  const one = () => props.bench[props.mic];
  const grille = () => at(props.scale, one().grille);
  const capsule = () => at(props.scale, capsuleAt(props.bench, one()));
  const body = () => bodyOf(props.bench, props.mic, props.scale);
  const wide = (): number => body().wide;
  const long = (): number => body().long;
  const letter = () => letterOf(props.bench, props.mic, props.scale);
  return (
    <g class={`bench-mic-shape is-${props.mic}`} classList={{ 'is-speaker': one().kind === 'speaker' }}>
      <g transform={`translate(${grille().x} ${grille().y}) rotate(${body().turn})`}>
        <Show
          when={one().kind === 'mic'}
          fallback={
            <path
              class="bench-body"
              d={`M0 ${-1.6 * wide()}V${1.6 * wide()}L${0.5 * long()} ${0.6 * wide()}V${-0.6 * wide()}Z`}
            />
          }
        >
          <rect class="bench-body" x={0} y={-wide() / 2} width={long()} height={wide()} rx={wide() / 3} />
          <path class="bench-grille" d={`M${0.34 * long()} ${-wide() / 2}V${wide() / 2}`} />
        </Show>
      </g>
      <circle
        class="bench-capsule"
        classList={{ 'is-hidden': one().bodyCm >= 1 }}
        cx={capsule().x}
        cy={capsule().y}
        r={Math.max(4, wide() / 3.4)}
      />
      <text
        class="bench-letter"
        x={letter().x}
        y={letter().y}
        style={{ 'font-size': `${1.3 * props.scale.letters}px` }}
        text-anchor="middle"
        dominant-baseline="central"
      >
        {micName(props.mic)}
      </text>
      <Show when={props.reached}>
        <PushArrow
          x={letter().x}
          y={letter().y}
          push={props.push}
          size={1.5 * props.scale.letters}
          side={letter().x < grille().x ? -1 : 1}
        />
      </Show>
    </g>
  );
}

/** Beside the letter: which way its first push goes. */
function PushArrow(props: { x: number; y: number; push: 1 | -1; size: number; side: 1 | -1 }): JSX.Element {
  const up = (): number => -props.push;
  return (
    <path
      class="bench-push"
      d={`M${props.x + 0.9 * props.side * props.size} ${props.y - 0.7 * up() * props.size}v${0.8 * up() * props.size}m${-0.3 * props.size} 0h${0.6 * props.size}l${
        -0.3 * props.size
      } ${0.6 * up() * props.size}z`}
    />
  );
}
