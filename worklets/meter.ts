/**
 * The meter node: copies A and B into the engine and posts its newest reading. Everything that runs for each block
 * (`process`) neither allocates nor throws; whatever is built is built when a message comes in.
 */
import { Engine } from '../src/dsp/engine';
import {
  FRAME_POOL,
  type FromMeter,
  type MeterProcessorOptions,
  PROCESSOR_NAME,
  PROTOCOL_VERSION,
  READINGS_PER_SECOND,
  type ToMeter,
} from '../src/protocol/messages';

class MeterProcessor extends AudioWorkletProcessor {
  private engine!: Engine;
  private maxLagMs = 0;
  private swapped = false;
  private invertB = false;
  private hold = false;
  /** empty frames, at hand; the first `spare` of them */
  private readonly frames: (Float64Array<ArrayBuffer> | null)[] = new Array(FRAME_POOL).fill(null);
  private spare = 0;
  private framesPerReading = 0;
  private sincePosted = 0;
  /** the engine's count of changes when it was last posted */
  private changesPosted = 0;
  private toSkip = 0;
  private faulty = false;
  /** a `last` reading that found no frame at hand waits for the next one to come back */
  private lastWaits = false;
  /** one message and one transfer list, used again and again */
  private readonly message: { type: 'reading'; buffer: ArrayBuffer; last: boolean };
  private readonly transfer: ArrayBuffer[];

  constructor(options: { processorOptions: MeterProcessorOptions }) {
    super();
    const empty = new ArrayBuffer(0);
    this.message = { type: 'reading', buffer: empty, last: false };
    this.transfer = [empty];
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
      this.framesPerReading = sampleRate / (wanted.readingsPerSecond ?? READINGS_PER_SECOND);
      this.toSkip = Math.round((wanted.skipSeconds ?? 0) * sampleRate);
      this.swapped = wanted.swapped;
      this.invertB = wanted.invertB;
      this.build(wanted.maxLagMs);
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
      if (input === undefined || input.length < 2) return true;
      const left = input[0] as Float32Array;
      const right = input[1] as Float32Array;
      if (this.toSkip > 0) {
        this.toSkip -= left.length;
        return true;
      }
      if (this.swapped) this.engine.push(right, left);
      else this.engine.push(left, right);
      this.sincePosted += left.length;
      // a new decision doesn't wait for its turn
      const due = this.sincePosted >= this.framesPerReading || this.engine.changes !== this.changesPosted;
      if (due && this.spare > 0) this.post(false);
      return true;
    } catch (thrown) {
      this.fault(thrown);
      return false;
    }
  }

  /** Real-time safe: yes, apart from what posting a message costs; with no frame at hand it does nothing. */
  private post(last: boolean): boolean {
    if (this.spare === 0) return false;
    this.spare -= 1;
    const frame = this.frames[this.spare] as Float64Array<ArrayBuffer>;
    this.frames[this.spare] = null;
    this.engine.writeFrame(frame);
    this.changesPosted = this.engine.changes;
    this.message.buffer = frame.buffer;
    this.message.last = last;
    this.transfer[0] = frame.buffer;
    this.port.postMessage(this.message, this.transfer);
    // the remainder counts on, so that long blocks keep the rate
    this.sincePosted %= this.framesPerReading;
    return true;
  }

  private receive(message: ToMeter): void {
    switch (message.type) {
      case 'frame':
        // a view of a buffer is a small object, made here and not in process(); a buffer of another length belongs to
        // an engine that is gone
        if (message.buffer.byteLength === this.engine.frameLength * 8 && this.spare < FRAME_POOL) {
          this.frames[this.spare] = new Float64Array(message.buffer);
          this.spare += 1;
        }
        if (this.lastWaits) this.lastWaits = !this.post(true);
        return;
      case 'restart':
        this.swapped = message.swapped;
        this.lastWaits = false;
        if (message.maxLagMs === this.maxLagMs) this.engine.restart();
        else this.build(message.maxLagMs);
        break;
      case 'hold':
        this.hold = message.on;
        this.engine.setHold(message.on);
        break;
      case 'invert-b':
        this.invertB = message.on;
        this.engine.setInvertB(message.on);
        break;
      case 'drum':
        this.engine.setDrum(message.id);
        break;
      case 'flush':
        this.engine.flush();
        this.lastWaits = !this.post(true);
        return;
    }
    // shown at once, also when no more blocks are coming
    this.post(false);
  }

  /**
   * A new engine and its frames. It allocates on the audio thread, which may cost this stream a block or two: it
   * happens only before the first block and when the reach is changed, where every hit is forgotten anyway.
   */
  private build(maxLagMs: number): void {
    this.engine = new Engine(sampleRate, { maxLagMs });
    this.engine.setInvertB(this.invertB);
    this.engine.setHold(this.hold);
    this.maxLagMs = maxLagMs;
    for (let i = 0; i < FRAME_POOL; i++) this.frames[i] = new Float64Array(this.engine.frameLength);
    this.spare = FRAME_POOL;
    this.sincePosted = 0;
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
