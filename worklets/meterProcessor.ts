/**
 * The meter node: copies A and B into the engine and hands over its newest reading, in shared memory or as a message. Everything that runs for each block
 * (`process`) neither allocates nor throws; whatever is built is built when a message comes in.
 */
import { Engine } from '../src/dsp/engine';
import { GivenHits } from '../src/dsp/hit/givenHits';
import { KeepingUp } from '../src/dsp/input/keepingUp';
import { ONE_DRUM } from '../src/dsp/tuning/oneDrum';
import { warmUp } from '../src/dsp/warmUp';
import { FrameRingWriter, ringTakes } from '../src/protocol/frameRing';
import {
  type FromMeter,
  type KnownReading,
  type MeterProcessorOptions,
  MOST_UNSEEN,
  PROCESSOR_NAME,
  PROTOCOL_VERSION,
  READINGS_PER_SECOND,
  type ToMeter,
} from '../src/protocol/messages';
import { putDropping, putStamp } from '../src/reading/frame';
import { PICTURES_LENGTH } from '../src/reading/hitPictures';

/** between two looks at the clock at least so many frames: a block of 128 at 48 kHz */
const LOOK_FRAMES = Math.round(sampleRate / 400);

class MeterProcessor extends AudioWorkletProcessor {
  private engine!: Engine;
  private maxLagMs = 0;
  private offsetSamples = 0;
  private settingOffset = false;
  private known: KnownReading | null = null;
  /** frames at which hits begin, of a stream that is read once; null: they are looked for */
  private given: readonly number[] | null = null;
  private swapped = false;
  private invertB = false;
  private hold = false;
  /** shared with the page, if any */
  private memory: SharedArrayBuffer | null = null;
  private ring: FrameRingWriter | null = null;
  /** readings posted that the page has not told of yet */
  private unseen = 0;
  /** more than that for a second: what the page tells of next makes good for all */
  private stalled = false;
  private framesPerReading = 0;
  private sincePosted = 0;
  /** the engine's count of changes when it was last posted */
  private changesPosted = 0;
  private toSkip = 0;
  /** of the newest message that changed what a reading means */
  private stamp = 0;
  private faulty = false;
  /** null: faster or slower than life, nothing can be late */
  private keepingUp: KeepingUp | null = null;
  private captured = false;
  private sinceLook = 0;
  /** some blocks have come, and nothing was connected since */
  private fed = false;
  private cut = false;
  /** two messages, used again and again: posting copies it outside the collected heap */
  private readonly drawn = { type: 'pictures' as const, pictures: new Float32Array(PICTURES_LENGTH) };
  private readonly message = { type: 'reading' as const, frame: new Float64Array(0), last: false };

  constructor(options: { processorOptions: MeterProcessorOptions }) {
    super();
    this.port.onmessage = (event: MessageEvent<ToMeter>) => {
      if (this.faulty) return;
      try {
        this.receive(event.data);
      } catch (thrown) {
        this.fault(thrown);
      }
    };
    try {
      const wanted = options.processorOptions;
      if (wanted.version !== PROTOCOL_VERSION) {
        throw new RangeError(`the page speaks protocol ${wanted.version}, the meter ${PROTOCOL_VERSION}`);
      }
      // a whole number: a fraction kept from block to block would be a new object each time until the compiler knows better
      this.framesPerReading = Math.ceil(sampleRate / (wanted.readingsPerSecond ?? READINGS_PER_SECOND));
      this.toSkip = Math.round((wanted.skipSeconds ?? 0) * sampleRate);
      this.swapped = wanted.swapped;
      this.invertB = wanted.invertB;
      this.offsetSamples = wanted.offsetSamples ?? 0;
      this.known = wanted.known ?? null;
      this.given = wanted.given ?? null;
      this.memory = wanted.ring ?? null;
      const live = wanted.live ?? true;
      if (live) warmUp(sampleRate, wanted.maxLagMs);
      this.captured = wanted.captured ?? false;
      if (live) this.keepingUp = new KeepingUp(sampleRate, { captured: this.captured });
      this.build(wanted.maxLagMs, wanted.settingOffset ?? false);
      this.send({ type: 'ready', version: PROTOCOL_VERSION, sampleRate });
    } catch (thrown) {
      this.fault(thrown);
    }
  }

  /** Real-time safe: yes. */
  process(inputs: Float32Array[][]): boolean {
    if (this.faulty) return false;
    try {
      const input = inputs[0];
      // no channels at all while nothing is connected: that is no data, not silence
      if (input === undefined || input.length < 2) {
        this.cut = this.fed;
        return true;
      }
      const left = input[0] as Float32Array;
      const right = input[1] as Float32Array;
      this.watch(left.length);
      if (this.toSkip > 0) {
        this.toSkip -= left.length;
        return true;
      }
      if (this.swapped) this.engine.push(right, left);
      else this.engine.push(left, right);
      this.sincePosted += left.length;
      // a new decision doesn't wait for its turn
      const due = this.sincePosted >= this.framesPerReading || this.engine.changes !== this.changesPosted;
      // messages were lost, or the page is busy for long: one a second, until it tells
      if (this.sincePosted >= sampleRate && this.unseen >= MOST_UNSEEN) this.stalled = true;
      if (due && (this.unseen < MOST_UNSEEN || this.sincePosted >= sampleRate)) this.post(false);
      return true;
    } catch (thrown) {
      this.fault(thrown);
      return false;
    }
  }

