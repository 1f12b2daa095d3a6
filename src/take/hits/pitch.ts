/** The note that a drum rings on in its own microphone: what tells a high tom from a low one, whatever the track is called. */
import { transformOf } from '../../dsp/signal/transforms';

const FROM_SECONDS = 0.03;
const SECONDS = 0.17;
const LOWEST_HZ = 35;
const HIGHEST_HZ = 450;

/**
 * @param pieces of one track, @param begins frame of each at which the stroke begins
 * @returns Hz; null: nothing rings
 */
export function pitchHz(pieces: readonly Float32Array[], begins: readonly number[], sampleRate: number): number | null {
  const n = Math.round(SECONDS * sampleRate);
  const size = 2 ** Math.ceil(Math.log2(4 * n));
  const fft = transformOf(size);
  const sum = new Float64Array(size / 2);
  const input = new Float64Array(size);
  const output = fft.createComplexArray();
  pieces.forEach((piece, i) => {
    const from = (begins[i] as number) + Math.round(FROM_SECONDS * sampleRate);
    input.fill(0);
    for (let k = 0; k < n; k++) input[k] = (piece[from + k] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * k) / n));
    fft.realTransform(output, input);
    let all = 1e-20;
    for (let k = 0; k < size / 2; k++) all += (output[2 * k] as number) ** 2 + (output[2 * k + 1] as number) ** 2;
    // each stroke counts alike
    for (let k = 0; k < size / 2; k++)
      sum[k] = (sum[k] as number) + ((output[2 * k] as number) ** 2 + (output[2 * k + 1] as number) ** 2) / all;
  });
  const hz = sampleRate / size;
  let best = 0;
  let most = 0;
  for (let k = Math.ceil(LOWEST_HZ / hz); k * hz < HIGHEST_HZ; k++) {
    if ((sum[k] as number) <= most) continue;
    most = sum[k] as number;
    best = k;
  }
  return most > 0 ? best * hz : null;
}
