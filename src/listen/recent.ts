/** The newest seconds of two channels, in memory that page and audio thread may share: one writes, the other copies out. */

export const RECENT_PROCESSOR = 'crosshead-recent';
export const RECENT_SECONDS = 8;
/** the oldest are left out: they may be written over while they are read, s */
const MARGIN_SECONDS = 0.1;

export interface RecentOptions {
  /** null: the processor has memory of its own, and sends it when it is asked */
  memory: SharedArrayBuffer | null;
  /** the beginning of what comes in, which isn't kept, s */
  skipSeconds: number;
}

/** `take`: asked for and sent, without shared memory. `end`: nothing is kept any more, and the processor goes. */
export type ToRecent = { type: 'take' } | { type: 'end' };
export type FromRecent = { type: 'recent'; memory: ArrayBuffer };

const HEAD_BYTES = 8;
const AT = 0;
const FULL = 1;

export const recentFrames = (sampleRate: number): number => Math.round(RECENT_SECONDS * sampleRate);
export const recentBytes = (sampleRate: number): number => HEAD_BYTES + 8 * recentFrames(sampleRate);

/** Every page of it is written to, so that the audio thread needn't find them. Real-time safe: no (allocates). */
export function withPages<Memory extends ArrayBufferLike>(memory: Memory): Memory {
  new Uint8Array(memory).fill(0);
  return memory;
}

export class Recent {
  private readonly head: Int32Array;
  private readonly a: Float32Array;
  private readonly b: Float32Array;
  private readonly frames: number;

  /** @param memory of `recentBytes` */
  constructor(
    memory: ArrayBufferLike,
    private readonly sampleRate: number,
  ) {
    const needed = recentBytes(sampleRate);
    if (memory.byteLength !== needed)
      throw new RangeError(`must have length ${needed} but had length ${memory.byteLength}`);
    this.frames = recentFrames(sampleRate);
    this.head = new Int32Array(memory, 0, 2);
    this.a = new Float32Array(memory, HEAD_BYTES, this.frames);
    this.b = new Float32Array(memory, HEAD_BYTES + 4 * this.frames, this.frames);
  }

  /** Equal lengths. Copied as a whole: sample by sample, code that isn't compiled yet leaves garbage. Real-time safe: yes. */
  push(a: Float32Array, b: Float32Array): void {
    let at = Atomics.load(this.head, AT);
    if (at + a.length < this.frames) {
      this.a.set(a, at);
      this.b.set(b, at);
      at += a.length;
    } else {
      for (let i = 0; i < a.length; i++) {
        this.a[at] = a[i] as number;
        this.b[at] = b[i] as number;
        at = at + 1 === this.frames ? 0 : at + 1;
      }
      Atomics.store(this.head, FULL, 1);
    }
    Atomics.store(this.head, AT, at);
  }

  /** Oldest first; what is no number is silence. */
  newest(): { a: Float32Array; b: Float32Array } {
    const at = Atomics.load(this.head, AT);
    const isFull = Atomics.load(this.head, FULL) === 1;
    const skip = isFull ? Math.round(MARGIN_SECONDS * this.sampleRate) : 0;
    const of = (ring: Float32Array): Float32Array => {
      const out = new Float32Array(isFull ? this.frames : at);
      if (isFull) out.set(ring.subarray(at), 0);
      out.set(ring.subarray(0, at), isFull ? this.frames - at : 0);
      for (let i = skip; i < out.length; i++) if (!Number.isFinite(out[i])) out[i] = 0;
      return out.subarray(skip);
    };
    return { a: of(this.a), b: of(this.b) };
  }
}
