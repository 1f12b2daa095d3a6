/**
 * Frames in memory that the page and the audio thread share: one writes, one reads, nothing is copied into a message, so nothing is
 * left on the audio thread's heap. The frame numbered n (from 0) lies in slot n mod RING_SLOTS. The writer says which frame it is
 * about to write, writes it, and says that it has; the reader copies a frame out, and keeps the copy only if the writer is
 * still a whole frame away from that slot.
 * Layout: frames begun, frames written, numbers in each slot's frame (Int32), then the slots (Float64).
 */
import { frameLength } from '../reading/frame';

/** Three seconds: a page that is busy for longer finds the newest, and the line of the trace is broken. */
export const RING_SLOTS = 128;

const BEGUN = 0;
const WRITTEN = 1;
const LENGTHS = 2;
const COUNTS = LENGTHS + RING_SLOTS;
const FRAMES_AT_BYTE = 8 * Math.ceil((COUNTS * Int32Array.BYTES_PER_ELEMENT) / 8);
/** places among the counts, how many there are, and where the slots begin */
export const RING_LAYOUT = {
  begun: BEGUN,
  written: WRITTEN,
  lengths: LENGTHS,
  counts: COUNTS,
  framesAtByte: FRAMES_AT_BYTE,
} as const;

/** no engine looks less far, ms */
const LEAST_REACH_MS = 20;

/** The longest frame of an engine of this rate and reach: it gives a point a lag at most, ahead and behind. */
export function longestFrame(sampleRate: number, maxLagMs: number): number {
  return frameLength(2 * Math.ceil((sampleRate * Math.max(maxLagMs, LEAST_REACH_MS)) / 1000) + 3);
}

/** @param longest numbers in the longest frame that it must take */
export function ringMemory(longest: number): SharedArrayBuffer {
  return new SharedArrayBuffer(FRAMES_AT_BYTE + RING_SLOTS * longest * Float64Array.BYTES_PER_ELEMENT);
}

/** Numbers in the longest frame that it takes. */
export function ringTakes(memory: SharedArrayBuffer): number {
  return Math.floor((memory.byteLength - FRAMES_AT_BYTE) / (RING_SLOTS * Float64Array.BYTES_PER_ELEMENT));
}

const slotAt = (memory: SharedArrayBuffer, slot: number, length: number): Float64Array =>
  new Float64Array(memory, FRAMES_AT_BYTE + slot * ringTakes(memory) * Float64Array.BYTES_PER_ELEMENT, length);

/** The audio thread's end: one at a time, and the next goes on where it stopped. */
export class FrameRingWriter {
  private readonly counts: Int32Array;
  private readonly slots: Float64Array[];
  private frame: number;

  /** @throws RangeError where frames of this length are too long for it */
  constructor(memory: SharedArrayBuffer, length: number) {
    const takes = ringTakes(memory);
    if (length > takes) throw new RangeError(`a frame has at most ${takes} numbers here but would have ${length}`);
    this.counts = new Int32Array(memory, 0, COUNTS);
    this.slots = Array.from({ length: RING_SLOTS }, (_, slot) => slotAt(memory, slot, length));
    this.frame = Atomics.load(this.counts, WRITTEN);
  }

  /** Where the next frame is to be written; it may hold an older one. Real-time safe: yes. */
  begin(): Float64Array {
    Atomics.store(this.counts, BEGUN, this.frame + 1);
    return this.slots[this.frame % RING_SLOTS] as Float64Array;
  }

  /** It is written: the page may have it. Real-time safe: yes. */
  publish(): void {
    const slot = this.frame % RING_SLOTS;
    this.counts[LENGTHS + slot] = (this.slots[slot] as Float64Array).length;
    this.frame += 1;
    Atomics.store(this.counts, WRITTEN, this.frame);
    Atomics.notify(this.counts, WRITTEN);
  }
}

type Waited = { async: false; value: 'not-equal' | 'timed-out' } | { async: true; value: Promise<'ok' | 'timed-out'> };
/** lib.es2024, which not every browser has */
type WaitAsync = (counts: Int32Array, index: number, value: number) => Waited;
const { waitAsync } = Atomics as { waitAsync?: WaitAsync };

/** Whether a page can be woken by what is written into shared memory, without a thread that waits for it. */
export const canWait = (): boolean => waitAsync !== undefined;

/** The page's end. Any number may read, each for itself. */
export class FrameRingReader {
  /** frames that were written over before they were taken */
  lost = 0;
  private readonly counts: Int32Array;
  private next: number;

  /** Begins with the oldest frame that is still there. */
  constructor(private readonly memory: SharedArrayBuffer) {
    this.counts = new Int32Array(memory, 0, COUNTS);
    this.next = Math.max(0, this.oldest());
  }

  /** A copy of the next frame, in order; null: there is none yet. */
  take(): Float64Array | null {
    while (this.next < Atomics.load(this.counts, WRITTEN)) {
      const oldest = this.oldest();
      if (oldest > this.next) {
        this.lost += oldest - this.next;
        this.next = oldest;
        continue;
      }
      const slot = this.next % RING_SLOTS;
      // of its own memory: a slice always is
      const frame = slotAt(this.memory, slot, this.counts[LENGTHS + slot] as number).slice();
      // written over meanwhile: what was copied may be of two frames
      if (this.oldest() > this.next) continue;
      this.next += 1;
      return frame;
    }
    return null;
  }

  /** Resolves when there is more to take, or `wake` was called; at once where there is already. */
  async more(): Promise<void> {
    const waited = waitAsync?.(this.counts, WRITTEN, this.next);
    if (waited?.async) await waited.value;
  }

  /** Ends every wait, also those of others: nobody is left waiting for a writer that is gone. */
  wake(): void {
    Atomics.notify(this.counts, WRITTEN);
  }

  /** The oldest frame that the writer is at least one whole frame away from. */
  private oldest(): number {
    return Atomics.load(this.counts, BEGUN) + 1 - RING_SLOTS;
  }
}
