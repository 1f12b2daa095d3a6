import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { describe, expect, it, vi } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import {
  canWait,
  FrameRingReader,
  FrameRingWriter,
  longestFrame,
  RING_SLOTS,
  ringMemory,
  ringTakes,
} from '../../src/protocol/frameRing';
import { READINGS_PER_SECOND } from '../../src/protocol/messages';

const LENGTH = 50;

/** A frame that is all one number: two that are mixed show. */
function write(writer: FrameRingWriter, value: number): void {
  writer.begin().fill(value);
  writer.publish();
}

/** What there is to take, a number a frame. */
function takeAll(reader: FrameRingReader): number[] {
  const taken: number[] = [];
  for (let frame = reader.take(); frame !== null; frame = reader.take()) {
    const [value] = frame;
    expect(frame.every((x) => x === value)).toBe(true);
    taken.push(value as number);
  }
  return taken;
}

const upTo = (from: number, end: number): number[] => Array.from({ length: end - from }, (_, i) => from + i);

function ring() {
  const memory = ringMemory(LENGTH);
  return { memory, writer: new FrameRingWriter(memory, LENGTH), reader: new FrameRingReader(memory) };
}

describe('frames', () => {
  it('come out in order, each once, as copies of their own', () => {
    const { writer, reader } = ring();
    expect(reader.take()).toBeNull();
    write(writer, 1);
    write(writer, 2);
    const first = reader.take();
    expect(first?.buffer).toBeInstanceOf(ArrayBuffer);
    write(writer, 3);
    expect(takeAll(reader)).toEqual([2, 3]);
    expect(first?.[0]).toBe(1);
    expect(reader.take()).toBeNull();
    for (let n = 0; n < 3 * RING_SLOTS; n += 10) {
      for (const value of upTo(n, n + 10)) write(writer, value);
      expect(takeAll(reader)).toEqual(upTo(n, n + 10));
    }
    expect(reader.lost).toBe(0);
  });

  it('that are being written are not there yet', () => {
    const { writer, reader } = ring();
    writer.begin().fill(7);
    expect(reader.take()).toBeNull();
    writer.publish();
    expect(takeAll(reader)).toEqual([7]);
  });

  it('that nobody took are written over, the newest stay, and it is known how many were lost', () => {
    const { writer, reader } = ring();
    for (const value of upTo(0, 1000)) write(writer, value);
    const kept = takeAll(reader);
    expect(kept).toEqual(upTo(1000 - RING_SLOTS + 1, 1000));
    expect(reader.lost).toBe(1000 - kept.length);
    write(writer, 1000);
    expect(takeAll(reader)).toEqual([1000]);
  });

  it('are not taken from a slot that is being written over', () => {
    const { writer, reader } = ring();
    for (const value of upTo(0, RING_SLOTS)) write(writer, value);
    writer.begin().fill(-1); // into the slot of frame 0; frame 1 is the next in danger
    expect(reader.take()?.[0]).toBe(2);
    expect(reader.lost).toBe(2);
  });

  it('are thrown away where the writer came round while they were copied', () => {
    const { memory, writer, reader } = ring();
    for (const value of upTo(0, 3)) write(writer, value);
    const real = Float64Array.prototype.slice;
    const copied = vi.spyOn(Float64Array.prototype, 'slice').mockImplementationOnce(function (this: Float64Array) {
      for (const value of upTo(3, RING_SLOTS + 1)) write(writer, value);
      return real.call(this);
    });
    expect(reader.take()?.[0]).toBe(2);
    expect(reader.lost).toBe(2);
    copied.mockRestore();
    expect(new FrameRingReader(memory).take()?.[0]).toBe(2);
  });

  it('of another length go on in the same memory; longer ones than it was made for are refused', () => {
    const { memory, writer, reader } = ring();
    write(writer, 1);
    const shorter = new FrameRingWriter(memory, LENGTH - 20);
    write(shorter, 2);
    expect([reader.take()?.length, reader.take()?.length]).toEqual([LENGTH, LENGTH - 20]);
    expect(ringTakes(memory)).toBe(LENGTH);
    expect(() => new FrameRingWriter(memory, LENGTH + 1)).toThrow(RangeError);
  });

  it('make nothing new on the writer’s side', () => {
    const { writer } = ring();
    const made = vi.spyOn(globalThis, 'Float64Array');
    for (const value of upTo(0, 300)) write(writer, value);
    expect(made).not.toHaveBeenCalled();
    made.mockRestore();
  });
});

describe('the memory', () => {
  it('takes the frames of every engine of that rate and reach, and isn’t large', () => {
    for (const rate of [8000, 44_100, 48_000, 71_000, 88_200, 96_000, 192_000])
      for (const maxLagMs of [1, 11, 34, 100]) {
        const { frameLength } = new Engine(rate, { maxLagMs });
        expect(longestFrame(rate, maxLagMs), `${rate} Hz, ${maxLagMs} ms`).toBeGreaterThanOrEqual(frameLength);
      }
    expect(ringMemory(longestFrame(48_000, 11)).byteLength).toBeLessThan(5e6);
    expect(ringMemory(longestFrame(96_000, 34)).byteLength).toBeLessThan(1e7);
  });

  it('holds what comes while a page is busy for three seconds', () => {
    expect(RING_SLOTS / READINGS_PER_SECOND).toBeGreaterThanOrEqual(3);
  });
});

describe('waiting', () => {
  const isOver = async (wait: Promise<void>): Promise<boolean> => {
    const over = wait.then(() => true);
    return Promise.race([over, new Promise<boolean>((resolve) => setTimeout(() => resolve(false), 20))]);
  };

  it('is possible here', () => expect(canWait()).toBe(true));

  it('ends with the next frame, with a wake, and at once where there is one already', async () => {
    const { writer, reader } = ring();
    const wait = reader.more();
    expect(await isOver(wait)).toBe(false);
    write(writer, 1);
    expect(await isOver(wait)).toBe(true);
    expect(await isOver(reader.more())).toBe(true);
    takeAll(reader);
    const another = reader.more();
    expect(await isOver(another)).toBe(false);
    reader.wake();
    expect(await isOver(another)).toBe(true);
  });

  it('is ended by another thread, and no frame that is taken is a mixture', { timeout: 30_000 }, async () => {
    const memory = ringMemory(LENGTH);
    const reader = new FrameRingReader(memory);
    const frames = 20_000;
    const entry = fileURLToPath(new URL('../../src/protocol/frameRing.ts', import.meta.url));
    const built = await build({
      configFile: false,
      logLevel: 'silent',
      build: { write: false, lib: { entry, formats: ['cjs'] } },
    });
    const [code] = (built as { output: { code: string }[] }[]).flatMap(({ output }) => output.map((file) => file.code));
    const worker = new Worker(
      `${code}
       const { FrameRingWriter } = module.exports;
       const writer = new FrameRingWriter(require('node:worker_threads').workerData, ${LENGTH});
       for (let n = 0; n < ${frames}; n++) { writer.begin().fill(n); writer.publish(); }`,
      { eval: true, workerData: memory },
    );
    const failed = new Promise<never>((_, reject) => worker.once('error', reject));
    let last = -1;
    let count = 0;
    while (last < frames - 1) {
      await Promise.race([reader.more(), failed]);
      for (const value of takeAll(reader)) {
        expect(value).toBeGreaterThan(last);
        last = value;
        count++;
      }
    }
    expect(count + reader.lost).toBe(frames);
    await worker.terminate();
  });
});
