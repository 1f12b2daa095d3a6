/** The files of the measuring command, opened and checked against each other. */
import { readFileSync } from 'node:fs';
import { readWav, type Wav } from '../files/readWav';
import { type Gap, GapFinder, rateProblem } from '../files/soundness';
import { WavError } from '../files/wavChunks';
import type { BlockSource } from './measure';
import { type CommandOptions, UsageError } from './options';

export interface Take {
  sampleRate: number;
  channels: number;
  frames: number;
  /** channels of A and B, from 1 */
  a: number;
  b: number;
  /** the file, or one of the two, ends before its header says so */
  truncated: boolean;
  source: BlockSource;
  /** where there is no sound in it */
  gaps: readonly Gap[];
}

/** @throws UsageError */
export function openTake(options: CommandOptions): Take {
  const { file, bFile } = options;
  const wavA = open(file);
  const wavB = bFile === null ? wavA : open(bFile);
  const a = options.a ?? 1;
  const b = options.b ?? (bFile === null ? 2 : 1);
  checkChannel(file, wavA, a, 'A', '--a');
  if (bFile === null && options.b === null && wavA.channels === 1) {
    throw new UsageError(`${file} has one channel; give mic B with --b-file.`);
  }
  checkChannel(bFile ?? file, wavB, b, 'B', '--b');
  if (wavA.sampleRate !== wavB.sampleRate) {
    throw new UsageError(
      `${file} and ${bFile} have different rates (${wavA.sampleRate} and ${wavB.sampleRate} Hz); export both at one rate from the same take.`,
    );
  }
  if (wavA.frames !== wavB.frames) {
    throw new UsageError(
      `${file} and ${bFile} have different lengths (${wavA.frames} and ${wavB.frames} samples); export both from the same start to the same end.`,
    );
  }
  const problem = rateProblem(wavA.sampleRate);
  if (problem) throw new UsageError(`${file}: ${problem.message}`);
  const source: BlockSource = (fromFrame, intoA, intoB) => {
    wavB.readInto(b - 1, fromFrame, intoB);
    return wavA.readInto(a - 1, fromFrame, intoA);
  };
  return {
    sampleRate: wavA.sampleRate,
    channels: wavA.channels,
    frames: wavA.frames,
    a,
    b,
    truncated: wavA.truncated || wavB.truncated,
    source,
    gaps: wavA.coding === 'float' || wavB.coding === 'float' ? gapsIn(source, wavA.sampleRate, bFile ?? file) : [],
  };
}

const SLICE = 1 << 16;

/** @throws UsageError nothing of it can be measured */
function gapsIn(source: BlockSource, sampleRate: number, file: string): readonly Gap[] {
  const finder = new GapFinder(sampleRate);
  const [a, b] = [new Float32Array(SLICE), new Float32Array(SLICE)];
  for (let at = 0, got = source(0, a, b); got > 0; got = source(at, a, b)) {
    finder.note(a, b, got);
    at += got;
  }
  try {
    finder.close();
  } catch (thrown) {
    if (thrown instanceof WavError) throw new UsageError(`${file}: ${thrown.message}`);
    throw thrown;
  }
  return finder.gaps;
}

function checkChannel(file: string, wav: Wav, channel: number, microphone: string, option: string): void {
  if (channel <= wav.channels) return;
  const has = wav.channels === 1 ? 'one channel' : `${wav.channels} channels`;
  throw new UsageError(
    `${file} has no channel ${channel} for ${microphone}: it has ${has}; choose another with ${option}.`,
  );
}

function open(file: string): Wav {
  try {
    return readWav(readFileSync(file));
  } catch (thrown) {
    if (thrown instanceof WavError) throw new UsageError(`${file}: ${thrown.message}`);
    throw new UsageError(`${file} ${whyNot(thrown)}`);
  }
}

/** Why a file or folder could not be opened: follows its name. */
export function whyNot(thrown: unknown): string {
  const code = typeof thrown === 'object' && thrown !== null && 'code' in thrown ? String(thrown.code) : '';
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return 'is not there; check its name and folder.';
    case 'EISDIR':
      return 'is a folder; name a WAV file in it.';
    case 'EACCES':
    case 'EPERM':
      return 'can’t be opened; check its permissions.';
    case 'ERR_FS_FILE_TOO_LARGE':
      return 'is larger than 2 GiB; trim it to the passage with the drum.';
    default:
      return `could not be read${code ? ` (${code})` : ''}; check the file.`;
  }
}
