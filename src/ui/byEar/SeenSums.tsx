/** What was heard, seen: the comb of the one, and of the other. Worked out from the known delay and polarity, levels equal. */
import { For, type JSX } from 'solid-js';
import { combDb } from '../../reading/acoustics';
import { alongOf, hzAlong } from '../../teaching/bench/comb';
import type { Heard, Question } from '../../teaching/byEar/round';
import { hzLabel } from '../../text/frequency';
import { fixed, signed } from '../../text/number';

const [WIDTH, HEIGHT, LEFT, BOTTOM] = [640, 230, 42, 204];
const [TOP_DB, BOTTOM_DB] = [9, -24];
const LINES_DB = [6, 0, -6, -12, -18] as const;
const TICKS_HZ = [50, 100, 200, 500, 1000, 2000, 5000, 10000] as const;
const STEPS = 600;

const x = (hz: number): number => LEFT + alongOf(hz) * (WIDTH - LEFT);
const y = (db: number): number => (BOTTOM * (TOP_DB - Math.max(BOTTOM_DB, db))) / (TOP_DB - BOTTOM_DB);

/** A+B re one mic alone, of the pair as it is heard. */
function curve({ pair }: Question, { invertB, delayBSamples }: Heard): string {
  const seconds = (pair.delaySamples + delayBSamples) / pair.sampleRate;
  const polarity = (pair.polarity === 'inverted') !== invertB ? 'inverted' : 'same';
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const hz = hzAlong(i / STEPS);
    return `${i === 0 ? 'M' : 'L'}${x(hz).toFixed(1)} ${y(combDb(hz, seconds, polarity).reLouderDb).toFixed(1)}`;
  }).join('');
}

export function SeenSums(props: { question: Question }): JSX.Element {
  const names = (): [string, string] =>
    props.question.kind === 'polarity' ? ['what you heard', 'the other way'] : ['X', 'Y'];
  return (
    <figure class="by-ear-sums">
      <figcaption>
        <span>A+B, dB re one mic alone, from delay and polarity alone</span>
        <For each={names()}>
          {(name, i) => (
            <span class="by-ear-key">
              <svg viewBox="0 0 40 10" aria-hidden="true">
                <path class={i() === 0 ? 'sum-x' : 'sum-y'} d="M1 5H39" />
              </svg>{' '}
              {name}
            </span>
          )}
        </For>
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
        <For each={LINES_DB}>
          {(db) => (
            <>
              <path class="grid" classList={{ 'is-zero': db === 0 }} d={`M${LEFT} ${y(db)}H${WIDTH}`} />
              <text x={LEFT - 6} y={y(db)} text-anchor="end" dominant-baseline="central">
                {db > 0 ? signed(db, 0) : fixed(db, 0)}
              </text>
            </>
          )}
        </For>
        <For each={TICKS_HZ}>
          {(hz, i) => (
            <>
              <path class="grid" d={`M${x(hz)} 0V${BOTTOM}`} />
              <text x={x(hz)} y={HEIGHT - 6} text-anchor="middle">
                {hzLabel(hz, i())}
              </text>
            </>
          )}
        </For>
        <path class="sum-y" d={curve(props.question, props.question.y)} />
        <path class="sum-x" d={curve(props.question, props.question.x)} />
      </svg>
    </figure>
  );
}