  /** Has the thread kept up until this block? What plays from memory loses nothing by being late. Real-time safe: yes. */
  private watch(frames: number): void {
    const { keepingUp } = this;
    if (keepingUp === null) return;
    // each look at the clock is garbage: short blocks, at high rates, are looked at together
    this.sinceLook += frames;
    if (!this.cut && this.sinceLook < LOOK_FRAMES && keepingUp.follows(currentFrame, frames)) return;
    this.sinceLook = 0;
    keepingUp.nowMs[0] = Date.now();
    const ago = keepingUp.block(currentFrame, frames);
    if (this.captured && (ago >= 0 || this.cut)) this.engine.lost(Math.max(0, ago));
    this.cut = false;
    this.fed = true;
  }

  /** Real-time safe: yes with shared memory; without, apart from what posting a message costs. */
  private post(last: boolean): void {
    // the last one is asked for by a message, and ends what is in the memory
    const ring = last ? null : this.ring;
    const frame = ring === null ? this.message.frame : ring.begin();
    this.engine.writeFrame(frame);
    putStamp(frame, this.stamp);
    putDropping(frame, this.keepingUp?.dropping ?? false);
    this.changesPosted = this.engine.changes;
    if (ring === null) {
      this.message.last = last;
      this.port.postMessage(this.message);
      this.unseen += 1;
    } else ring.publish();
    // the remainder counts on, so that long blocks keep the rate
    this.sincePosted %= this.framesPerReading;
  }

  private receive(message: ToMeter): void {
    switch (message.type) {
      case 'seen':
        this.unseen = this.stalled ? 0 : Math.max(0, this.unseen - message.readings);
        this.stalled = false;
        return;
      case 'restart':
        this.stamp = message.stamp;
        this.swapped = message.swapped;
        this.offsetSamples = message.offsetSamples ?? 0;
        this.known = message.known ?? null;
        this.memory = message.ring ?? this.memory;
        if (message.maxLagMs === this.maxLagMs && (message.settingOffset ?? false) === this.settingOffset)
          this.engine.setOffset(this.settingOffset ? 0 : this.offsetSamples);
        else this.build(message.maxLagMs, message.settingOffset ?? false);
        this.expect();
        this.engine.setDrum(null);
        break;
      case 'hold':
        this.hold = message.on;
        this.engine.setHold(message.on);
        break;
      case 'invert-b':
        this.stamp = message.stamp;
        this.invertB = message.on;
        this.engine.setInvertB(message.on);
        break;
      case 'drum':
        this.stamp = message.stamp;
        this.engine.setDrum(message.id);
        break;
      case 'lost':
        this.engine.lost(Math.round(message.seconds * sampleRate));
        return;
      case 'pictures':
        this.engine.writePictures(this.drawn.pictures, message.wish);
        this.port.postMessage(this.drawn);
        return;
      case 'flush':
        this.engine.flush();
        this.post(true);
        return;
    }
    // shown at once, also when no more blocks are coming
    this.post(false);
  }

  /**
   * A new engine and its frame. It allocates on the audio thread, which may cost this stream a block or two: it
   * happens only before the first block and when the reach is changed, where every hit is forgotten anyway.
   */
  private build(maxLagMs: number, settingOffset: boolean): void {
    const { given } = this;
    this.engine = new Engine(sampleRate, {
      maxLagMs,
      settingOffset,
      offsetSamples: this.offsetSamples,
      ...(given ? { hits: new GivenHits(given), tuning: ONE_DRUM } : {}),
    });
    this.engine.setInvertB(this.invertB);
    this.engine.setHold(this.hold);
    this.expect();
    this.maxLagMs = maxLagMs;
    this.settingOffset = settingOffset;
    const { frameLength } = this.engine;
    this.message.frame = new Float64Array(frameLength);
    const { memory } = this;
    this.ring = memory !== null && ringTakes(memory) >= frameLength ? new FrameRingWriter(memory, frameLength) : null;
    this.sincePosted = 0;
    // what this took is known, and told of nothing
    this.keepingUp?.clear();
  }

  /** What was read of the pair before. */
  private expect(): void {
    const { known } = this;
    const perMs = sampleRate / 1000;
    if (known === null) this.engine.expect(Number.NaN, 0, Number.NaN);
    else this.engine.expect(known.delayMs * perMs, known.sign, (known.uncertaintyMs ?? Number.NaN) * perMs);
  }

  /** Say it once, then stay silent. */
  private fault(thrown: unknown): void {
    this.faulty = true;
    try {
      this.send({ type: 'fault', text: thrown instanceof Error ? thrown.message : String(thrown) });
    } catch {
      // the port is gone: nobody is listening any more
    }
  }

  private send(message: FromMeter): void {
    this.port.postMessage(message);
  }
}

registerProcessor(PROCESSOR_NAME, MeterProcessor);
