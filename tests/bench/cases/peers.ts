/**
 * What one would use instead, on the same hits as the engine. Here for comparison only.
 *
 * Each hit is read alone; the answers are pooled as a careful person would: over the last 8 hits, the largest group of
 * one sign within ±0.1 ms, sure when it has at least 4 hits and 75 % of them; the answer is the group's median. Hits are
 * found by the engine's own detector. Every peer looks as far as the pair kind allows and reads between samples by a parabola.
 */

import { HitDetector } from '../../../src/dsp/hit/hitDetector';
import { Biquad, type Filter, HighPass1 } from '../../../src/dsp/signal/filters';
import { Gcc, parabolicOffset } from '../../../src/dsp/signal/gcc';
import type { Polarity } from '../../../src/reading/reading';

export const PEERS = [
  'whole-hit PHAT',
  'whole-hit cross-correlation',
  'attack GCC, β 0.5',
  'envelope, then waveform',
  'zero-lag sign',
] as const;
export type Peer = (typeof PEERS)[number];

/** A peer's sure answer after some hit. */
export interface PeerAnswer {
  polarity: Polarity;
  /** null: polarity only */
  delaySamples: number | null;
  hits: number;
  atSeconds: number;
  hitSeconds: number[];
}

/** The sure answers after each hit, null where it isn't sure. */
export type PeerOutcome = Record<Peer, (PeerAnswer | null)[]>;

interface HitAnswer {
  delaySamples: number;
  sign: number;
}

const POOL_HITS = 8;
const LEAST_HITS = 4;
const LEAST_SHARE = 0.75;
const SAME_DELAY_MS = 0.1;
const BEFORE_MS = 4;
const ATTACK_MS = 14;
const WHOLE_MS = 100;
const ENVELOPE_MS = 24;
/** the attack fades in and, over its last part, out */
const FADE_IN_MS = 1;
const FADE_OUT_SHARE = 0.3;
/** round the envelope's lag the waveform's best peak is looked for so far */
const FINE_MS = 0.5;

export function readPeers(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  options: { maxLagMs: number; hits?: number },
): PeerOutcome {
  const reader = new PeerReader(a, b, sampleRate, options.maxLagMs);
  const triggers = findHits(a, b, sampleRate).slice(0, options.hits);
  const seen: Record<Peer, HitAnswer[]> = emptyRecord(() => []);
  const outcome: PeerOutcome = emptyRecord(() => []);
  triggers.forEach((trigger, i) => {
    for (const peer of PEERS) {
      seen[peer].push(reader.read(peer, trigger));
      const from = Math.max(0, i + 1 - POOL_HITS);
      const pooled = pool(
        seen[peer].slice(from),
        peer === 'zero-lag sign' ? null : (SAME_DELAY_MS / 1000) * sampleRate,
      );
      outcome[peer].push(
        pooled && {
          polarity: pooled.sign > 0 ? 'same' : 'inverted',
          delaySamples: peer === 'zero-lag sign' ? null : pooled.delaySamples,
          hits: i + 1,
          atSeconds: (trigger + (WHOLE_MS / 1000) * sampleRate) / sampleRate,
          hitSeconds: pooled.members.map((k) => (triggers[from + k] as number) / sampleRate),
        },
      );
    }
  });
  return outcome;
}

function emptyRecord<T>(make: () => T): Record<Peer, T> {
  return Object.fromEntries(PEERS.map((peer) => [peer, make()])) as Record<Peer, T>;
}

export function findHits(a: Float32Array, b: Float32Array, sampleRate: number): number[] {
  const detector = new HitDetector(sampleRate);
  const x = filtered(a, [new HighPass1(sampleRate, 100)]);
  const y = filtered(b, [new HighPass1(sampleRate, 100)]);
  const triggers: number[] = [];
  const step = 128;
  for (let i = 0; i < x.length; i += step) {
    const found = detector.run(x.subarray(i, i + step), y.subarray(i, i + step), Math.min(step, x.length - i));
    if (found >= 0) triggers.push(found);
  }
  return triggers;
}

/** @param width null: the sign alone is pooled */
function pool(
  hits: readonly HitAnswer[],
  width: number | null,
): { delaySamples: number; sign: number; members: number[] } | null {
  let best: number[] = [];
  for (const centre of hits) {
    const members = hits.flatMap((hit, k) => {
      const near = width === null || Math.abs(hit.delaySamples - centre.delaySamples) <= width;
      return near && hit.sign === centre.sign ? [k] : [];
    });
    if (members.length > best.length) best = members;
  }
  if (best.length < LEAST_HITS || best.length < LEAST_SHARE * hits.length) return null;
  const delays = best.map((k) => (hits[k] as HitAnswer).delaySamples).sort((p, q) => p - q);
  const half = delays.length >> 1;
  const middle = delays.length % 2 === 1 ? delays[half] : ((delays[half - 1] as number) + (delays[half] as number)) / 2;
  return { delaySamples: middle as number, sign: (hits[best[0] as number] as HitAnswer).sign, members: best };
}

function filtered(x: Float32Array, filters: Filter[]): Float64Array {
  const y = Float64Array.from(x);
  for (const filter of filters) filter.run(y, y, y.length);
  return y;
}

class PeerReader {
  private readonly maxLag: number;
  private readonly freeA: Float64Array;
  private readonly freeB: Float64Array;
  private readonly envelopeA: Float64Array;
  private readonly envelopeB: Float64Array;
  private readonly phat: Gcc;
  private readonly plain: Gcc;
  private readonly attack: Gcc;
  private readonly envelope: Gcc;
  private readonly fine: Gcc;

