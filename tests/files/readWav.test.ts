import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readWav } from '../../src/files/readWav';
import { WavError } from '../../src/files/wavChunks';
import { chunk, extensibleFormat, format, riff, u32 } from './wavBytes';

interface Reference {
  name: string;
  base64: string;
  sampleRate: number;
  channels: number;
  samples: number[][];
}
const stored = readFileSync(new URL('../reference/wavFiles.json', import.meta.url), 'utf8');
const references = JSON.parse(stored) as Reference[];

function errorOf(bytes: Uint8Array): WavError {
  try {
    readWav(bytes);
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(WavError);
    return thrown as WavError;
  }
  throw new Error('it was read');
}

describe('against SciPy’s reader (tests/reference/wavFiles.py)', () => {
  it('has the references', () => expect(references.length).toBeGreaterThan(20));

  for (const reference of references) {
    it(reference.name, () => {
      // at an odd offset too: a view into a larger buffer must not need alignment
      const bytes = Buffer.from(reference.base64, 'base64');
      const moved = new Uint8Array(bytes.length + 1);
      moved.set(bytes, 1);
      for (const view of [new Uint8Array(bytes), moved.subarray(1)]) {
        const wav = readWav(view);
        expect(wav.sampleRate).toBe(reference.sampleRate);
        expect(wav.channels).toBe(reference.channels);
        expect(wav.frames).toBe(reference.samples[0]?.length);
        expect(wav.truncated).toBe(reference.name === 'cut short');
        reference.samples.forEach((expected, channel) => {
          const samples = wav.read(channel);
          // integers wider than a float's 24 bits are cut before they are rounded: one float step apart at most
          if (wav.bits > 32) expected.forEach((x, i) => void expect(Math.abs(samples[i] - x)).toBeLessThan(2 ** -23));
          else expect([...samples]).toEqual(expected.map(Math.fround));
        });
      }
    });
  }
});

const pcm16 = format({ coding: 1, channels: 2, sampleRate: 48000, bits: 16 });
const fourFrames = chunk('data', new Int16Array([1, -1, 2, -2, 3, -3, 4, -4]));

describe('parts of a file', () => {
  it('reads from any frame on, into what is given', () => {
    const wav = readWav(riff([pcm16, fourFrames]));
    expect([...wav.read(1, 1, 2)]).toEqual([-2 / 32768, -3 / 32768]);
    expect(wav.read(0, 3, 100).length).toBe(1);
    const out = new Float32Array(3);
    expect(wav.readInto(0, 2, out)).toBe(2);
    expect([...out]).toEqual([3 / 32768, 4 / 32768, 0]);
    expect(wav.readInto(0, 99, out)).toBe(0);
    expect(() => wav.read(2)).toThrow(RangeError);
  });

  it('takes a header that was never finished as far as the file goes, and says so', () => {
    const unfinished = riff([pcm16, chunk('data', new Int16Array([1, -1, 2, -2]), 0)], 0);
    const wav = readWav(unfinished);
    expect(wav.frames).toBe(2);
    expect(wav.truncated).toBe(true);
  });

  it('takes a size that was not known when it was written (piped output)', () => {
    const wav = readWav(riff([pcm16, chunk('data', new Int16Array([1, -1, 2, -2]), 0xffffffff)], 0xffffffff));
    expect(wav.frames).toBe(2);
    expect(wav.truncated).toBe(false);
  });

  it('leaves half a frame at the end alone', () => {
    expect(readWav(riff([pcm16, chunk('data', new Int16Array([1, -1, 2]))])).frames).toBe(1);
  });
});

