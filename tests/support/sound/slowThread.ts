/** What an audio thread that doesn't keep up makes of a pair: whole device blocks are missing, the rest is joined. */
import { CAPTURE_RATE, seeded } from './signals';

export interface SlowThread {
  /** ms that a quantum takes, from … to, in turn by chance */
  quantumMs: readonly [number, number];
  /** frames that the device delivers at a time, and frames that wait for the thread at most */
  deviceFrames?: number;
  waitingFrames?: number;
  seed?: number;
}

export interface Joined {
  a: Float32Array;
  b: Float32Array;
  /** frames at which blocks are missing */
  joints: number[];
  /** ms at which each quantum was taken in */
  atMs: number[];
}

const QUANTUM = 128;

/** The device delivers at CAPTURE_RATE; what finds no room is dropped, and a quantum that finds too little is filled with zeros. */
export function throughSlowThread(a: Float32Array, b: Float32Array, thread: SlowThread): Joined {
  const { quantumMs, deviceFrames = 441, waitingFrames = 8192, seed = 1 } = thread;
  const random = seeded(seed);
  const frames: number[] = [];
  const joints: number[] = [];
  const atMs: number[] = [];
  const waiting: { from: number; left: number }[] = [];
  let inWaiting = 0;
  let delivered = 0;
  let last = -1;
  for (let ms = 0; (delivered + 1) * deviceFrames <= a.length; ) {
    const takes = quantumMs[0] + random() * (quantumMs[1] - quantumMs[0]);
    ms += Math.max(takes, (1000 * QUANTUM) / CAPTURE_RATE);
    for (; ((delivered + 1) * deviceFrames * 1000) / CAPTURE_RATE <= ms; delivered++) {
      if (inWaiting + deviceFrames > waitingFrames || (delivered + 1) * deviceFrames > a.length) continue;
      waiting.push({ from: delivered * deviceFrames, left: deviceFrames });
      inWaiting += deviceFrames;
    }
    atMs.push(ms);
    for (let i = 0; i < QUANTUM; i++) {
      const first = waiting[0];
      if (first === undefined) {
        frames.push(-1);
        continue;
      }
      if (last >= 0 && first.from !== last + 1) joints.push(frames.length);
      last = first.from;
      frames.push(first.from++);
      inWaiting--;
      if (--first.left === 0) waiting.shift();
    }
  }
  const take = (x: Float32Array): Float32Array => Float32Array.from(frames, (frame) => (frame < 0 ? 0 : x[frame]));
  return { a: take(a), b: take(b), joints, atMs };
}