  constructor(
    a: Float32Array,
    b: Float32Array,
    private readonly sampleRate: number,
    maxLagMs: number,
  ) {
    this.maxLag = Math.round(this.frames(maxLagMs));
    // DC would be the best correlated of all
    this.freeA = filtered(a, [new Biquad('highpass', sampleRate, 20)]);
    this.freeB = filtered(b, [new Biquad('highpass', sampleRate, 20)]);
    this.envelopeA = this.envelopeOf(a);
    this.envelopeB = this.envelopeOf(b);
    const whole = this.size(WHOLE_MS);
    const short = this.size(ENVELOPE_MS);
    const maxLagSamples = this.maxLag;
    this.phat = new Gcc(sampleRate, whole, { lowHz: 100, highHz: 8000, beta: 1, maxLagSamples });
    this.plain = new Gcc(sampleRate, whole, { lowHz: 20, highHz: 20000, beta: 0, maxLagSamples });
    this.attack = new Gcc(sampleRate, short, { lowHz: 100, highHz: 8000, beta: 0.5, maxLagSamples });
    this.envelope = new Gcc(sampleRate, short, { lowHz: 20, highHz: 2000, beta: 0, maxLagSamples });
    this.fine = new Gcc(sampleRate, short, { lowHz: 100, highHz: 8000, beta: 0, maxLagSamples });
  }

  read(peer: Peer, trigger: number): HitAnswer {
    const { freeA, freeB } = this;
    switch (peer) {
      case 'whole-hit PHAT':
        return this.highest(this.phat, freeA, freeB, trigger, WHOLE_MS);
      case 'whole-hit cross-correlation':
        return this.highest(this.plain, freeA, freeB, trigger, WHOLE_MS);
      case 'attack GCC, β 0.5':
        return this.highest(this.attack, freeA, freeB, trigger, ATTACK_MS);
      case 'envelope, then waveform': {
        this.correlate(this.envelope, this.envelopeA, this.envelopeB, trigger, ENVELOPE_MS);
        const coarse = peakOf(this.envelope, 0, this.maxLag, true).delaySamples;
        this.correlate(this.fine, freeA, freeB, trigger, ENVELOPE_MS);
        return peakOf(this.fine, coarse, this.frames(FINE_MS), false);
      }
      case 'zero-lag sign': {
        let sum = 0;
        const from = Math.max(0, trigger - Math.round(this.frames(BEFORE_MS)));
        const to = Math.min(freeA.length, trigger + Math.round(this.frames(WHOLE_MS)));
        for (let i = from; i < to; i++) sum += (freeA[i] as number) * (freeB[i] as number);
        return { delaySamples: 0, sign: Math.sign(sum) };
      }
    }
  }

  private highest(gcc: Gcc, a: Float64Array, b: Float64Array, trigger: number, lengthMs: number): HitAnswer {
    this.correlate(gcc, a, b, trigger, lengthMs);
    return peakOf(gcc, 0, this.maxLag, false);
  }

  /** Frames of both from 4 ms before the trigger; a reach beyond the usual one makes them longer. */
  private correlate(gcc: Gcc, a: Float64Array, b: Float64Array, trigger: number, lengthMs: number): void {
    const before = Math.round(this.frames(BEFORE_MS));
    const longer = Math.max(0, this.maxLag - this.frames(11));
    const length = Math.round(before + this.frames(lengthMs) + longer);
    gcc.frameA.fill(0);
    gcc.frameB.fill(0);
    for (let i = 0; i < length; i++) {
      const fade = Math.min(1, i / this.frames(FADE_IN_MS), (length - i) / (FADE_OUT_SHARE * length));
      const w = 0.5 - 0.5 * Math.cos(Math.PI * fade);
      gcc.frameA[i] = w * (a[trigger - before + i] ?? 0);
      gcc.frameB[i] = w * (b[trigger - before + i] ?? 0);
    }
    gcc.forward();
    gcc.correlate();
  }

  private envelopeOf(x: Float32Array): Float64Array {
    const band = filtered(x, [
      new Biquad('highpass', this.sampleRate, 2000),
      new Biquad('lowpass', this.sampleRate, 8000),
    ]);
    for (let i = 0; i < band.length; i++) band[i] = Math.abs(band[i] as number);
    new Biquad('lowpass', this.sampleRate, 1000).run(band, band, band.length);
    return band;
  }

  private size(lengthMs: number): number {
    const longest = this.frames(BEFORE_MS + lengthMs) + 2 * this.maxLag;
    return 2 ** Math.ceil(Math.log2(longest));
  }

  private frames(ms: number): number {
    return (ms / 1000) * this.sampleRate;
  }
}

/** The highest |peak| within `reach` of `near`, samples; `positive`: of one sign only. */
function peakOf(gcc: Gcc, near: number, reach: number, positive: boolean): HitAnswer {
  const { curve, maxLagSamples: m } = gcc;
  const from = Math.max(1, Math.ceil(near - reach) + m);
  const to = Math.min(curve.length - 2, Math.floor(near + reach) + m);
  let at = from;
  for (let i = from; i <= to; i++) {
    const better = positive
      ? (curve[i] as number) > (curve[at] as number)
      : Math.abs(curve[i] as number) > Math.abs(curve[at] as number);
    if (better) at = i;
  }
  const [p, q, r] = [curve[at - 1], curve[at], curve[at + 1]] as [number, number, number];
  return { delaySamples: at - m + parabolicOffset(p, q, r), sign: q >= 0 ? 1 : -1 };
}
