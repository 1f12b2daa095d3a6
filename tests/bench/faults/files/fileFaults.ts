/** Files that are tried in place of a recording. */
import { randomBytes } from 'node:crypto';
import { closeSync, ftruncateSync, mkdirSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { writeWav } from '../../../../src/files/writeWav';
import { MARKUP } from '../../../support/page/markup';
import { PAIR, pairChannels } from '../live/pair';
import { FILE_CONTENT } from './fileContent';
import { type FileFault, fileFaults, type GivenFile } from './fileTrial';
import { bytesOf, chunk, floatWav, format, joined, type RawWav, rawWav } from './wavBytes';

const folder = fileURLToPath(new URL('../../../../.cache/fault-files/', import.meta.url));
const seconds = 5;
const [a, b] = pairChannels(seconds);
const pcm = (channels: Float32Array[], rate = 44_100): Uint8Array => writeWav(channels, rate, 's16');
const one =
  (name: string, bytes: Uint8Array): (() => GivenFile[]) =>
  () => [{ name, bytes }];

const notAudio = (name: string, bytes: Uint8Array, told: RegExp, file = 'take.wav'): FileFault => ({
  sub: 'no WAV',
  name,
  how: 'dropped on the page',
  told,
  files: one(file, bytes),
});
const NO_WAV = /not a WAV/;
const CUT = /the file ends inside its header/;
const header = (name: string, wav: RawWav | Uint8Array, told: RegExp): FileFault => ({
  sub: 'header',
  name,
  how: 'a WAV written byte by byte',
  told,
  files: one('take.wav', wav instanceof Uint8Array ? wav : rawWav(wav)),
});
const coded = (name: string, wav: RawWav): FileFault => header(name, wav, /coded in a way that can’t be read/);
const SENSE = /its header makes no sense|contradicts itself/;

const good = pcm([a, b]);
const whole = { truth: [PAIR], mustRead: true };

/** 2.5 GB that take no room on the disk */
function hugeFile(): GivenFile[] {
  mkdirSync(folder, { recursive: true });
  const path = `${folder}huge.wav`;
  const file = openSync(path, 'w');
  writeSync(file, good.subarray(0, 44));
  ftruncateSync(file, 2_500_000_000);
  closeSync(file);
  return [{ name: 'huge.wav', path }];
}
const gonePath = `${folder}gone.wav`;
function onDisk(): GivenFile[] {
  mkdirSync(folder, { recursive: true });
  writeFileSync(gonePath, good);
  return [{ name: 'gone.wav', path: gonePath }];
}

export const FILE_FAULTS = fileFaults([
  notAudio('an empty file', new Uint8Array(0), /the file is empty/),
  notAudio('four bytes', bytesOf('RIFF'), CUT),
  notAudio('text', bytesOf('these are words, not samples'), NO_WAV),
  notAudio('random bytes', new Uint8Array(randomBytes(20_000)), NO_WAV),
  notAudio('FLAC', bytesOf('fLaC0000000000000000'), /a FLAC file, not a WAV/),
  notAudio('Ogg', bytesOf('OggS0000000000000000'), /an Ogg file/),
  notAudio('MP3', bytesOf('ID3\u00040000000000000000'), /an MP3 file/),
  notAudio('AIFF', bytesOf('FORM0000AIFFCOMM0000'), /an AIFF file/),
  notAudio('CAF', bytesOf('caff0000000000000000'), /a CAF file/),
  notAudio('MPEG-4', bytesOf('0000ftypM4A 00000000'), /an MPEG-4 file/),
  notAudio('Wave64', bytesOf('riff0000000000000000'), /a Wave64 file/),
  notAudio('RIFF of another form', rawWav({ form: 'AVI ' }), /this is not a WAV recording/),
  notAudio('a kit sheet called .wav', bytesOf('{"format":"crosshead-kit-sheet"}'), NO_WAV),
  header('cut off inside its header', good.subarray(0, 30), CUT),
  header('no format', joined(bytesOf('RIFF\u0000\u0000\u0000\u0000WAVE'), chunk('LIST', new Uint8Array(40))), CUT),
  header(
    'samples before their format',
    joined(bytesOf('RIFF\u00ff\u00ff\u0000\u0000WAVE'), chunk('data', new Uint8Array(400)), chunk('fmt ', format({}))),
    /its samples come before their format/,
  ),
  header('a format of 8 bytes', { formatBytes: 8 }, CUT),
  header('no channels', { channels: 0, block: 4 }, SENSE),
  header('rate 0', { rate: 0 }, SENSE),
  header('0 bits', { bits: 0, block: 4 }, SENSE),
  header('20 bits in 16', { bits: 20, block: 4 }, SENSE),
  header('floating point of 16 bits', { tag: 3, bits: 16 }, /16-bit floating-point samples can’t be read/),
  header('72-bit integers', { bits: 72 }, /can’t be read/),
  coded('ADPCM', { tag: 2, bits: 4, block: 256 }),
  coded('A-law', { tag: 6, bits: 8 }),
  coded('MP3 inside a WAV', { tag: 85, bits: 16 }),
  coded('an extensible format that nobody knows', { tag: 0xfffe, more: new Uint8Array(24).fill(7) }),
  header('no samples', { data: new Uint8Array(0) }, /it holds no audio/),
  header(
    'a chunk that claims 4 GB',
    { before: joined(bytesOf('LIST'), new Uint8Array(4).fill(0xfe)) },
    /holds no audio|ends inside/,
  ),
  {
    sub: 'cut short',
    name: 'less than its header says',
    how: 'the last second cut off',
    told: /cut short, measured as far as it goes/,
    files: one('take.wav', good.subarray(0, good.length - 4 * 44_100)),
    ...whole,
  },
  {
    sub: 'cut short',
    name: 'a recorder that was switched off: lengths of 0',
    how: 'RIFF and data sizes are 0',
    told: /cut short, measured as far as it goes/,
    files: () => {
      const bytes = Uint8Array.from(good);
      bytes.fill(0, 4, 8);
      bytes.fill(0, 40, 44);
      return [{ name: 'take.wav', bytes }];
    },
    ...whole,
  },
  {
    sub: 'cut short',
    name: 'half a frame at its end',
    how: '3 bytes cut off',
    told: /cut short, measured as far as it goes/,
    files: one('take.wav', good.subarray(0, good.length - 3)),
    ...whole,
  },
  ...(
    [
      ['one mono file', [{ name: 'a.wav', bytes: pcm([a]) }], /has one channel/],
      [
        'a stereo and a mono file',
        [
          { name: 'a.wav', bytes: good },
          { name: 'b.wav', bytes: pcm([b]) },
        ],
        /has 2 channels/,
      ],
      [
        'two rates',
        [
          { name: 'a.wav', bytes: pcm([a]) },
          { name: 'b.wav', bytes: pcm([b], 48_000) },
        ],
        /different rates/,
      ],
      [
        'two lengths',
        [
          { name: 'a.wav', bytes: pcm([a]) },
          { name: 'b.wav', bytes: pcm([b.subarray(1000)]) },
        ],
        /different lengths/,
      ],
      [
        'one of the two is no WAV',
        [
          { name: 'a.wav', bytes: pcm([a]) },
          { name: 'b.wav', bytes: bytesOf('nothing') },
        ],
        NO_WAV,
      ],
    ] as const
  ).map(
    ([name, files, told]): FileFault => ({
      sub: 'two files',
      name,
      how: 'dropped together',
      told,
      files: () => [...files],
    }),
  ),
  {
    sub: 'two files',
    name: 'three files',
    how: 'dropped together',
    told: /Only two of the 3 files can be used/,
    files: () => ['a', 'b', 'c'].map((name) => ({ name: `${name}.wav`, bytes: pcm([name === 'a' ? a : b]) })),
    truth: [PAIR, { ...PAIR, delayMs: -PAIR.delayMs }],
  },
  {
    sub: 'two files',
    name: 'the same file twice',
    how: 'dropped together',
    told: /carry the same signal/,
    files: () => ['a', 'b'].map((name) => ({ name: `${name}.wav`, bytes: pcm([a]) })),
  },
  {
    sub: 'on the disk',
    name: 'gone before it is measured',
    how: 'removed after it was chosen',
    told: /could not be opened; check that it is still there/,
    files: onDisk,
    meanwhile: async () => rmSync(gonePath),
  },
  {
    sub: 'on the disk',
    name: '2.5 GB',
    how: 'a file that is mostly empty',
    told: /is too large for this page/,
    files: hugeFile,
    meanwhile: async () => undefined,
  },
  {
    sub: 'names',
    name: 'markup as a name',
    how: 'dropped on the page',
    told: 'nothing',
    files: () => [{ name: `${MARKUP.replaceAll('/', '')}.wav`, bytes: floatWav([a, b]) }],
    ...whole,
  },
  {
    sub: 'names',
    name: 'a name of 250 letters',
    how: 'dropped on the page',
    told: 'nothing',
    files: () => [{ name: `${'x'.repeat(246)}.wav`, bytes: good }],
    ...whole,
  },
  ...FILE_CONTENT,
]);
