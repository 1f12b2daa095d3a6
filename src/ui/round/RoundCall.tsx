/** The round in the big display: which pair, what is to be done of it, and what changed last. */
import { type JSX, Show } from 'solid-js';
import { clockText } from '../../text/clock';
import { useKit } from '../kit/useKit';
import { useRoundLine } from './roundLine';

export function RoundCall(): JSX.Element {
  const { round } = useKit();
  const roundLine = useRoundLine();
  return (
    <Show when={round.pair()}>
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
