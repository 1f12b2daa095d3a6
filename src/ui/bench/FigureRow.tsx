/** The figures, large enough for the back of a room. */
import { Index, type JSX } from 'solid-js';
import type { Teaching } from '../../state/teaching/teaching';
import { figureRow } from '../../teaching/words/benchWords';
import { SumPress } from '../shared/SumPress';

export function FigureRow(props: { teaching: Teaching }): JSX.Element {
  const { bench, figures } = props.teaching;
  const row = () => figureRow(figures(), bench().levels);
  return (
    <dl
      class="bench-figures"
      data-polarity={figures().polarity}
      data-delay-ms={figures().delayMs.toFixed(4)}
      data-path-cm={figures().pathCm.toFixed(3)}
      data-count={row().length}
    >
      <Index each={row()}>
        {(one) => (
          <div data-figure={one().id}>
            <dt>
              <SumPress of={one().id}>{one().name}</SumPress>
            </dt>
            <dd>{one().value}</dd>
          </div>
        )}
      </Index>
    </dl>
  );
}
