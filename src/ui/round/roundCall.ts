/** The round in the big display: which pair, what is to be done of it, and what changed last. */
import type { RoundCallView } from '../../state/callOut/callOutView';
import { clockText } from '../../text/clock';
import { useKit } from '../kit/useKit';
import { useRoundDanger, useRoundLine } from './roundLine';

/** @returns null while no pair is in hand */
export function useRoundCall(): () => RoundCallView | null {
  const { round } = useKit();
  const roundLine = useRoundLine();
  const danger = useRoundDanger();
  return () => {
    if (round.pair() === null) return null;
    const [newest] = round.changes();
    return {
      title: round.title(),
      line: round.asking() ?? roundLine(),
      said: round.said(),
      change: newest ? `${clockText(newest.at, new Date())} ${newest.text}` : '',
      hands: danger() === 'hands',
    };
  };
}
