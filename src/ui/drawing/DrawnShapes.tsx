/** What the drawing of the kit is made of, on the screen and on paper: drums, the stool, a line's mark, a microphone. */
import { For, type JSX, Show } from 'solid-js';
import type { Box } from '../../sheet/drawing/geometry';
import {
  DRUMMER,
  type DrawnDrum,
  type DrawnMicrophone,
  type KitDrawing,
  markLines,
  SHAPE,
} from '../../sheet/drawing/kitDrawing';
import type { PairMark } from '../../sheet/drawing/pairMarks';
import { boxPath, ringPath } from './handDrawn';

/** from a line's top to where its letters stand, in letters */
const BASE = 0.95;
const LINE = 1.25;

/** Lines of text in the middle of a box. */
function Lines(props: {
  box: Box;
  lines: readonly string[];
  letters: number;
  class: string;
  from?: number;
}): JSX.Element {
  const top = (): number => props.box.y - (props.lines.length * LINE * props.letters) / 2;
  return (
    <For each={props.lines}>
      {(text, i) => (
        <text
          class={`${props.class} ${i() === 0 ? '' : 'is-second'}`}
          x={props.box.x}
          y={top() + (i() * LINE + BASE) * props.letters}
          text-anchor="middle"
        >
          {`${text} `}
        </text>
      )}
    </For>
  );
}

const seedOf = (name: string): number => [...name].reduce((sum, letter) => sum + (letter.codePointAt(0) ?? 0), 3);

export function DrumDrawn(props: { drum: DrawnDrum; letters: number }): JSX.Element {
  const inner = () => {
    const part = props.drum.shape === 'cymbal' ? 0.22 : 0.9;
    return { x: props.drum.reach.x * part, y: props.drum.reach.y * part };
  };
  const seed = (): number => seedOf(props.drum.drum);
  return (
    <>
      <Show
        when={props.drum.shape === 'kick'}
        fallback={
          <>
            <path class="drawn-skin" d={ringPath(props.drum.at, props.drum.reach, seed())} />
            <path class="drawn-hoop" d={ringPath(props.drum.at, inner(), seed() + 20)} />
          </>
        }
      >
        <path class="drawn-skin" d={boxPath(props.drum.at, props.drum.reach, seed())} />
        <path class="drawn-hoop" d={hoopsPath(props.drum)} />
      </Show>
      <Show when={props.drum.name}>
        {(box) => <Lines box={box()} lines={[props.drum.drum]} letters={props.letters} class="drawn-drum-name" />}
      </Show>
    </>
  );
}

/** A kick lies on its side: its two hoops, seen from above. */
function hoopsPath({ at, reach }: DrawnDrum): string {
  const side = (dy: number): string =>
    `M${(at.x - 1.05 * reach.x).toFixed(1)} ${(at.y + dy * reach.y).toFixed(1)}H${(at.x + 1.05 * reach.x).toFixed(1)}`;
  return `${side(-0.82)}${side(0.82)}`;
}

export function StoolDrawn(props: { stool: KitDrawing['stool']; letters: number }): JSX.Element {
  const reach = () => ({ x: props.stool.reach, y: props.stool.reach });
  return (
    <>
      <path class="drawn-hoop" d={ringPath(props.stool.at, reach(), 11)} />
      <Lines box={props.stool.name} lines={[DRUMMER]} letters={props.letters} class="drawn-drum-name" />
    </>
  );
}

/** Its number within, a stroke through it where its polarity switch is inverted. */
export function MicrophoneDrawn(props: {
  microphone: DrawnMicrophone;
  inverted: boolean;
  reach: number;
  letters: number;
}): JSX.Element {
  const at = () => props.microphone.at;
  const stroke = (): string => {
    const [near, far] = [props.reach * 0.72, props.reach * 1.2];
    const { x, y } = at();
    return `M${x + near} ${y - near}L${x + far} ${y - far}M${x - near} ${y + near}L${x - far} ${y + far}`;
  };
  return (
    <>
      <circle class="drawn-ring" cx={at().x} cy={at().y} r={props.reach} />
      <Show when={props.inverted}>
        <path class="drawn-inverted" d={stroke()} />
      </Show>
      <text class="drawn-number" x={at().x} y={at().y + 0.35 * props.letters} text-anchor="middle">
        {`${props.microphone.number} `}
      </text>
      <Show when={props.microphone.name}>
        {(box) => <Lines box={box()} lines={props.microphone.lines} letters={props.letters} class="drawn-name" />}
      </Show>
    </>
  );
}

/** What was found and what is left, in a box; before the last line a shape: ▸ to do, ✓ nothing left, ? not certain. */
export function MarkDrawn(props: { mark: PairMark; box: Box; letters: number }): JSX.Element {
  const lines = (): string[] => markLines(props.mark);
  const left = (): number => props.box.x - props.box.width / 2;
  const top = (): number => props.box.y - (lines().length * LINE * props.letters) / 2;
  const shape = (): string => {
    const k = props.letters;
    const x = left() + 0.4 * k;
    const y = top() + ((lines().length - 1) * LINE + 0.28) * k;
    if (props.mark.state === 'todo') return `M${x} ${y}L${x + 0.8 * k} ${y + 0.36 * k}L${x} ${y + 0.72 * k}Z`;
    return `M${x} ${y + 0.35 * k}L${x + 0.3 * k} ${y + 0.7 * k}L${x + 0.9 * k} ${y - 0.1 * k}`;
  };
  return (
    <g class={`drawn-mark is-${props.mark.state}`} classList={{ 'is-next': props.mark.next }}>
      <rect
        class="drawn-paper"
        x={left()}
        y={props.box.y - props.box.height / 2}
        width={props.box.width}
        height={props.box.height}
        rx={0.35 * props.letters}
      />
      <Show
        when={props.mark.state !== 'ask' || props.mark.next}
        fallback={
          <text
            class="drawn-ask"
            x={left() + 0.45 * props.letters}
            y={top() + ((lines().length - 1) * LINE + BASE) * props.letters}
          >
            ?
          </text>
        }
      >
        <path
          class="drawn-shape"
          d={props.mark.next ? shapeNext(left(), top(), lines().length, props.letters) : shape()}
        />
      </Show>
      <For each={lines()}>
        {(text, i) => (
          <text
            class={i() === lines().length - 1 ? 'drawn-last' : 'drawn-first'}
            x={left() + (i() === lines().length - 1 ? SHAPE + 0.3 : 0.4) * props.letters}
            y={top() + (i() * LINE + BASE) * props.letters}
          >
            {`${text} `}
          </text>
        )}
      </For>
    </g>
  );
}

/** Two points ahead: this one is next. */
function shapeNext(left: number, top: number, lines: number, k: number): string {
  const y = top + ((lines - 1) * LINE + 0.28) * k;
  const point = (x: number): string => `M${x} ${y}L${x + 0.45 * k} ${y + 0.36 * k}L${x} ${y + 0.72 * k}Z`;
  return point(left + 0.3 * k) + point(left + 0.75 * k);
}
