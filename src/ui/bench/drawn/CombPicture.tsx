/** A+B over frequency, against the louder mic alone; dashed and fainter: as it was before what was done last. */
import { createMemo, For, type JSX, Show } from 'solid-js';
import type { Teaching } from '../../../state/teaching/teaching';
import { alongOf, combCurve } from '../../../teaching/bench/comb';
import { firstNotchHz } from '../../../teaching/bench/figures';
import type { Bench } from '../../../teaching/bench/model';
import { combWords } from '../../../teaching/words/benchWords';
import { hzLabel } from '../../../text/frequency';
import { fixed, signed } from '../../../text/number';
import { createPictureRoom, PictureRoom } from './PictureRoom';

const TOP_DB = 9;
const BOTTOM_DB = -30;
const LINES_DB = [6, 0, -10, -20] as const;
const TICKS_HZ = [100, 300, 1000, 3000, 10000] as const;
/** for the letters on the left, in letters */
const LEFT = 2.6;
/** the mark of the first notch, px */
const MARK = 12;

export function CombPicture(props: { teaching: Teaching }): JSX.Element {
  const { bench, before, figures } = props.teaching;
  const room = createPictureRoom({ width: 560, height: 260 });
  const { size } = room;
  const left = (): number => LEFT * size().letters;
  const bottom = (): number => size().height - 1.2 * size().letters - MARK;
  const x = (along: number): number => left() + along * (size().width - left());
  const y = (db: number): number => (bottom() * (TOP_DB - Math.max(BOTTOM_DB, db))) / (TOP_DB - BOTTOM_DB);
  /** inside the picture; low down there is no room for both +6 and 0 */
  const tickY = (db: number): number => Math.max(0.45 * size().letters, y(db));
  const hasRoom = (db: number): boolean => db <= 0 || tickY(0) - tickY(db) >= 0.72 * size().letters;
  const line = (of: Bench): string => {
    const points = Math.max(200, Math.min(2400, Math.round(2 * size().width)));
    return combCurve(of, points)
      .map(({ along, db }, i) => `${i === 0 ? 'M' : 'L'}${x(along).toFixed(1)} ${y(db).toFixed(1)}`)
      .join('');
  };
  const now = createMemo(() => line(bench()));
  const was = createMemo(() => {
    const it = before();
    return it && line(it);
  });
  const notch = (): number | null => firstNotchHz(figures());
  return (
    <figure class="bench-comb" data-first-notch-hz={notch()?.toFixed(1) ?? ''}>
      <figcaption>
        <span class="bench-comb-name">A+B, dB re the louder mic alone</span>
        <Show when={before()}>
          <span class="bench-key">
            <svg viewBox="0 0 40 10" aria-hidden="true">
              <path class="bench-curve-before" d="M1 5H39" />
            </svg>{' '}
            before
          </span>
        </Show>
        <span class="unseen">{combWords(bench(), figures())}</span>
      </figcaption>
      <PictureRoom room={room}>
        <For each={LINES_DB}>
          {(db) => (
            <>
              <path class="bench-grid" classList={{ 'is-zero': db === 0 }} d={`M${left()} ${y(db)}H${size().width}`} />
              <Show when={hasRoom(db)}>
                <text class="bench-tick" x={left() - 5} y={tickY(db)} text-anchor="end" dominant-baseline="central">
                  {db > 0 ? signed(db, 0) : fixed(db, 0)}
                </text>
              </Show>
            </>
          )}
        </For>
        <For each={TICKS_HZ}>
          {(hz, i) => (
            <>
              <path class="bench-grid" d={`M${x(alongOf(hz))} 0V${bottom()}`} />
              <text class="bench-tick" x={x(alongOf(hz))} y={size().height - 3} text-anchor="middle">
                {hzLabel(hz, i())}
              </text>
            </>
          )}
        </For>
        <Show when={was()}>{(d) => <path class="bench-curve-before" d={d()} />}</Show>
        <path class="bench-curve" d={now()} />
        <Show when={notch()}>
          {(hz) => (
            <Show when={alongOf(hz()) >= 0 && alongOf(hz()) <= 1}>
              <path class="bench-notch" d={`M${x(alongOf(hz()))} ${bottom()}l-8 ${MARK}h16z`} />
            </Show>
          )}
        </Show>
      </PictureRoom>
    </figure>
  );
}
