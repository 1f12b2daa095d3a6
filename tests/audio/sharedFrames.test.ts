import { afterEach, describe, expect, it, vi } from 'vitest';
import { mayShareMemory, SharedFrames } from '../../src/audio/sharedFrames';
import { FrameRingWriter, RING_SLOTS, ringMemory } from '../../src/protocol/frameRing';

const LENGTH = 10;
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

function bench() {
  const memory = ringMemory(LENGTH);
  const writer = new FrameRingWriter(memory, LENGTH);
  const taken: number[] = [];
  const frames = new SharedFrames(memory, ([value]) => {
    if (value === -1) throw new Error('refused');
    taken.push(value as number);
  });
  const write = (value: number): void => {
    writer.begin().fill(value);
    writer.publish();
  };
  return { taken, frames, write };
}

afterEach(() => vi.unstubAllGlobals());

describe('frames out of shared memory', () => {
  it('are handed on as they come, in order, without being asked for', async () => {
    const { taken, frames, write } = bench();
    write(1);
    await turn();
    expect(taken).toEqual([1]);
    write(2);
    write(3);
    await turn();
    expect(taken).toEqual([1, 2, 3]);
    frames.close();
  });

  it('are there at once for who asks, and each once', async () => {
    const { taken, frames, write } = bench();
    write(1);
    frames.takeAll();
    expect(taken).toEqual([1]);
    await turn();
    expect(taken).toEqual([1]);
    frames.close();
  });

  it('of a page that was busy: the newest are handed on', async () => {
    const { taken, frames, write } = bench();
    for (let n = 0; n < 500; n++) write(n);
    await turn();
    expect(taken).toHaveLength(RING_SLOTS - 1);
    expect(taken.at(-1)).toBe(499);
    frames.close();
  });

  it('go on after one that the page could not take, which is reported', async () => {
    const reported = vi.fn();
    vi.stubGlobal('reportError', reported);
    const { taken, frames, write } = bench();
    write(1);
    write(-1);
    write(2);
    await turn();
    write(3);
    await turn();
    expect(taken).toEqual([1, 2, 3]);
    expect(reported).toHaveBeenCalledTimes(1);
    frames.close();
  });

  it('come no more once it is closed, also not from inside one of them', async () => {
    const { taken, frames, write } = bench();
    write(1);
    await turn();
    frames.close();
    write(2);
    frames.takeAll();
    await turn();
    expect(taken).toEqual([1]);
  });
});

it('memory is shared only where the page is isolated', () => {
  expect(mayShareMemory()).toBe(false);
  vi.stubGlobal('crossOriginIsolated', true);
  expect(mayShareMemory()).toBe(true);
  vi.stubGlobal('crossOriginIsolated', false);
  expect(mayShareMemory()).toBe(false);
});
