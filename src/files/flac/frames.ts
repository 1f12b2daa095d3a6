/**
 * Finds the frames of a FLAC stream in a file of any size. A frame says where it begins and not where it ends: it ends where
 * the next one begins or the file ends, if its checksum is right there. So no run of samples that looks like a frame is taken for one.
 */
import type { Slices } from '../slices';
import { crc16 } from './crc';
import { type FrameHeader, frameHeaderAt, MOST_HEADER_BYTES } from './frameHeader';
import type { StreamInfo } from './streamInfo';

export interface Frame extends FrameHeader {
  /** offset in the file, and the offset behind it */
  at: number;
  to: number;
  bytes: Uint8Array;
}

const READ_AHEAD = 1 << 18;
/** ID3v1: `TAG` and 125 bytes more at the end of a file */
const TAG_BYTES = 128;
/** header and checksum */
const LEAST_FRAME_BYTES = 8;

export class Frames {
  /** no frame is longer: it can hold its samples as they are, with a bit more each for a difference of two channels */
  private readonly mostBytes: number;
  private buffer = new Uint8Array(0);
  private bufferAt = 0;

  constructor(
    private readonly slices: Slices,
    private readonly info: StreamInfo,
  ) {
    const samples = Math.ceil((info.mostFrames * (info.bits + 1)) / 8) + 8;
    this.mostBytes = MOST_HEADER_BYTES + info.channels * samples + 2;
  }

  /** The frame that begins at `at`; null: none does, or it isn't whole. */
  async at(at: number): Promise<Frame | null> {
    await this.hold(at, this.mostBytes + MOST_HEADER_BYTES);
    return this.held(at);
  }

  /** The first whole frame that begins at `from` or later, but before `to`. */
  async from(from: number, to: number): Promise<Frame | null> {
    for (let start = from; start < to; start += this.mostBytes) {
      await this.hold(start, 2 * this.mostBytes + MOST_HEADER_BYTES);
      const end = Math.min(to, start + this.mostBytes);
      for (let at = this.sync(start); at < end; at = this.sync(at + 1)) {
        const frame = this.held(at);
        if (frame) return frame;
      }
    }
    return null;
  }

  /** The last whole frame of the file; null: it has none. */
  async last(): Promise<Frame | null> {
    const { size } = this.slices;
    let from = Math.max(this.info.soundAt, size - 2 * this.mostBytes - TAG_BYTES);
    let last = await this.from(from, size);
    if (!last) {
      // something else stands at its end: halve to where the frames stop
      last = await this.at(this.info.soundAt);
      for (let to = from; last && to - last.to > this.mostBytes; ) {
        from = Math.floor((last.to + to) / 2);
        const later = await this.from(from, Math.min(to, from + this.mostBytes));
        if (later) last = later;
        else to = from;
      }
    }
    for (let next = last; next; next = await this.at(next.to)) last = next;
    return last;
  }

  /** The frame that holds sample frame `wanted`, which lies before `frames`; null: it is damaged. */
  async holding(wanted: number): Promise<Frame | null> {
    let low = await this.at(this.info.soundAt);
    for (let to = this.slices.size; low && to - low.to > 2 * this.mostBytes; ) {
      const middle = Math.floor((low.to + to) / 2);
      const frame = await this.from(middle, Math.min(to, middle + 2 * this.mostBytes));
      if (frame && frame.fromFrame <= wanted) low = frame;
      else to = middle;
      if (low.fromFrame + low.frames > wanted) break;
    }
    while (low && low.fromFrame + low.frames <= wanted) low = await this.at(low.to);
    return low && low.fromFrame <= wanted ? low : null;
  }

  /** Whether nothing but a tag follows. */
  async endsAt(at: number): Promise<boolean> {
    if (at === this.slices.size) return true;
    await this.hold(at, TAG_BYTES);
    return at + TAG_BYTES === this.slices.size && this.isTag(at);
  }

  private async hold(at: number, bytes: number): Promise<void> {
    const to = Math.min(this.slices.size, at + bytes);
    if (at >= this.bufferAt && to <= this.bufferAt + this.buffer.length) return;
    this.buffer = new Uint8Array(await this.slices.read(at, Math.max(bytes, READ_AHEAD)));
    this.bufferAt = at;
  }

  /** The next place at `at` or later where a frame could begin; Infinity: none in what is held. */
  private sync(at: number): number {
    const found = this.buffer.indexOf(0xff, at - this.bufferAt);
    return found < 0 ? Number.POSITIVE_INFINITY : found + this.bufferAt;
  }

  private isTag(at: number): boolean {
    const i = at - this.bufferAt;
    return this.buffer[i] === 0x54 && this.buffer[i + 1] === 0x41 && this.buffer[i + 2] === 0x47;
  }

  private held(at: number): Frame | null {
    const { buffer, bufferAt, info } = this;
    const start = at - bufferAt;
    const header = frameHeaderAt(buffer, start, info);
    if (!header) return null;
    const frame = (to: number): Frame => ({ ...header, at, to, bytes: buffer.subarray(start, to - bufferAt) });
    const next = header.fromFrame + header.frames;
    let crc = 0;
    let summed = start;
    const sumTo = (to: number): number => {
      crc = crc16(buffer, summed, to, crc);
      summed = to;
      return crc;
    };
    const end = Math.min(at + this.mostBytes, bufferAt + buffer.length - LEAST_FRAME_BYTES);
    for (let to = this.sync(at + LEAST_FRAME_BYTES); to <= end; to = this.sync(to + 1)) {
      if (frameHeaderAt(buffer, to - bufferAt, info)?.fromFrame !== next) continue;
      if (sumTo(to - bufferAt) === 0) return frame(to);
    }
    const size = this.slices.size;
    if (bufferAt + buffer.length < size) return null;
    const tagAt = size - TAG_BYTES;
    if (tagAt - bufferAt > summed && this.isTag(tagAt) && sumTo(tagAt - bufferAt) === 0) return frame(tagAt);
    // a next one that was cut off inside its header
    for (
      let to = this.sync(Math.max(at + LEAST_FRAME_BYTES, size - MOST_HEADER_BYTES));
      to < size;
      to = this.sync(to + 1)
    ) {
      if (to - bufferAt >= summed && sumTo(to - bufferAt) === 0) return frame(to);
    }
    return sumTo(size - bufferAt) === 0 ? frame(size) : null;
  }
}
