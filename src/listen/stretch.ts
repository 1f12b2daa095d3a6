/** Which stretch of the sound goes round, and its seam. */
import type { PairSound } from './version';

export type Stretch = 'hit' | 'bar';

/** it begins so long before the arrival, s */
const LEAD_SECONDS = 0.005;
const LONGEST_SECONDS: Readonly<Record<Stretch, number>> = { hit: 1, bar: 4 };
/** the newest hit may not have rung out yet: it is whole after that, or when another one ends it, s */
const WHOLE_SECONDS = LONGEST_SECONDS.hit;
/** shorter is a buzz, s */
const LEAST_SECONDS = 0.12;
/** the seam: what comes in and what goes out, s */
const FADE_IN_SECONDS = 0.002;
const FADE_OUT_SECONDS = 0.01;
/** a hit's level is that of its first part, s */
const LEVEL_SECONDS = 0.05;

export interface Loop {
  sampleRate: number;
  a: Float32Array;
  b: Float32Array;
  /** hits in it */
  hits: number;
}

interface Span {
  from: number;
  to: number;
  hits: number;
  /** the hit that it begins with has rung out, or another one ended it */
  isWhole: boolean;
}

/** @returns null: there is no hit in it that could be heard as a whole */
export function chooseLoop(sound: PairSound, stretch: Stretch): Loop | null {
  const { sampleRate, a, b } = sound;
  const spans = spansOf(sound, stretch);
  const span = sound.isNewest ? newest(spans.filter(({ isWhole }) => isWhole)) : mostUsual(spans, sound);
  if (span === null) return null;
  return { sampleRate, a: cut(a, span, sampleRate), b: cut(b, span, sampleRate), hits: span.hits };
}

/** One for every hit of the drum: it alone, or with what follows, from hit to hit so that the beat goes on. */
function spansOf({ sampleRate, a, hitsSeconds, ownSeconds, isNewest }: PairSound, stretch: Stretch): Span[] {
  const framesOf = (seconds: readonly number[]): number[] =>
    seconds.map((at) => Math.max(0, Math.round((at - LEAD_SECONDS) * sampleRate))).filter((at) => at < a.length);
  const all = framesOf(hitsSeconds);
  const starts = ownSeconds.length > 0 ? framesOf(ownSeconds) : all;
  const apart = LEAST_SECONDS * sampleRate;
  const longest = Math.round(LONGEST_SECONDS[stretch] * sampleRate);
  const rung = Math.round(WHOLE_SECONDS * sampleRate);
  // the last one may still ring: nothing ends in it then
  const lastEnd = isNewest && all.some((at) => at + rung > a.length) ? [] : [a.length];
  return starts
    .map((from): Span => {
      const ends = [...(stretch === 'bar' ? starts : all), ...lastEnd].filter((at) => at >= from + apart);
      const within = ends.filter((at) => at - from <= longest);
      const next = stretch === 'bar' ? within.at(-1) : within[0];
      const to = next ?? Math.min(a.length, from + longest);
      // a hit's time is told to within a few ms: the one that ends it isn't in it
      const inIt = starts.filter((at) => at >= from && at < to - LEAD_SECONDS * sampleRate);
      const isWhole = a.length >= from + rung || all.some((at) => at >= from + apart && at <= from + rung);
      return { from, to, hits: inIt.length, isWhole };
    })
    .filter(({ from, to }) => to - from >= apart);
}

/** The last one that has room; of bars the one that has most of them last. */
function newest(spans: readonly Span[]): Span | null {
  const most = Math.max(...spans.map(({ hits }) => hits));
  return spans.filter(({ hits }) => hits === most).at(-1) ?? null;
}

/** As loud as half of them are, among those with most hits; of single hits among those with most room. */
function mostUsual(spans: readonly Span[], sound: PairSound): Span | null {
  const most = Math.max(...spans.map(({ hits }) => hits));
  const full = spans.filter(({ hits }) => hits === most);
  const room = Math.max(...full.map(({ from, to }) => to - from));
  const wide = full.filter(({ from, to }) => to - from >= 0.6 * room);
  const ranked = wide.map((span) => ({ span, level: levelOf(sound, span) })).sort((x, y) => x.level - y.level);
  return ranked[ranked.length >> 1]?.span ?? null;
}

function levelOf({ sampleRate, a, b }: PairSound, { from, to }: Span): number {
  const end = Math.min(to, from + Math.round(LEVEL_SECONDS * sampleRate));
  let sum = 0;
  for (let i = from; i < end; i++) sum += (a[i] as number) ** 2 + (b[i] as number) ** 2;
  return sum;
}

/** Faded at both ends, so that the seam is silent. */
function cut(channel: Float32Array, { from, to }: Span, sampleRate: number): Float32Array {
  const out = channel.slice(from, to);
  const rise = Math.round(FADE_IN_SECONDS * sampleRate);
  const fall = Math.round(FADE_OUT_SECONDS * sampleRate);
  const swell = (i: number, n: number): number => 0.5 - 0.5 * Math.cos((Math.PI * i) / n);
  for (let i = 0; i < rise; i++) out[i] = (out[i] as number) * swell(i, rise);
  for (let i = 0; i < fall; i++) {
    const at = out.length - 1 - i;
    out[at] = (out[at] as number) * swell(i, fall);
  }
  return out;
}
