/** Each answer as a mark, and the score on a line with what guessing gets. */
import { For, type JSX, Show } from 'solid-js';
import type { ByEar } from '../../state/byEar/byEar';
import { beyondLuck } from '../../teaching/byEar/luck';
import { QUESTIONS } from '../../teaching/byEar/round';
import { createRoom } from '../shared/createRoom';
import { beyondText, scoreText } from './byEarWords';

/** of the picture, px */
const [HEIGHT, MARGIN] = [64, 20];

export function Score(props: { byEar: ByEar }): JSX.Element {
  const { byEar } = props;
  const room = createRoom({ width: 600, height: HEIGHT });
  const width = (): number => room.size().width;
  const x = (right: number, of: number): number => MARGIN + ((width() - 2 * MARGIN) * right) / of;
  const of = (): number => byEar.answers().length;
  const right = (): number => byEar.rightSoFar();
  const least = (): number | null => beyondLuck(of());
  return (
    <section class="by-ear-score" aria-label="Score" data-right={right()} data-of={of()}>
      <ol class="by-ear-marks">
        <For each={Array.from({ length: QUESTIONS }, (_, i) => i)}>
          {(i) => {
            const said = () => byEar.answers()[i];
            const isRight = () => said() === byEar.questions()[i]?.truth;
            return (
              <li data-mark={said() === undefined ? 'open' : isRight() ? 'right' : 'wrong'}>
                <span aria-hidden="true">{said() === undefined ? '·' : isRight() ? '✓' : '✗'}</span>
                <span class="unseen">
                  {i + 1}: {said() === undefined ? 'open' : isRight() ? 'right' : 'wrong'}
                </span>
              </li>
            );
          }}
        </For>
      </ol>
      <p class="by-ear-total">{scoreText(right(), of())}</p>
      <Show when={of() > 0}>
        <div class="by-ear-line" ref={(it) => room.watch(it)}>
          <svg viewBox={`0 0 ${width()} ${HEIGHT}`} aria-hidden="true">
            <path class="axis" d={`M${MARGIN} 34H${width() - MARGIN}`} />
            <For each={Array.from({ length: of() + 1 }, (_, n) => n)}>
              {(n) => (
                <>
                  <path class="axis" d={`M${x(n, of())} 30v8`} />
                  <text x={x(n, of())} y="54" text-anchor="middle">
                    {n}
                  </text>
                </>
              )}
            </For>
            <Show when={least()}>
              {(from) => (
                <rect
                  class="beyond"
                  x={x(from() - 0.25, of())}
                  y="26"
                  width={x(of() + 0.25, of()) - x(from(), of())}
                  height="16"
                />
              )}
            </Show>
            <path class="guess" d={`M${x(of() / 2, of())} 14V42`} />
            <text x={x(of() / 2, of())} y="10" text-anchor="middle">
              guessing
            </text>
            <path class="score" d={`M${x(right(), of())} 30l-9 -16h18z`} />
          </svg>
        </div>
        <p class="quiet">{beyondText(of())}</p>
      </Show>
    </section>
  );
}
