/**
 * The listening path, sample by sample: what goes round, or what comes in live → delay lines → the version that was chosen, with
 * a crossfade from the one before → ceiling → level. All versions are made of the same past, so the place in the loop, the
 * latency and the filters' memory are theirs alike, and the next one can begin with any sample.
 */
import { Ceiling } from './ceiling';
import { TAPS } from './kernel';
import { CEILING_DBFS } from './matching';
import { Runaway } from './runaway';
import { Past, Slot } from './slot';
import { LONGEST_DELAY_SECONDS, type Mix } from './version';

/** from one version to the next, s */
export const CROSSFADE_SECONDS = 0.015;
/** the level moves this smoothly, s */
const LEVEL_SECONDS = 0.05;
/** what goes round begins and ends so, s */
const GATE_SECONDS = 0.01;
/** frames worked on at a time */
const CHUNK = 128;

/** Goes from where it is to where it is wanted along a line. */
class Ramp {
  value = Number.NaN;
  private target = 0;
  private step = 0;
  private left = 0;

  constructor(private readonly frames: number) {
    this.value = 0;
  }

  get isOver(): boolean {
    return this.left === 0;
  }

  /** Real-time safe: yes. */
  go(target: number): void {
    if (target === this.target) return;
    this.target = target;
    this.left = this.frames;
    this.step = (target - this.value) / this.frames;
  }

  /** Real-time safe: yes. */
  scale(left: Float64Array, right: Float64Array, n: number): void {
    let { value, left: frames } = this;
    for (let i = 0; i < n; i++) {
      if (frames > 0) {
        frames -= 1;
        value = frames === 0 ? this.target : value + this.step;
      }
      left[i] = (left[i] as number) * value;
      right[i] = (right[i] as number) * value;
    }
    this.value = value;
    this.left = frames;
  }
}

export class Mixer {
  private readonly a: Past;
  private readonly b: Past;
  private readonly runaway: Runaway;
  private readonly ceiling: Ceiling;
  private readonly level: Ramp;
  private readonly gate: Ramp;
  private readonly fadeFrames: number;
  private now: Slot;
  private next: Slot;
  /** frames of the crossfade still to come */
  private fading = 0;
  /** chosen while another was fading in */
  private waiting: Mix | null = null;
  private isSet = false;
  private loopA: Float32Array | null = null;
  private loopB: Float32Array | null = null;
  private nextA: Float32Array | null = null;
  private nextB: Float32Array | null = null;
  private isNextDue = false;
  private at = 0;
  private playing = false;
  /** highest of what came in live, of the frames in hand */
  private inPeak = 0;
  private readonly left = new Float64Array(CHUNK);
  private readonly right = new Float64Array(CHUNK);
  private readonly nextLeft = new Float64Array(CHUNK);
  private readonly nextRight = new Float64Array(CHUNK);
  /** it ran away, and is silent until `play` */
  muted = false;

  /** @param isLive what comes in is heard, and watched; else a loop is */
  constructor(
    sampleRate: number,
    private readonly isLive: boolean,
  ) {
    const most = Math.ceil(LONGEST_DELAY_SECONDS * sampleRate);
    const size = most + 2 * TAPS + CHUNK;
    this.a = new Past(size);
    this.b = new Past(size);
    this.now = new Slot(CHUNK, most);
    this.next = new Slot(CHUNK, most);
    this.runaway = new Runaway(sampleRate);
    this.ceiling = new Ceiling(sampleRate, CEILING_DBFS);
    this.level = new Ramp(Math.round(LEVEL_SECONDS * sampleRate));
    this.gate = new Ramp(Math.round(GATE_SECONDS * sampleRate));
    this.fadeFrames = Math.round(CROSSFADE_SECONDS * sampleRate);
  }

  /** The first is there at once, the others fade in. Real-time safe: yes. */
  choose(mix: Mix): void {
    if (!this.isSet) this.now.set(mix);
    else if (this.fading > 0) this.waiting = mix;
    else {
      this.next.set(mix);
      this.fading = this.fadeFrames;
    }
    this.isSet = true;
  }

