import { describe, expect, it } from 'vitest';
import { problemOf } from '../../../src/audio/link';
import { type ChosenFile, loadRecording } from '../../../src/audio/recording/loadRecording';
import { chunk, format, riff } from '../../files/wavBytes';

function file(name: string, bytes: Uint8Array, size = bytes.length): ChosenFile {
  return { name, size, arrayBuffer: async () => bytes.slice().buffer };
}

/** Channel c (from 0) of frame i holds (c+1)·100 + i, over 32768. */
function wav(name: string, channels: number, frames: number, sampleRate = 48000): ChosenFile {
  const samples = Int16Array.from(
    { length: channels * frames },
    (_, k) => ((k % channels) + 1) * 100 + Math.floor(k / channels),
  );
  return file(name, riff([format({ coding: 1, channels, sampleRate, bits: 16 }), chunk('data', samples)]));
}

const samplesOf = async (files: ChosenFile[], from = 0): Promise<[number, number[], number[]]> => {
  const recording = await loadRecording(files);
  const a = new Float32Array(4);
  const b = new Float32Array(4);
  const got = recording.readInto(from, a, b);
  return [got, [...a].map((x) => x * 32768), [...b].map((x) => x * 32768)];
};

describe('files that make a recording', () => {
  it('one stereo file', async () => {
    const recording = await loadRecording([wav('take.wav', 2, 6, 44100)]);
    expect(recording).toMatchObject({ label: 'take.wav', sampleRate: 44100, frames: 6 });
    expect(await samplesOf([wav('take.wav', 2, 6)], 4)).toEqual([2, [104, 105, 0, 0], [204, 205, 0, 0]]);
  });

  it('the first two channels of more, and the label says so', async () => {
    expect((await loadRecording([wav('desk.wav', 8, 6)])).label).toBe('desk.wav (channels 1 and 2 of 8)');
    expect(await samplesOf([wav('desk.wav', 8, 6)])).toEqual([4, [100, 101, 102, 103], [200, 201, 202, 203]]);
  });

  it('two mono files in the order given', async () => {
    const top = wav('top.wav', 1, 6);
    const bottom = wav('bottom.wav', 1, 6);
    const recording = await loadRecording([top, bottom]);
    expect(recording.frames).toBe(6);
    expect(recording.label).toBe('A: top.wav · B: bottom.wav');
    expect(await samplesOf([top, bottom], 4)).toEqual([2, [104, 105, 0, 0], [104, 105, 0, 0]]);
  });

  it('no two files of different lengths: they may not begin together', async () => {
    await expect(loadRecording([wav('top.wav', 1, 48006), wav('bottom.wav', 1, 6)])).rejects.toThrow(
      /different lengths \(48006 and 6 samples\); export both from the same start to the same end/,
    );
  });

  it('a file that was cut short, as far as it goes', async () => {
    const whole = new Uint8Array(await wav('', 2, 6).arrayBuffer());
    expect((await loadRecording([file('cut.wav', whole.subarray(0, -7))])).label).toBe(
      'cut.wav (cut short, measured as far as it goes)',
    );
  });
});

describe('files that don’t', () => {
  const stereo = wav('take.wav', 2, 6);
  const mono = wav('top.wav', 1, 6);
  const refused: [string, ChosenFile[], string, RegExp][] = [
    ['none', [], 'empty-file', /choose/],
    ['three', [mono, mono, mono], 'files-differ', /3 files/],
    ['one mono file', [mono], 'unsupported-file', /top\.wav has one channel/],
    ['a mono and a stereo file', [mono, stereo], 'files-differ', /take\.wav has 2 channels/],
    ['two rates', [mono, wav('b.wav', 1, 6, 44100)], 'files-differ', /48000 and 44100 Hz/],
    [
      'a text',
      [file('notes.txt', new TextEncoder().encode('hello there, notes'))],
      'not-audio',
      /notes\.txt: this is not a WAV/,
    ],
    [
      'an ADPCM file',
      [
        file(
          'old.wav',
          riff([format({ coding: 2, channels: 2, sampleRate: 48000, bits: 4 }), chunk('data', new Int16Array(8))]),
        ),
      ],
      'unsupported-file',
      /ADPCM/,
    ],
    ['an empty file', [file('empty.wav', new Uint8Array(0))], 'empty-file', /empty\.wav/],
    ['a file over 2 GiB', [file('long.wav', new Uint8Array(1), 2 ** 31)], 'unsupported-file', /too large/],
    [
      'a file that is gone',
      [{ name: 'gone.wav', size: 9, arrayBuffer: () => Promise.reject(new DOMException('gone', 'NotFoundError')) }],
      'not-audio',
      /still there/,
    ],
    [
      'a file that memory can’t hold',
      [{ name: 'big.wav', size: 9, arrayBuffer: () => Promise.reject(new RangeError('allocation')) }],
      'unsupported-file',
      /too large/,
    ],
  ];
  for (const [name, files, code, says] of refused) {
    it(name, async () => {
      const thrown = await loadRecording(files).then(
        () => null,
        (error: unknown) => error,
      );
      expect(thrown).not.toBe(null);
      expect(problemOf(thrown)).toMatchObject({ code, text: expect.stringMatching(says) });
      expect(problemOf(thrown).text).toMatch(/\.$/);
    });
  }
});
