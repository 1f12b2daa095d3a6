/**
 * Causal second-order filters (R. Bristow-Johnson, Audio EQ Cookbook, W3C Note 2021). All are minimum phase: nothing sounds
 * before it arrives, which is what a first arrival depends on.
 */
export interface Biquad {
  b0: number;
  b1: number;
  b2: number;
  a1: number;
  a2: number;
}

export function lowPass2(hz: number, q: number, rate: number): Biquad {
  const { cos, alpha } = angle(hz, q, rate);
  return scaled((1 - cos) / 2, 1 - cos, (1 - cos) / 2, 1 + alpha, -2 * cos, 1 - alpha);
}

export function highPass2(hz: number, q: number, rate: number): Biquad {
  const { cos, alpha } = angle(hz, q, rate);
  return scaled((1 + cos) / 2, -(1 + cos), (1 + cos) / 2, 1 + alpha, -2 * cos, 1 - alpha);
}

/** A bell of `db` at `hz`. */
export function peak(hz: number, db: number, q: number, rate: number): Biquad {
  const { cos, alpha } = angle(hz, q, rate);
  const a = 10 ** (db / 40);
  return scaled(1 + alpha * a, -2 * cos, 1 - alpha * a, 1 + alpha / a, -2 * cos, 1 - alpha / a);
}

export function lowPass1(hz: number, rate: number): Biquad {
  const k = Math.tan((Math.PI * hz) / rate);
  return scaled(k, k, 0, 1 + k, k - 1, 0);
}

export function highPass1(hz: number, rate: number): Biquad {
  const k = Math.tan((Math.PI * hz) / rate);
  return scaled(1, -1, 0, 1 + k, k - 1, 0);
}

/** Butterworth low-pass of even order as a chain: the anti-alias filter in front of the step down to the output rate. */
export function butterworthLowPass(hz: number, order: number, rate: number): Biquad[] {
  const chain: Biquad[] = [];
  for (let i = 0; i < order / 2; i++) {
    chain.push(lowPass2(hz, 1 / (2 * Math.sin((Math.PI * (2 * i + 1)) / (2 * order))), rate));
  }
  return chain;
}

/** One pass; `output` null only moves the state. Transposed direct form II. */
export function runBiquad(f: Biquad, input: Float64Array, output: Float64Array | null, state: [number, number]): void {
  let [s1, s2] = state;
  const { b0, b1, b2, a1, a2 } = f;
  for (let i = 0; i < input.length; i++) {
    const x = input[i];
    const y = b0 * x + s1;
    s1 = b1 * x - a1 * y + s2;
    s2 = b2 * x - a2 * y;
    if (output) output[i] = y;
  }
  state[0] = s1;
  state[1] = s2;
}

function angle(hz: number, q: number, rate: number): { cos: number; alpha: number } {
  const w = (2 * Math.PI * hz) / rate;
  return { cos: Math.cos(w), alpha: Math.sin(w) / (2 * q) };
}

function scaled(b0: number, b1: number, b2: number, a0: number, a1: number, a2: number): Biquad {
  return { b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: a1 / a0, a2: a2 / a0 };
}
