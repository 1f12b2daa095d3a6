/**
 * The words of a reading that travel as numbers: each list is the one place where a word is added or taken away, its type
 * and its code (the place in the list) follow. What they mean to people is said in src/advice/words.
 */

/** Code of each word: its place in the list, and −1 or NaN for none. */
export type Codes<W extends string> = Readonly<Record<W, number>>;
export const codesOf = <W extends string>(list: readonly W[]): Codes<W> =>
  Object.fromEntries(list.map((word, code) => [word, code])) as Record<W, number>;

/** What can be said of a drum's hits. */
export const DRUM_STATES = [
  /** an arrival is locked: polarity and delay hold */
  'measured',
  /** too few hits to say */
  'listening',
  /** a microphone is on the move: provisional */
  'following',
  /** hits, but they don't agree or don't belong together */
  'unclear',
] as const;
export type DrumState = (typeof DRUM_STATES)[number];

/** What can be wrong with the inputs, whatever the hits say. */
export const FAULT_STATES = [
  /** one or both inputs are silent */
  'no-signal',
  /** A and B are one signal, gain and sign aside */
  'same-signal',
  /** clipped inside the arrival of more than half of the hits */
  'overloaded',
] as const;

export const STATES = [...DRUM_STATES, ...FAULT_STATES] as const;
export type ReadingState = (typeof STATES)[number];

/** Why the state is what it is. */
export const REASONS = [
  'agreed',
  'nothing-yet',
  'too-few-hits',
  'a-silent',
  'b-silent',
  'both-silent',
  'gain-copy',
  'bit-identical',
  'clipped-a',
  'clipped-b',
  'hits-disagree',
  'push-and-shape-disagree',
  'arrival-hidden',
  'lows-only-a',
  'lows-only-b',
  'several-drums',
  'which-drum',
  'moving',
  'moved',
  'no-common-signal',
] as const;
export type ReadingReason = (typeof REASONS)[number];

/** What became of a hit, within the pool of its own drum. */
export const FATES = [
  /** behind its drum's answer */
  'used',
  'pending',
  /** no first push can be seen in one of the channels: noise, or something before it, hides it */
  'no-arrival',
  /** a first push, but not where most of its drum's hits have it */
  'disagrees',
  /** of no drum that is kept */
  'other-drum',
  'clipped',
  'one-side-only',
  /** before a move, or too long ago */
  'old',
  /** two drums within 20 ms: neither can be read */
  'two-drums',
  /** it began while the hit before it was still being read */
  'too-soon',
  /** blocks of samples were lost in it, or close to it */
  'dropped-audio',
] as const;
export type HitFate = (typeof FATES)[number];

/** Which polarity of B sums to more in the drum's own low band as things stand; `either`: below 1 dB. */
export const FULLER = ['as-is', 'inverted', 'either'] as const;
export type Fuller = (typeof FULLER)[number];

/** Which witness a delay comes from. */
export const METHODS = ['first-arrival', 'waveform', 'low-band', 'likeliest'] as const;
export type Method = (typeof METHODS)[number];

export const STATE = codesOf(STATES);
export const REASON = codesOf(REASONS);
export const FATE = codesOf(FATES);
export const FULLER_CODE = codesOf(FULLER);
export const METHOD = codesOf(METHODS);
