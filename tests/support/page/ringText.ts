/** Both ends of the memory that readings go through, as text: it must run in a page before anything of the page's own. */
import { RING_LAYOUT, RING_SLOTS } from '../../../src/protocol/frameRing';

const { begun, written, lengths, counts, framesAtByte } = RING_LAYOUT;

/** `ringEnds(memory)`: `write(frame)`, and `read(onFrame)`, which goes on for ever. */
export const RING_ENDS = `
  const ringEnds = (memory) => {
    const counts = new Int32Array(memory, 0, ${counts});
    const takes = Math.floor((memory.byteLength - ${framesAtByte}) / (8 * ${RING_SLOTS}));
    const slot = (n, length) => new Float64Array(memory, ${framesAtByte} + 8 * takes * (n % ${RING_SLOTS}), length);
    return {
      write(frame) {
        const n = Atomics.load(counts, ${written});
        Atomics.store(counts, ${begun}, n + 1);
        slot(n, frame.length).set(frame);
        counts[${lengths} + (n % ${RING_SLOTS})] = frame.length;
        Atomics.store(counts, ${written}, n + 1);
        Atomics.notify(counts, ${written});
      },
      async read(onFrame) {
        for (let n = 0; ; ) {
          const { async, value } = Atomics.waitAsync(counts, ${written}, n);
          if (async) await value;
          n = Math.max(n, Atomics.load(counts, ${begun}) + 1 - ${RING_SLOTS});
          for (; n < Atomics.load(counts, ${written}); n++)
            onFrame(slot(n, counts[${lengths} + (n % ${RING_SLOTS})]).slice());
        }
      },
    };
  };
`;
