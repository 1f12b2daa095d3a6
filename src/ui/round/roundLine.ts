import { sayRound } from '../../state/round/roundWords';
import { useKit } from '../kit/useKit';
import { useApp } from '../shared/appScope';

/** What is to be done or seen of the pair in hand, in one sentence; empty: none is in hand. */
export function useRoundLine(): () => string {
  const { meter } = useApp();
  const { shelf, round } = useKit();
  return () => {
    const [sheet, pair] = [shelf.sheet(), round.pair()];
    if (!sheet || !pair) return '';
    return sayRound({
      sheet,
      pair,
      mode: round.mode(),
      patching: round.patching() || !['meter', 'kit', 'hand-over'].includes(meter.page()),
      swapped: meter.swapped(),
      noScene: meter.source()?.type === 'demo' && round.scene() === null,
      read: round.now(),
      compared: round.compared(),
      now: new Date(),
    });
  };
}
