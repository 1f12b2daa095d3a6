import type { Readout } from './readout';

/** It is open which drum is meant: in the newest reading, or still in what is said of the ones before. */
export const isDrumOpen = ({ answer, standsOn }: Pick<Readout, 'answer' | 'standsOn'>): boolean =>
  answer()?.reason === 'which-drum' || standsOn()?.reason === 'which-drum';
