/** A file on disk, read in slices. */
import { open } from 'node:fs/promises';
import type { Slices } from '../files/slices';

export interface OpenFile extends Slices {
  close(): Promise<void>;
}

/** @throws what `fs` rejects with */
export async function openFile(path: string): Promise<OpenFile> {
  const handle = await open(path);
  try {
    const { size } = await handle.stat();
    return {
      size,
      async read(from, bytes) {
        const into = new Uint8Array(Math.max(0, Math.min(bytes, size - from)));
        let got = 0;
        while (got < into.length) {
          const { bytesRead } = await handle.read(into, got, into.length - got, from + got);
          if (bytesRead === 0) break;
          got += bytesRead;
        }
        return into.subarray(0, got);
      },
      close: () => handle.close(),
    };
  } catch (thrown) {
    await handle.close();
    throw thrown;
  }
}
