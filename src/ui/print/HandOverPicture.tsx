/** One small picture of a pair's sum, before and after, with what it shows in words beside it. */
import { For, type JSX } from 'solid-js';
import type { SumPicture } from '../../sheet/print/handOverPictures';
import { SUM_TICKS_HZ } from '../../state/views/sumView';
import { signed } from '../../text/number';
import { Unbroken } from '../shared/Unbroken';
import { DB_LINES, FRAME, HEIGHT, HZ_NUMBERS, sumPath, WIDTH, xOf, yOf } from './sumPicture';

export function HandOverPicture(props: { picture: SumPicture }): JSX.Element {
  return (
    <figure class="ho-picture">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Sum of ${props.picture.title}, before and after: described beside it`}
      >
        <For each={SUM_TICKS_HZ}>{(hz) => <path class="ho-grid" d={`M${xOf(hz)} ${FRAME.top}V${FRAME.bottom}`} />}</For>
        <For each={DB_LINES}>
          {(db) => (
            <>
              <path class={db === 0 ? 'ho-zero' : 'ho-grid'} d={`M${FRAME.left} ${yOf(db)}H${FRAME.right}`} />
              <text x={FRAME.left - 2} y={yOf(db) + 3.2} text-anchor="end">
                {signed(db, 0)}
              </text>
            </>
          )}
        </For>
        <For each={HZ_NUMBERS}>
          {([hz, text]) => (
            <text x={xOf(hz)} y={FRAME.bottom + 11} text-anchor="middle">
              {text}
            </text>
          )}
        </For>
        <text x={FRAME.left + 3} y={FRAME.bottom - 3}>
          dB
        </text>
        <path class="ho-line ho-before" d={sumPath(props.picture.before)} />
        <path class="ho-line ho-after" d={sumPath(props.picture.after)} />
      </svg>
      <figcaption>
        <b>{props.picture.title}</b>
        <For each={props.picture.text}>
          {(text) => (
            <>
              <Unbroken text={text} />{' '}
            </>
          )}
        </For>
      </figcaption>
    </figure>
  );
}
