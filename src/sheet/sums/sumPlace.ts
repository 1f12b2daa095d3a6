/** Of whom a sheet's number is: its id names it, so that one id opens all the numbers that belong together. */

/** mic: its delay in the mix · drum: three readings that don’t close, delays against its reference */
const KINDS = ['pair', 'mic', 'drum'] as const;

export interface SumPlace {
  kind: (typeof KINDS)[number];
  /** the pair’s or the mic’s id, the drum’s name */
  of: string;
  /** which of its numbers; any: the first */
  number: string;
}

export const sumIdOf = ({ kind, of, number }: SumPlace): string => JSON.stringify([kind, of, number]);

/** @returns null: it is no number of a sheet */
export function sumPlaceOf(id: string): SumPlace | null {
  if (!id.startsWith('[')) return null;
  const [kind, of, number] = JSON.parse(id) as [SumPlace['kind'], string, string];
  return KINDS.includes(kind) ? { kind, of, number } : null;
}

/** Of three readings of a drum that don’t close, the worst first. */
export const closureNumber = (n: number): string => `closure-${n}`;

/** Of several microphones on it. */
export const GROUP_NUMBER = 'group';
