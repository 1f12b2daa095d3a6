import { isDrumOpen } from '../../state/meter/drumOpen';
import { haltOf, isHalted } from '../../state/meter/meterTypes';
import { type RoundState, sayRound, sendsHands } from '../../state/round/roundWords';
import { capital } from '../../text/sentence';
import { useKit } from '../kit/useKit';
import { useApp } from '../shared/appScope';
import { HALT_WORDS, isOld, oldText } from '../shared/oldWords';

function useRoundState(): () => RoundState | null {
  const { meter } = useApp();
  const { shelf, round } = useKit();
  return () => {
    const [sheet, pair] = [shelf.sheet(), round.pair()];
    if (!sheet || !pair) return null;
    return {
      sheet,
      pair,
      mode: round.mode(),
      patching: round.patching() || !['meter', 'kit', 'hand-over'].includes(meter.page()),
      swapped: meter.swapped(),
      feed: round.feed(),
      // nothing is read of the pair's own yet
      read: isDrumOpen(meter) ? null : round.now(),
      compared: round.compared(),
      now: new Date(),
    };
  };
}

/** What is to be done or seen of the pair in hand, in one sentence; empty: none is in hand. */
export function useRoundLine(): () => string {
  const { meter } = useApp();
  const state = useRoundState();
  return () => {
    const now = state();
    if (now === null) return '';
    return now.patching || !isHalted(meter.run())
      ? sayRound(now)
      : isOld(meter)
        ? `${oldText(meter)}.`
        : `${capital(HALT_WORDS[haltOf(meter)])}.`;
  };
}

/** `patch`: something is to be plugged; `hands`: somebody is to touch a cable, a switch or a stand. */
export function useRoundDanger(): () => 'patch' | 'hands' | null {
  const state = useRoundState();
  return () => {
    const now = state();
    if (now === null) return null;
    if (now.patching) return now.feed === 'inputs' ? 'patch' : null;
    return sendsHands(now) ? 'hands' : null;
  };
}