describe('what can’t be read', () => {
  const text = (s: string): Uint8Array => new TextEncoder().encode(s);
  const cases: [name: string, bytes: Uint8Array, code: string, says: RegExp][] = [
    ['no bytes', new Uint8Array(0), 'empty', /empty/],
    ['text', text('hello, this is a text file'), 'not-audio', /not a WAV/],
    ['FLAC', text('fLaC and more of it'), 'not-audio', /FLAC/],
    ['MP3', text('ID3 and more of it'), 'not-audio', /MP3/],
    ['AIFF', text('FORM\0\0\0\0AIFFCOMM'), 'not-audio', /AIFF/],
    ['another RIFF', text('RIFF\x04\0\0\0AVI LIST'), 'not-audio', /not a WAV/],
    ['four bytes', text('RIFF'), 'too-short', /header/],
    ['no format', riff([fourFrames]), 'not-audio', /format/],
    ['half a format', riff([pcm16]).subarray(0, 26), 'too-short', /header/],
    ['no data', riff([pcm16]), 'empty', /no audio/],
    ['data of no frames', riff([pcm16, chunk('data', new Int16Array(0))]), 'empty', /no audio/],
    ['less than one frame', riff([pcm16, chunk('data', new Int16Array(1))]), 'empty', /no audio/],
    [
      'ADPCM',
      riff([format({ coding: 2, channels: 2, sampleRate: 48000, bits: 4 }), fourFrames]),
      'unsupported',
      /ADPCM.*2/,
    ],
    ['µ-law', riff([format({ coding: 7, channels: 1, sampleRate: 8000, bits: 8 }), fourFrames]), 'unsupported', /7/],
    [
      'a coding nobody knows',
      riff([format({ coding: 4711, channels: 2, sampleRate: 48000, bits: 16 }), fourFrames]),
      'unsupported',
      /4711/,
    ],
    ['an EXTENSIBLE of its own', riff([extensibleFormat(1, false), fourFrames]), 'unsupported', /65534/],
    [
      'no channels',
      riff([format({ coding: 1, channels: 0, sampleRate: 48000, bits: 16 }), fourFrames]),
      'unsupported',
      /header/,
    ],
    [
      'no rate',
      riff([format({ coding: 1, channels: 2, sampleRate: 0, bits: 16 }), fourFrames]),
      'unsupported',
      /header/,
    ],
    [
      '16-bit float',
      riff([format({ coding: 3, channels: 2, sampleRate: 48000, bits: 16 }), fourFrames]),
      'unsupported',
      /16-bit float/,
    ],
  ];
  for (const [name, bytes, code, says] of cases) {
    it(name, () => {
      const error = errorOf(bytes);
      expect(error.code).toBe(code);
      expect(error.message).toMatch(says);
      expect(error.message).toMatch(/^[^.]+\.$|^[^.]+\d\.\d[^.]*\.$/); // one sentence
    });
  }
});

describe('hostile bytes', () => {
  const calm = (bytes: Uint8Array): void => {
    try {
      const wav = readWav(bytes);
      expect(wav.frames).toBeGreaterThan(0);
      expect(wav.frames * wav.channels).toBeLessThanOrEqual(bytes.length);
      expect(wav.read(wav.channels - 1).length).toBe(wav.frames);
    } catch (thrown) {
      expect(thrown).toBeInstanceOf(WavError);
    }
  };

  it('throws nothing but its own error, whatever the bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), calm), { numRuns: 2000 });
  });

  it('nor with a good file that was damaged anywhere', () => {
    const kinds = references.map((reference) => new Uint8Array(Buffer.from(reference.base64, 'base64')));
    const damaged = fc
      .tuple(
        fc.constantFrom(...kinds),
        fc.array(fc.tuple(fc.nat({ max: 120 }), fc.nat({ max: 255 })), { maxLength: 8 }),
        fc.nat({ max: 200 }),
      )
      .map(([bytes, changes, cut]) => {
        const copy = bytes.slice(0, Math.max(0, bytes.length - cut));
        for (const [at, value] of changes) if (at < copy.length) copy[at] = value;
        return copy;
      });
    fc.assert(fc.property(damaged, calm), { numRuns: 4000 });
  });

  it('ends on sizes that promise gigabytes, or nothing, over and over', () => {
    const promises = [0, 1, 0x7fffffff, 0x80000000, 0xfffffffe, 0xffffffff];
    for (const size of promises) {
      calm(riff([chunk('junk', new Uint8Array(0), size), pcm16, fourFrames]));
      calm(riff([pcm16, chunk('data', new Int16Array([1, 2]), size)], size));
      calm(
        riff([
          chunk('ds64', u32(size, size, size, size, 0, 0, 0)),
          pcm16,
          chunk('data', new Int16Array([1, 2]), 0xffffffff),
        ]),
      );
    }
    const empty = new Uint8Array(4_000_000);
    empty.set(riff([]));
    const started = performance.now();
    expect(errorOf(empty)).toBeInstanceOf(WavError); // half a million empty chunks
    expect(performance.now() - started).toBeLessThan(2000);
  });
});
