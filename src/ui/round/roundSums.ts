/** How the round’s own numbers come about: what a recheck or a move changed. */
import { lastTaken } from '../../sheet/document/model';
import { type Recheck, recheck } from '../../sheet/pair/recheck';
import { recheckSum } from '../../sheet/sums/recheckSum';
import type { Round } from '../../state/round/roundTypes';
import { clockText } from '../../text/clock';
import type { Sum } from '../../text/sum';

type RoundNumber = 'recheck' | 'moved';

const NAMES: Readonly<Record<RoundNumber, string>> = {
  recheck: 'Change at the recheck',
  moved: 'How far B was moved',
};

/** @returns none or one: nothing that can be compared is read, or no path of it is known */
export function roundSums(
  round: Pick<Round, 'pair' | 'mode' | 'compared' | 'first' | 'now'>,
): (Sum & { id: RoundNumber })[] {
  const pair = round.pair();
  const read = round.now();
  const check = round.mode() === 'check';
  const from = check ? pair && lastTaken(pair) : round.first();
  if (!read?.sure || !from) return [];
  const found: Recheck | null = check ? round.compared() : recheck(from, read);
  if (found === null || found.fartherCm === null) return [];
  const at = clockText(from.takenAt, new Date());
  const id = check ? 'recheck' : 'moved';
  const { fartherCm } = found;
  const first = check ? `as accepted, at ${at}` : `at the first reading, at ${at}`;
  return [{ ...recheckSum({ ...found, fartherCm, id, name: NAMES[id], first, second: 'now' }), id }];
}
