/** The WAV writer, byte by byte and back through the reader. Layout: EBU Tech 3285 and the WAVEFORMATEX structure. */
import { describe, expect, it } from 'vitest';
import { readWav } from '../../src/files/readWav';
import { writeWav } from '../../src/files/writeWav';

describe('writeWav', () => {
  it('writes the 44-byte header and little-endian samples of 16-bit stereo', () => {
    const bytes = writeWav([Float64Array.of(0.5, -1), Float64Array.of(-0.25, 1)], 44100, 's16');
    const hex = Buffer.from(bytes).toString('hex');
    expect(hex).toBe(
      [
        '52494646 2c000000 57415645', // RIFF, 44, WAVE
        '666d7420 10000000 0100 0200 44ac0000 10b10200 0400 1000', // PCM, 2, 44100, 176400, 4, 16
        '64617461 08000000',
        '0040 00e0 0080 ff7f', // 0.5, −0.25, −1, +1 clipped to 32767
      ]
        .join('')
        .replaceAll(' ', ''),
    );
  });

  it('pads an odd data chunk and does not count the pad', () => {
    const bytes = writeWav([Float64Array.of(0.5)], 48000, 's24');
    const view = new DataView(bytes.buffer);
    expect(bytes.length).toBe(48);
    expect(view.getUint32(40, true)).toBe(3);
    expect([...bytes.slice(44)]).toEqual([0, 0, 0x40, 0]);
    expect(view.getUint32(4, true)).toBe(40);
  });

  it('gives float data its fact chunk', () => {
    const bytes = writeWav([Float64Array.of(0.1, 0.2, 0.3)], 48000, 'float32');
    expect(Buffer.from(bytes.slice(38, 42)).toString()).toBe('fact');
    expect(new DataView(bytes.buffer).getUint32(46, true)).toBe(3);
  });

  it.each([
    ['s16', 1, 0.5 / 32768],
    ['s16', 2, 0.5 / 32768],
    ['s24', 1, 0.5 / 8388608],
    ['s24', 5, 0.5 / 8388608],
    ['float32', 2, 2 ** -25],
    ['float32', 3, 2 ** -25],
  ] as const)('%s with %i channels comes back from the reader within half a step', (format, count, step) => {
    const channels = Array.from({ length: count }, (_, c) =>
      Float64Array.from({ length: 101 }, (_, i) => 0.99 * Math.sin(1 + 0.7 * i + c)),
    );
    const wav = readWav(writeWav(channels, 96000, format));
    expect(wav).toMatchObject({ sampleRate: 96000, channels: count, frames: 101, truncated: false });
    channels.forEach((channel, c) => {
      const back = wav.read(c);
      // the reader hands out float32: its own rounding comes on top
      channel.forEach((v, i) => {
        expect(Math.abs(back[i] - v)).toBeLessThanOrEqual(step + 2 ** -25);
      });
    });
  });

  it('clips beyond full scale in integers, and keeps it in float', () => {
    expect([...readWav(writeWav([Float64Array.of(1.5, -1.5)], 48000, 's16')).read(0)]).toEqual([32767 / 32768, -1]);
    expect([...readWav(writeWav([Float64Array.of(1.5, -1.5)], 48000, 'float32')).read(0)]).toEqual([1.5, -1.5]);
  });

  it('refuses what it cannot write, saying what', () => {
    expect(() => writeWav([], 48000, 's16')).toThrow('1 to 65535 channels, got 0');
    expect(() => writeWav([new Float64Array(3), new Float64Array(4)], 48000, 's16')).toThrow('length 3 but had 4');
    expect(() => writeWav([new Float64Array(3)], 44100.5, 's16')).toThrow('positive whole number, got 44100.5');
    expect(() => writeWav([Float64Array.of(0, Number.NaN)], 48000, 's16')).toThrow('sample 1 of channel 1');
  });
});
