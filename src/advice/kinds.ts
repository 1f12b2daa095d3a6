/** The pair kinds: what two microphones are to each other. A kind says what to expect and whether a move makes sense; it never influences what is read. */
export const PAIR_KIND_IDS = [
  'same-side',
  'top-bottom',
  'inside-outside',
  'both-sides-kick',
  'shell-other',
  'close-overhead',
  'two-overheads',
  'close-room',
  'low-end-driver',
  'other',
] as const;
export type PairKindId = (typeof PAIR_KIND_IDS)[number];