  /** From its beginning, when the one before has gone. Equal lengths. Real-time safe: yes. */
  setLoop(a: Float32Array, b: Float32Array): void {
    if (a.length !== b.length) throw new RangeError(`must have equal lengths but had ${a.length} and ${b.length}`);
    this.nextA = a;
    this.nextB = b;
    this.isNextDue = true;
  }

  /** 0…1. Real-time safe: yes. */
  setLevel(level: number): void {
    this.level.go(level >= 0 ? Math.min(1, level) : 0);
  }

  /** Real-time safe: yes. */
  play(on: boolean): void {
    this.playing = on;
    this.muted = false;
    this.runaway.clear();
  }

  /** @param inA what comes in live; not read of a loop. Any number of frames. Real-time safe: yes. */
  process(inA: Float32Array | null, inB: Float32Array | null, outLeft: Float32Array, outRight: Float32Array): void {
    for (let from = 0; from < outLeft.length; from += CHUNK) {
      const n = Math.min(CHUNK, outLeft.length - from);
      if (this.isLive) this.takeIn(inA, inB, from, n);
      else this.goRound(n);
      this.mix(n);
      for (let i = 0; i < n; i++) {
        outLeft[from + i] = this.left[i] as number;
        outRight[from + i] = this.right[i] as number;
      }
    }
  }

  private takeIn(inA: Float32Array | null, inB: Float32Array | null, from: number, n: number): void {
    this.gate.go(this.playing && !this.muted ? 1 : 0);
    let high = 0;
    for (let i = 0; i < n; i++) {
      const x = inA === null ? 0 : sound(inA[from + i] as number);
      const y = inB === null ? 0 : sound(inB[from + i] as number);
      this.a.push(x);
      this.b.push(y);
      high = Math.max(high, Math.abs(x), Math.abs(y));
    }
    this.inPeak = high;
  }

  private goRound(n: number): void {
    const isGone = this.gate.isOver && this.gate.value === 0;
    if (this.isNextDue && isGone) {
      this.isNextDue = false;
      this.loopA = this.nextA;
      this.loopB = this.nextB;
      this.at = 0;
      this.a.clear();
      this.b.clear();
    }
    // what stands still begins with its first sample
    if (isGone && !this.playing) this.at = 0;
    this.gate.go(this.playing && !this.isNextDue ? 1 : 0);
    const { loopA, loopB } = this;
    for (let i = 0; i < n; i++) {
      const none = loopA === null || loopB === null || loopA.length === 0;
      this.a.push(none ? 0 : (loopA[this.at] as number));
      this.b.push(none ? 0 : (loopB[this.at] as number));
      if (!none) this.at = this.at + 1 >= loopA.length ? 0 : this.at + 1;
    }
  }

  private mix(n: number): void {
    const { left, right, nextLeft, nextRight } = this;
    this.now.render(this.a, this.b, n, left, right);
    if (this.fading > 0) {
      this.next.render(this.a, this.b, n, nextLeft, nextRight);
      this.crossfade(n);
    }
    if (this.isLive && this.playing && !this.muted && this.runaway.push(left, right, n, this.inPeak)) this.muted = true;
    this.ceiling.run(left, right, n);
    this.gate.scale(left, right, n);
    this.level.scale(left, right, n);
  }

  private crossfade(n: number): void {
    const { left, right, nextLeft, nextRight, fadeFrames } = this;
    for (let i = 0; i < n; i++) {
      const share = Math.max(0, this.fading - 1 - i) / fadeFrames;
      left[i] = share * (left[i] as number) + (1 - share) * (nextLeft[i] as number);
      right[i] = share * (right[i] as number) + (1 - share) * (nextRight[i] as number);
    }
    this.fading = Math.max(0, this.fading - n);
    if (this.fading > 0) return;
    const before = this.now;
    this.now = this.next;
    this.next = before;
    if (this.waiting === null) return;
    this.next.set(this.waiting);
    this.waiting = null;
    this.fading = fadeFrames;
  }
}

/** What is no number is no sound. */
const sound = (x: number): number => (x - x === 0 ? x : 0);
