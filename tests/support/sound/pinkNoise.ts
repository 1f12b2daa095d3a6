/**
 * Pink noise of RMS 1: P. Kellett's filter of March 2000 (musicdsp.org, pink.txt: ±0.05 dB above 9.2 Hz at 44.1 kHz; at other rates the same shape,
 * moved with the rate).
 */
export function pinkNoise(frames: number, normal: () => number): Float64Array {
  const b = new Float64Array(7);
  const out = new Float64Array(frames);
  const poles = [0.99886, 0.99332, 0.969, 0.8665, 0.55, -0.7616];
  const gains = [0.0555179, 0.0750759, 0.153852, 0.3104856, 0.5329522, -0.016898];
  let power = 0;
  for (let i = 0; i < frames; i++) {
    const white = normal();
    let sum = white * 0.5362 + (b[6] as number);
    for (let k = 0; k < 6; k++) {
      b[k] = (poles[k] as number) * (b[k] as number) + (gains[k] as number) * white;
      sum += b[k] as number;
    }
    b[6] = white * 0.115926;
    out[i] = sum;
    power += sum * sum;
  }
  const gain = 1 / Math.sqrt(power / frames);
  return out.map((v) => v * gain);
}
