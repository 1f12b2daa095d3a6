/** What each channel is filtered into and remembered as, for those who look back. */
import { Biquad, HighPass1, settleAll } from '../signal/filters';
import { Ring } from '../signal/ring';
import { TUNING, type Tuning } from '../tuning';
import type { FilterTuning } from '../tuning/inputTuning';

/** what is remembered at least, s */
const RING_SECONDS = 1;
/** times the longest stretch round a hit: the noise before it, and time to get round to it, are in it */
const STRETCHES = 4;

/** What is remembered, s. */
function ringSeconds({ hit, delay }: Tuning): number {
  const { arrival, lowPush, correlation, spectra, waves } = hit;
  const longest = Math.max(
    arrival.noiseSeconds + arrival.peakAfterSeconds,
    lowPush.beforeSeconds + lowPush.afterSeconds,
    correlation.beforeSeconds + correlation.afterLagSeconds,
    spectra.beforeSeconds + spectra.afterSeconds,
    waves.beforeSeconds + waves.afterSeconds,
    delay.fit.beforeSeconds + delay.fit.afterSeconds,
    delay.inputOffset.beforeSeconds + delay.inputOffset.afterSeconds,
  );
  return Math.max(RING_SECONDS, STRETCHES * longest);
}

export interface Rings {
  /** freed from DC, for the sum */
  rawA: Ring;
  rawB: Ring;
  /** first-order high-passed at 100 Hz, for the picks */
  pickA: Ring;
  pickB: Ring;
  /** second-order high-passed at 80 Hz, for the waveform */
  waveA: Ring;
  waveB: Ring;
  /** tilted towards the attack, for laying attacks on each other */
  attackA: Ring;
  attackB: Ring;
}

/** One channel's filters and the rings behind them. */
class Channel {
  readonly raw: Ring;
  readonly pick: Ring;
  readonly wave: Ring;
  readonly attack: Ring;
  private readonly toFree: Biquad;
  private readonly toPick: HighPass1;
  private readonly toWave: Biquad;
  private readonly toAttack: HighPass1;
  /** their memories: two of toFree, two of toWave, of toPick, of toAttack; and the sample before, which the last two share */
  private readonly z = new Float64Array(6);
  private readonly last = new Float64Array(1);
  private readonly waved: Float64Array;
  private readonly attacked: Float64Array;

  constructor(sampleRate: number, stepFrames: number, ringSeconds: number, tuning: FilterTuning) {
    this.raw = new Ring(ringSeconds * sampleRate);
    this.pick = new Ring(ringSeconds * sampleRate);
    this.wave = new Ring(ringSeconds * sampleRate);
    this.attack = new Ring(ringSeconds * sampleRate);
    this.waved = new Float64Array(stepFrames);
    this.attacked = new Float64Array(stepFrames);
    this.toFree = new Biquad('highpass', sampleRate, tuning.dcCornerHz);
    this.toPick = new HighPass1(sampleRate, tuning.pickCornerHz);
    this.toWave = new Biquad('highpass', sampleRate, tuning.waveCornerHz);
    this.toAttack = new HighPass1(sampleRate, tuning.attackCornerHz);
  }

  /** All four in one loop: recursions side by side cost hardly more than one. */
  run(x: Float64Array, free: Float64Array, picked: Float64Array, n: number): void {
    const { z, waved, attacked } = this;
    const { b0, b1, b2, a1, a2 } = this.toFree;
    const { b0: c0, b1: c1, b2: c2, a1: d1, a2: d2 } = this.toWave;
    const { a: ap, b: bp } = this.toPick;
    const { a: at, b: bt } = this.toAttack;
    let za = z[0] as number;
    let zb = z[1] as number;
    let wa = z[2] as number;
    let wb = z[3] as number;
    let p = z[4] as number;
    let t = z[5] as number;
    let last = this.last[0] as number;
    for (let i = 0; i < n; i++) {
      const v = x[i] as number;
      const u = b0 * v + za;
      za = b1 * v - a1 * u + zb;
      zb = b2 * v - a2 * u;
      free[i] = u;
      const w = c0 * v + wa;
      wa = c1 * v - d1 * w + wb;
      wb = c2 * v - d2 * w;
      waved[i] = w;
      const slope = v - last;
      last = v;
      p = bp * slope + ap * p;
      picked[i] = p;
      t = bt * slope + at * t;
      attacked[i] = t;
    }
    z[0] = za;
    z[1] = zb;
    z[2] = wa;
    z[3] = wb;
    z[4] = p;
    z[5] = t;
    settleAll(z);
    this.last[0] = last;
    this.raw.push(free, n);
    this.wave.push(waved, n);
    this.attack.push(attacked, n);
    this.pick.push(picked, n);
  }
}

export class Inputs {
  readonly rings: Rings;
  /** of the last run: freed from DC, and high-passed for the picks */
  readonly freeA: Float64Array;
  readonly freeB: Float64Array;
  readonly pickA: Float64Array;
  readonly pickB: Float64Array;
  private readonly a: Channel;
  private readonly b: Channel;

  /** @param stepFrames frames of a run at most */
  constructor(sampleRate: number, stepFrames: number, tuning: Tuning = TUNING) {
    this.freeA = new Float64Array(stepFrames);
    this.freeB = new Float64Array(stepFrames);
    this.pickA = new Float64Array(stepFrames);
    this.pickB = new Float64Array(stepFrames);
    const a = new Channel(sampleRate, stepFrames, ringSeconds(tuning), tuning.input.filters);
    const b = new Channel(sampleRate, stepFrames, ringSeconds(tuning), tuning.input.filters);
    this.a = a;
    this.b = b;
    this.rings = {
      rawA: a.raw,
      rawB: b.raw,
      pickA: a.pick,
      pickB: b.pick,
      waveA: a.wave,
      waveB: b.wave,
      attackA: a.attack,
      attackB: b.attack,
    };
  }

  /** n frames of each channel. Real-time safe: yes. */
  run(a: Float64Array, b: Float64Array, n: number): void {
    this.a.run(a, this.freeA, this.pickA, n);
    this.b.run(b, this.freeB, this.pickB, n);
  }
}
