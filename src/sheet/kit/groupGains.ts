/** What is told of several microphones on one drum: what the kit's switches give, and what others could give. */
import type { DrumGroup } from './drumGroup';
import type { KitChoice } from './kitChoice';

/** Less than this is as full, dB. */
export const AS_FULL_DB = 0.5;

/** The coherencies are of the microphones as they were read, with no delay between them. */
export function isDelayedApart({ microphones }: DrumGroup, { delays }: Pick<KitChoice, 'delays'>): boolean {
  const of = (id: string): number => delays.find(({ microphone }) => microphone === id)?.delayMs ?? 0;
  return new Set(microphones.map(of)).size > 1;
}

export interface GroupGain {
  /** chosen: the kit's switches against the present · better: the best switches against the kit's */
  what: 'chosen' | 'better';
  /** whose switches are changed from as they stand: before, and for that gain */
  from: readonly string[];
  to: readonly string[];
  gainDb: number;
}

/** @returns those that are told; empty: none is known, or there is nothing to gain */
export function groupGains(group: DrumGroup, choice: Pick<KitChoice, 'delays' | 'invert'>): GroupGain[] {
  const { microphones, turn, gainDb, choiceDb } = group;
  if (turn === null || gainDb === null || choiceDb === null || isDelayedApart(group, choice)) return [];
  const chosen = microphones.filter((id) => choice.invert.includes(id));
  const gains: GroupGain[] = [];
  if (chosen.length > 0) gains.push({ what: 'chosen', from: [], to: chosen, gainDb: choiceDb });
  if (gainDb - choiceDb >= AS_FULL_DB)
    gains.push({ what: 'better', from: chosen, to: turn, gainDb: gainDb - choiceDb });
  return gains;
}
