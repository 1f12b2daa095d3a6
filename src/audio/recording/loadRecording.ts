/** A recording as people choose it: one stereo WAV, or two mono WAVs, read into A and B. */
import { readWav, type Wav } from '../../files/readWav';
import { gapsOf, gapsText, rateProblem } from '../../files/soundness';
import { WavError } from '../../files/wavChunks';
import type { ProblemError } from '../link';
import { problem } from '../problems';
import type { Recording } from './audioBuffer';

/** What a `File` offers here. */
export interface ChosenFile {
  readonly name: string;
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** a page can't hold more of a file than this (2 GiB less a little) */
const MOST_BYTES = 2 ** 31 - 2 ** 16;

/**
 * @param files one, or two in the order A, B
 * @throws ProblemError
 */
export async function loadRecording(files: readonly ChosenFile[]): Promise<Recording> {
  const [first, second] = files;
  if (!first) throw problem('empty-file', 'No file was chosen; choose one stereo WAV, or two mono WAVs together.');
  if (files.length > 2) {
    throw problem(
      'files-differ',
      `${files.length} files were chosen; choose one stereo WAV, or two mono WAVs together.`,
    );
  }
  const a = await readChosen(first);
  const b = second && (await readChosen(second));
  const { name, remarks, ...read } = b ? pairOf(first, a, second, b) : stereoOf(first, a);
  const rate = rateProblem(a.sampleRate);
  if (rate) throw wavProblem(first.name, rate);
  // integers are always a sound
  const isFloat = a.coding === 'float' || b?.coding === 'float';
  const gaps = !isFloat
    ? []
    : await gapsOf(read.readInto, a.sampleRate, soon).catch((thrown: unknown) => {
        throw wavProblem(second?.name ?? first.name, thrown);
      });
  return {
    ...read,
    gaps,
    label: labelled(name, gaps.length > 0 ? [...remarks, gapsText(gaps, a.sampleRate)] : remarks),
  };
}

/** With its name and what there is to remark about it, which become its label. */
type Read = Omit<Recording, 'label' | 'gaps'> & { name: string; remarks: string[] };

const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function stereoOf(file: ChosenFile, wav: Wav): Read {
  if (wav.channels < 2) {
    throw problem(
      'unsupported-file',
      `${file.name} has one channel; choose it together with the other mic’s file, or choose a stereo file.`,
    );
  }
  const remarks = [
    ...(wav.channels > 2 ? [`channels 1 and 2 of ${wav.channels}`] : []),
    ...(wav.truncated ? ['cut short, measured as far as it goes'] : []),
  ];
  return {
    name: file.name,
    remarks,
    sampleRate: wav.sampleRate,
    frames: wav.frames,
    readInto(fromFrame, a, b) {
      wav.readInto(1, fromFrame, b);
      return wav.readInto(0, fromFrame, a);
    },
  };
}

function pairOf(fileA: ChosenFile, a: Wav, fileB: ChosenFile, b: Wav): Read {
  for (const [file, wav] of [
    [fileA, a],
    [fileB, b],
  ] as const) {
    if (wav.channels !== 1) {
      throw problem(
        'files-differ',
        `${file.name} has ${wav.channels} channels; choose it alone, or choose two mono files together.`,
      );
    }
  }
  if (a.sampleRate !== b.sampleRate) {
    throw problem(
      'files-differ',
      `The two files have different rates (${a.sampleRate} and ${b.sampleRate} Hz); export both at one rate from the same take.`,
    );
  }
  if (a.frames !== b.frames) {
    throw problem(
      'files-differ',
      `The two files have different lengths (${a.frames} and ${b.frames} samples); export both from the same start to the same end.`,
    );
  }
  const { frames } = a;
  const remarks = a.truncated || b.truncated ? ['cut short, measured as far as it goes'] : [];
  return {
    name: `A: ${fileA.name} · B: ${fileB.name}`,
    remarks,
    sampleRate: a.sampleRate,
    frames,
    readInto(fromFrame, intoA, intoB) {
      const wanted = Math.max(0, Math.min(intoA.length, frames - fromFrame));
      a.readInto(0, fromFrame, intoA.subarray(0, wanted));
      return b.readInto(0, fromFrame, intoB.subarray(0, wanted));
    },
  };
}

async function readChosen(file: ChosenFile): Promise<Wav> {
  const tooLarge = problem(
    'unsupported-file',
    `${file.name} is too large for this page; trim it to the passage with the drum.`,
  );
  if (file.size > MOST_BYTES) throw tooLarge;
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch (thrown) {
    if (thrown instanceof RangeError) throw tooLarge;
    throw problem('not-audio', `${file.name} could not be opened; check that it is still there, then choose it again.`);
  }
  try {
    return readWav(new Uint8Array(bytes));
  } catch (thrown) {
    throw wavProblem(file.name, thrown);
  }
}

function wavProblem(name: string, thrown: unknown): ProblemError {
  if (!(thrown instanceof WavError)) return problem('not-audio', `${name} could not be read; export it again as WAV.`);
  const codes = {
    'not-audio': 'not-audio',
    'too-short': 'not-audio',
    unsupported: 'unsupported-file',
    empty: 'empty-file',
  } as const;
  return problem(codes[thrown.code], `${name}: ${thrown.message}`);
}

const labelled = (name: string, remarks: string[]): string =>
  remarks.length > 0 ? `${name} (${remarks.join('; ')})` : name;
