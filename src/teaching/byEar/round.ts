/**
 * A blind round: ten pairs to be heard before anything is seen. Each round has a number, and everybody who enters it gets the same
 * pairs, so that a class can compare.
 */
import type { Polarity } from '../../reading/reading';

export const QUESTIONS = 10;
export const LARGEST_ROUND = 9999;

/** A pair of which the truth is known, by geometry. Delay: arrival at B less arrival at A, samples at sampleRate. */
export interface KnownPair {
  id: string;
  title: string;
  sampleRate: number;
  delaySamples: number;
  polarity: Polarity;
}

export const ANSWERS = { polarity: ['inverted', 'same'], alignment: ['x', 'y'] } as const;
export type Answer = (typeof ANSWERS)[keyof typeof ANSWERS][number];

/** How one of those heard is made of the pair as it was recorded. */
export interface Heard {
  invertB: boolean;
  /** positive: B is delayed */
  delayBSamples: number;
}

interface Asked {
  pair: KnownPair;
  /** what is right */
  truth: Answer;
  /** X, and Y; of one that isn't asked about, what it would be the other way */
  x: Heard;
  y: Heard;
}
/** The pair lined up in time, with either polarity: is B inverted against A? X is what is heard. */
export interface PolarityQuestion extends Asked {
  kind: 'polarity';
}
/** The polarity right, lined up and apart in time: which of the two is lined up? */
export interface AlignmentQuestion extends Asked {
  kind: 'alignment';
  /** of the one that isn't, ms: B is so much later */
  apartMs: number;
}
export type Question = PolarityQuestion | AlignmentQuestion;

/** from a stand's nudge to half a metre: the range to which the ear is most open with a snare (0.5–3 ms, Brunner and others, AES 7047) and a little below */
const APART_MS = [0.3, 0.5, 0.8, 1.2, 1.6] as const;

/** @param pairs at least one @param round whole, 1…LARGEST_ROUND */
export function drawRound(round: number, pairs: readonly KnownPair[]): Question[] {
  const random = numbersOf(round);
  const from = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const questions: Question[] = [];
  for (let i = 0; i < QUESTIONS; i++) {
    const others = pairs.filter(({ id }) => id !== questions.at(-1)?.pair.id);
    const pair = from(others.length > 0 ? others : pairs);
    const heads = random() < 0.5;
    // polarity and alignment by turns
    questions.push(i % 2 === 0 ? polarityOf(pair, heads) : alignmentOf(pair, heads, from(APART_MS)));
  }
  return questions;
}

function polarityOf(pair: KnownPair, isInverted: boolean): PolarityQuestion {
  const delayBSamples = 0 - pair.delaySamples;
  const heard = (inverted: boolean): Heard => ({ invertB: (pair.polarity === 'inverted') !== inverted, delayBSamples });
  return {
    kind: 'polarity',
    pair,
    truth: isInverted ? 'inverted' : 'same',
    x: heard(isInverted),
    y: heard(!isInverted),
  };
}

function alignmentOf(pair: KnownPair, isX: boolean, apartMs: number): AlignmentQuestion {
  const heard = (apart: number): Heard => ({
    invertB: pair.polarity === 'inverted',
    delayBSamples: (apart * pair.sampleRate) / 1000 - pair.delaySamples,
  });
  const [lined, off] = [heard(0), heard(apartMs)];
  return { kind: 'alignment', pair, truth: isX ? 'x' : 'y', x: isX ? lined : off, y: isX ? off : lined, apartMs };
}

/** Numbers of [0, 1), the same for the same seed. Marsaglia's xorshift, J. Stat. Software 8 (2003) (from memory). */
function numbersOf(seed: number): () => number {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
  for (let i = 0; i < 8; i++) next();
  return next;
}
