/** One drum of a take: each of its pairs in a line, with what to do. */
import { For, type JSX, Show } from 'solid-js';
import type { PairView } from '../../state/take/pairView';
import type { TakeSheet } from '../../state/take/takeSheet';
import { takePairSumId } from '../../state/take/takeSums';
import type { DrumReport, PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { headOf } from '../../take/report/untold';
import { hitsText } from '../../text/count';
import { capital } from '../../text/sentence';
import { msText } from '../../text/time';
import { SumPress } from '../shared/SumPress';
import { PairPress } from './PairPress';
import { AcceptPress } from './TakeToSheet';
import { laterText } from './takeText';

export function TakeDrum(props: { drum: DrumReport; ofSheet: TakeSheet; view: PairView }): JSX.Element {
  const head = (): string | null => headOf(props.drum);
  const own = (): PairReport[] => props.drum.pairs.filter(({ a }) => a === head());
  const others = (): PairReport[] => props.drum.pairs.filter(({ a }) => a !== head());
  return (
    <section class="take-drum" aria-labelledby="take-drum" data-open={props.drum.drum}>
      <h2 id="take-drum">{capital(props.drum.drum)}</h2>
      <p>
        {hitsText(props.drum.hits)}, {props.drum.hitsUsable} of them alone.{' '}
        {props.drum.ownTrack === null ? 'No mic of its own.' : ''}
      </p>
      <AcceptPress ofSheet={props.ofSheet} drum={props.drum.drum}>
        Accept the readings of this drum
      </AcceptPress>
      <Pairs view={props.view} drum={props.drum.drum} pairs={own()} />
      <Show when={others().length > 0}>
        <h3>The others with each other</h3>
        <Pairs view={props.view} drum={props.drum.drum} pairs={others()} />
      </Show>
    </section>
  );
}

function Pairs(props: { view: PairView; drum: string; pairs: readonly PairReport[] }): JSX.Element {
  return (
    <ul class="take-pairs">
      <For each={props.pairs}>
        {(pair) => (
          <li data-state={pair.state}>
            <PairPress view={props.view} drum={props.drum} pair={pair}>
              <b>
                {stemOf(pair.a)} – {stemOf(pair.b)}
              </b>
            </PairPress>
            <Show when={pair.state === 'measured'} fallback={<span>{pair.reason}</span>}>
              <span>
                {pair.polarity === 'inverted' ? '▲▼ inverted' : '▲▲ same'} ·{' '}
                <SumPress of={takePairSumId(props.drum, pair)}>
                  {laterText(pair.pathCm)} · {(pair.delayMs ?? 0) < 0 ? '−' : ''}
                  {msText(Math.abs(pair.delayMs ?? 0))}
                </SumPress>
              </span>
              <span class="take-do">{pair.advice.text}</span>
              <Show when={pair.from === 'others'}>
                <span class="quiet" data-from="others">
                  {pair.reason}
                </span>
              </Show>
            </Show>
          </li>
        )}
      </For>
    </ul>
  );
}
