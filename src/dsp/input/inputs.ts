/** What each channel is filtered into and remembered as, for those who look back. */
import { Biquad, type Filter, HighPass1 } from '../signal/filters';
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
  private readonly free: Filter;
  private readonly toPick: Filter;
  private readonly toWave: Filter;
  private readonly toAttack: Filter;

  constructor(sampleRate: number, ringSeconds: number, tuning: FilterTuning) {
    this.raw = new Ring(ringSeconds * sampleRate);
    this.pick = new Ring(ringSeconds * sampleRate);
    this.wave = new Ring(ringSeconds * sampleRate);
    this.attack = new Ring(ringSeconds * sampleRate);
    this.free = new Biquad('highpass', sampleRate, tuning.dcCornerHz);
    this.toPick = new HighPass1(sampleRate, tuning.pickCornerHz);
    this.toWave = new Biquad('highpass', sampleRate, tuning.waveCornerHz);
    this.toAttack = new HighPass1(sampleRate, tuning.attackCornerHz);
  }

  run(x: Float64Array, free: Float64Array, picked: Float64Array, n: number): void {
    this.free.run(x, free, n);
    this.raw.push(free, n);
    // picked serves for the others meanwhile
    this.toWave.run(x, picked, n);
    this.wave.push(picked, n);
    this.toAttack.run(x, picked, n);
    this.attack.push(picked, n);
    this.toPick.run(x, picked, n);
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
    const a = new Channel(sampleRate, ringSeconds(tuning), tuning.input.filters);
    const b = new Channel(sampleRate, ringSeconds(tuning), tuning.input.filters);
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
