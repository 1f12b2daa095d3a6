import { mkdtemp, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openFile } from '../../src/cli/fileSlices';
import { openTrack } from '../../src/files/openTrack';
import { chunk, format, riff, u32 } from '../files/wavBytes';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crosshead-'));
});
afterAll(() => rm(folder, { recursive: true }));

describe('a file on disk', () => {
  it('of 5 GiB is opened and read at its end, in little memory', async (context) => {
    const path = join(folder, 'long.wav');
    const frames = Math.floor((5 * 2 ** 30) / 4);
    const dataBytes = frames * 4;
    const sizes = chunk(
      'ds64',
      u32(1, 1, dataBytes % 2 ** 32, Math.floor(dataBytes / 2 ** 32), frames % 2 ** 32, 0, 0),
    );
    const stereo16 = format({ coding: 1, channels: 2, sampleRate: 48000, bits: 16 });
    const head = riff([sizes, stereo16, chunk('data', new Uint8Array(0), 0xffffffff)], 0xffffffff);
    head.set(new TextEncoder().encode('RF64'));
    const handle = await open(path, 'w');
    try {
      await handle.write(head, 0, head.length, 0);
      await handle.truncate(head.length + dataBytes);
      const end = new Uint8Array(new Int16Array([1, -1, 2, -2, 3, -3]).buffer);
      await handle.write(end, 0, end.length, head.length + dataBytes - end.length);
      // a disk that makes no holes would be filled
      if ((await handle.stat()).blocks * 512 > 2 ** 20) context.skip('no sparse files here');
    } catch (thrown) {
      if (thrown instanceof Error && 'code' in thrown && /ENOSPC|EFBIG|EINVAL|EDQUOT/.test(String(thrown.code))) {
        context.skip('no file of 5 GiB fits here');
      }
      throw thrown;
    } finally {
      await handle.close();
    }

    const before = process.memoryUsage().arrayBuffers;
    const file = await openFile(path);
    const track = await openTrack(file);
    expect([track.frames, track.sampleRate, track.channels, track.cut]).toEqual([frames, 48000, 2, null]);
    const into = [new Float32Array(2 ** 20), new Float32Array(2 ** 20)] as const;
    expect(await track.read(frames - 2 ** 20, into)).toBe(2 ** 20);
    expect([...into[0].subarray(-4)].map((x) => x * 32768)).toEqual([0, 1, 2, 3]);
    expect([...into[1].subarray(-4)].map((x) => x * 32768)).toEqual([0, -1, -2, -3]);
    expect(await track.read(frames, into)).toBe(0);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(32 * 2 ** 20);
    await file.close();
  });

  it('that isn’t there is told by the system', async () => {
    await expect(openFile(join(folder, 'none.wav'))).rejects.toThrow(/ENOENT/);
  });
});
