/** A file that is read in slices, whatever holds it, and readers that ask for the bytes they need. */

export interface Slices {
  /** bytes */
  readonly size: number;
  /** `bytes` of them from `from` on, fewer where the file ends before. Rejects as whatever holds the file does. */
  read(from: number, bytes: number): Promise<Uint8Array>;
}

/** What a browser's `Blob` or `File` offers here. */
export interface SliceableBlob {
  readonly size: number;
  slice(from: number, to: number): { arrayBuffer(): Promise<ArrayBuffer> };
}

export const blobSlices = (blob: SliceableBlob): Slices => ({
  size: blob.size,
  read: async (from, bytes) => new Uint8Array(await blob.slice(from, Math.min(blob.size, from + bytes)).arrayBuffer()),
});

export const bytesSlices = (bytes: Uint8Array): Slices => ({
  size: bytes.length,
  read: async (from, count) => bytes.subarray(from, from + count),
});

/** What a reader asks for next; it gets a view of that, shorter where the file ends before. */
export interface Ask {
  from: number;
  bytes: number;
}

/** A reader that knows nothing of where its bytes come from. */
export type Asking<T> = Generator<Ask, T, DataView>;

/** Answers from memory. */
export function answered<T>(reader: Asking<T>, view: DataView): T {
  let step = reader.next();
  while (!step.done) {
    const from = Math.min(step.value.from, view.byteLength);
    const bytes = Math.min(step.value.bytes, view.byteLength - from);
    step = reader.next(new DataView(view.buffer, view.byteOffset + from, bytes));
  }
  return step.value;
}

/** what is read at least: headers lie close together */
const PAGE = 4096;

export async function answeredBy<T>(reader: Asking<T>, slices: Slices): Promise<T> {
  let pageFrom = 0;
  let page = new Uint8Array(0);
  let step = reader.next();
  while (!step.done) {
    const { from, bytes } = step.value;
    const to = Math.min(slices.size, from + bytes);
    if (from < pageFrom || to > pageFrom + page.length) {
      page = new Uint8Array(await slices.read(from, Math.max(bytes, PAGE)));
      pageFrom = from;
    }
    const offset = Math.min(page.length, from - pageFrom);
    const there = Math.max(0, Math.min(bytes, page.length - offset));
    step = reader.next(new DataView(page.buffer, page.byteOffset + offset, there));
  }
  return step.value;
}
