/** What each channel is filtered into and remembered as, for those who look back a second. */
import { Biquad, type Filter, HighPass1 } from '../signal/filters';
import { Ring } from '../signal/ring';

const RING_SECONDS = 1;
/** below this the attack ring falls by 6 dB an octave: about what whitening would do to a drum */
const ATTACK_HZ = 2000;

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

  constructor(sampleRate: number) {
    this.raw = new Ring(RING_SECONDS * sampleRate);
    this.pick = new Ring(RING_SECONDS * sampleRate);
    this.wave = new Ring(RING_SECONDS * sampleRate);
    this.attack = new Ring(RING_SECONDS * sampleRate);
    this.free = new Biquad('highpass', sampleRate, 12);
    this.toPick = new HighPass1(sampleRate, 100);
    this.toWave = new Biquad('highpass', sampleRate, 80);
    this.toAttack = new HighPass1(sampleRate, ATTACK_HZ);
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
  constructor(sampleRate: number, stepFrames: number) {
    this.freeA = new Float64Array(stepFrames);
    this.freeB = new Float64Array(stepFrames);
    this.pickA = new Float64Array(stepFrames);
    this.pickB = new Float64Array(stepFrames);
    const a = new Channel(sampleRate);
    const b = new Channel(sampleRate);
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
