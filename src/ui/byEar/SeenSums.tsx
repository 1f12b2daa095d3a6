/** What was heard, seen: the comb of the one, and of the other. Worked out from the known delay and polarity, levels equal. */
import { For, type JSX } from 'solid-js';
import { combDb } from '../../reading/acoustics';
import { alongOf, hzAlong } from '../../teaching/bench/comb';
import type { Heard, Question } from '../../teaching/byEar/round';
import { hzLabel } from '../../text/frequency';
import { fixed, signed } from '../../text/number';
import { createRoom } from '../shared/createRoom';

/** for the figures on the left and below, px */
const [LEFT, BELOW] = [56, 26];
const [TOP_DB, BOTTOM_DB] = [9, -24];
const LINES_DB = [6, 0, -6, -12, -18, BOTTOM_DB] as const;
const TICKS_HZ = [50, 100, 200, 500, 1000, 2000, 5000, 10000] as const;
const STEPS = 600;

/** narrower, px, and only every other frequency has room for its figure */
const NARROW = 420;

/** A+B re one mic alone, of the pair as it is heard, dB. */
function sumsDb({ pair }: Question, { invertB, delayBSamples }: Heard): { hz: number; db: number }[] {
  const seconds = (pair.delaySamples + delayBSamples) / pair.sampleRate;
  const polarity = (pair.polarity === 'inverted') !== invertB ? 'inverted' : 'same';
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const hz = hzAlong(i / STEPS);
    return { hz, db: combDb(hz, seconds, polarity).reLouderDb };
  });
}

export function SeenSums(props: { question: Question }): JSX.Element {
  const room = createRoom({ width: 640, height: 230 });
  const width = (): number => room.size().width;
  const bottom = (): number => room.size().height - BELOW;
  const x = (hz: number): number => LEFT + alongOf(hz) * (width() - LEFT);
  const y = (db: number): number => 2 + ((bottom() - 4) * (TOP_DB - Math.max(BOTTOM_DB, db))) / (TOP_DB - BOTTOM_DB);
  const curve = (heard: Heard): string =>
    sumsDb(props.question, heard)
      .map(({ hz, db }, i) => `${i === 0 ? 'M' : 'L'}${x(hz).toFixed(1)} ${y(db).toFixed(1)}`)
      .join('');
  const ticks = () => TICKS_HZ.filter((_, i) => width() >= NARROW || i % 2 === 0);
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
      <div class="by-ear-room" ref={(it) => room.watch(it)}>
        <svg viewBox={`0 0 ${width()} ${room.size().height}`} aria-hidden="true">
          <For each={LINES_DB}>
            {(db) => (
              <>
                <path class="grid" classList={{ 'is-zero': db === 0 }} d={`M${LEFT} ${y(db)}H${width()}`} />
                <text x={LEFT - 6} y={y(db)} text-anchor="end" dominant-baseline="central">
                  {db === BOTTOM_DB ? '≤ ' : ''}
                  {db > 0 ? signed(db, 0) : fixed(db, 0)}
                </text>
              </>
            )}
          </For>
          <For each={ticks()}>
            {(hz, i) => (
              <>
                <path class="grid" d={`M${x(hz)} 0V${bottom()}`} />
                <text x={x(hz)} y={room.size().height - 6} text-anchor="middle">
                  {hzLabel(hz, i())}
                </text>
              </>
            )}
          </For>
          <path class="sum-y" d={curve(props.question.y)} />
          <path class="sum-x" d={curve(props.question.x)} />
        </svg>
      </div>
    </figure>
  );
}
