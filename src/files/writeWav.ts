/**
 * Writes WAVE files: s16, s24 or float32, any number of channels. Pure: samples in, bytes out.
 *
 * Layout after EBU Tech 3285 and the WAVEFORMATEX / WAVEFORMATEXTENSIBLE structures: odd chunks are padded, float data
 * carries `fact`, more than two channels take the extensible header (tag 0xFFFE).
 *
 * Integer samples are rounded to the nearest step, without dither: files made here serve tests and measurements, where
 * the same input must give the same bytes, and what they hold already has noise far above the last bit.
 */
export type WavFormat = 's16' | 's24' | 'float32';

const BYTES: Record<WavFormat, number> = { s16: 2, s24: 3, float32: 4 };
const PCM_TAG = 1;
const FLOAT_TAG = 3;
const EXTENSIBLE_TAG = 0xfffe;
/** Bytes 2…15 of a KSDATAFORMAT_SUBTYPE GUID; the first two are the plain tag. */
const SUBTYPE_TAIL = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];
const LARGEST = 0xffffffff;

/**
 * @param channels one array per channel, equal lengths, full scale ±1; what exceeds full scale is clipped in s16 and s24
 * @param sampleRate Hz, a whole number
 * @returns the whole file
 * @throws RangeError for no channel, lengths that differ, a rate that is no positive whole number, a sample that is not a
 *   finite number, or more data than a RIFF file can hold
 */
export function writeWav(
  channels: readonly (Float64Array | Float32Array)[],
  sampleRate: number,
  format: WavFormat,
): Uint8Array<ArrayBuffer> {
  const count = channels.length;
  if (count < 1 || count > 0xffff) throw new RangeError(`a WAV file needs 1 to 65535 channels, got ${count}`);
  if (!Number.isInteger(sampleRate) || sampleRate < 1 || sampleRate > LARGEST) {
    throw new RangeError(`the sample rate must be a positive whole number, got ${sampleRate}`);
  }
  const frames = channels[0].length;
  for (const channel of channels) {
    if (channel.length !== frames) throw new RangeError(`channel must have length ${frames} but had ${channel.length}`);
  }
  const bytes = BYTES[format];
  const extensible = count > 2;
  const formatSize = extensible ? 40 : format === 'float32' ? 18 : 16;
  const factSize = format === 'float32' ? 12 : 0;
  const dataSize = frames * count * bytes;
  const padded = dataSize + (dataSize % 2);
  const total = 12 + 8 + formatSize + factSize + 8 + padded;
  if (total - 8 > LARGEST) throw new RangeError(`${dataSize} bytes of samples do not fit into a RIFF file`);

  const out = new Uint8Array(total);
  const view = new DataView(out.buffer);
  let at = 0;
  const text = (letters: string) => {
    for (let i = 0; i < letters.length; i++) out[at++] = letters.charCodeAt(i);
  };
  const u16 = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  const u32 = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };

  text('RIFF');
  u32(total - 8);
  text('WAVE');
  text('fmt ');
  u32(formatSize);
  const tag = format === 'float32' ? FLOAT_TAG : PCM_TAG;
  u16(extensible ? EXTENSIBLE_TAG : tag);
  u16(count);
  u32(sampleRate);
  u32(sampleRate * count * bytes);
  u16(count * bytes);
  u16(bytes * 8);
  if (formatSize >= 18) u16(extensible ? 22 : 0);
  if (extensible) {
    u16(bytes * 8);
    u32(0); // no loudspeaker positions
    u16(tag);
    out.set(SUBTYPE_TAIL, at);
    at += SUBTYPE_TAIL.length;
  }
  if (factSize > 0) {
    text('fact');
    u32(4);
    u32(frames);
  }
  text('data');
  u32(dataSize);
  for (let i = 0; i < frames; i++) {
    for (let c = 0; c < count; c++) {
      const sample = channels[c][i];
      if (!Number.isFinite(sample)) throw new RangeError(`sample ${i} of channel ${c + 1} is not a finite number`);
      if (format === 'float32') view.setFloat32(at, sample, true);
      else if (format === 's16') view.setInt16(at, toInteger(sample, 0x8000), true);
      else {
        const value = toInteger(sample, 0x800000);
        view.setUint16(at, value & 0xffff, true);
        view.setInt8(at + 2, value >> 16);
      }
      at += bytes;
    }
  }
  return out;
}

/** Nearest step, halves upwards, clipped: full scale is +steps−1 … −steps. */
function toInteger(sample: number, steps: number): number {
  return Math.max(-steps, Math.min(steps - 1, Math.round(sample * steps)));
}
