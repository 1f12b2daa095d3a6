/** The round in the big display: which pair, what is to be done of it, and what changed last. */
import { type JSX, Show } from 'solid-js';
import { HANDS } from '../../advice/words/cautionWords';
import { clockText } from '../../text/clock';
import { useKit } from '../kit/useKit';
import { useRoundDanger, useRoundLine } from './roundLine';

/** @param props.warned the call itself has its caution already */
export function RoundCall(props: { warned: boolean }): JSX.Element {
  const { round } = useKit();
  const roundLine = useRoundLine();
  const danger = useRoundDanger();
  return (
    <Show when={round.pair()}>
      <Show when={danger() === 'hands' && !props.warned}>
        <p class="call-caution">△ {HANDS}</p>
      </Show>
      <p class="call-round">
        <b>{round.title()}</b> {round.asking() ?? roundLine()} <span class="quiet">{round.said()}</span>
        <Show when={round.changes()[0]}>
          {(change) => (
            <>
              <br />
              {clockText(change().at, new Date())} {change().text}
            </>
          )}
        </Show>
      </p>
    </Show>
  );
}
