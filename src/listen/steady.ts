/** What a mix comes to at the ears once its loop has gone round: the same kernels as the mixer's, over a circle. */
import { BASE_SAMPLES, TAPS, writeKernel } from './kernel';
import type { Mix } from './version';

export interface Ears {
  left: Float64Array;
  right: Float64Array;
}

/** `loop` later by `delaySamples`, round and round; BASE_SAMPLES are taken out again. */
export function delayedLoop(loop: ArrayLike<number>, delaySamples: number): Float64Array {
  const n = loop.length;
  const out = new Float64Array(n);
  if (delaySamples === 0) return Float64Array.from(loop);
  const whole = Math.floor(delaySamples);
  const kernel = new Float64Array(TAPS);
  writeKernel(kernel, delaySamples - whole);
  // laid out once with what comes round before and after it, so that the inner loop is plain
  const laid = new Float64Array(n + TAPS);
  const first = BASE_SAMPLES - whole - (TAPS - 1);
  for (let i = 0; i < laid.length; i++) laid[i] = loop[(((first + i) % n) + n) % n] as number;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let k = 0; k < TAPS; k++) sum += (kernel[k] as number) * (laid[i + TAPS - 1 - k] as number);
    out[i] = sum;
  }
  return out;
}

export function steadyLoop(a: ArrayLike<number>, b: ArrayLike<number>, mix: Mix): Ears {
  const lateA = delayedLoop(a, mix.delayASamples);
  const lateB = delayedLoop(b, mix.delayBSamples);
  const left = new Float64Array(a.length);
  const right = new Float64Array(a.length);
  for (let i = 0; i < left.length; i++) {
    const x = lateA[i] as number;
    const y = lateB[i] as number;
    left[i] = mix.aLeft * x + mix.bLeft * y;
    right[i] = mix.aRight * x + mix.bRight * y;
  }
  return { left, right };
}
