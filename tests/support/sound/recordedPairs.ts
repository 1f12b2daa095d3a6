/** The pairs that lie here as recordings: the demo scenes, always, and the real ones where they are; each with what it is. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { parseOptions } from '../../../src/cli/options';
import { openTake } from '../../../src/cli/takes';
import { realPath, realRecordings, realRecordingsHere } from './realRecordings';

export interface RecordedPair {
  /** of its file, without the ending; of a scene with that word before it */
  name: string;
  kind: PairKindId;
  path: string;
  demo: boolean;
}

export interface Sound {
  sampleRate: number;
  a: Float32Array;
  b: Float32Array;
}

const REAL_KINDS: Readonly<Record<string, PairKindId>> = {
  'snare-top-bottom': 'top-bottom',
  'snare-top-bottom-flipped-weak': 'top-bottom',
  'large-drum-top-bottom-flipped': 'top-bottom',
  'snare-top-overhead-left': 'close-overhead',
  'snare-top-overhead': 'close-overhead',
  'hihat-closed-overhead': 'close-overhead',
  'snare-top-room': 'close-room',
  'kick-overheads': 'two-overheads',
  'crash-overheads': 'two-overheads',
  'groove-overheads': 'two-overheads',
};

const kit = fileURLToPath(new URL('../../../samples/kit/', import.meta.url));

const demoPairs = (): RecordedPair[] => {
  const { scenes } = JSON.parse(readFileSync(`${kit}kit.json`, 'utf8')) as {
    scenes: { id: string; kind: PairKindId; file: string }[];
  };
  return scenes.map(({ id, kind, file }) => ({ name: `scene ${id}`, kind, path: `${kit}${file}`, demo: true }));
};

const realPairs = (): RecordedPair[] => {
  if (!realRecordingsHere) return [];
  return realRecordings().map(({ file }) => {
    const name = file.replace(/\.wav$/, '');
    return { name, kind: REAL_KINDS[name] ?? 'other', path: realPath(file), demo: false };
  });
};

export const recordedPairs = (): RecordedPair[] => [...demoPairs(), ...realPairs()];

/** @throws Error where the file can't be read */
export const openPair = ({ path }: RecordedPair): Sound => openChannels([path]);

/** @param args as the measuring command takes them: one stereo file, or `A --b-file B`; @throws Error where a file can't be read */
export function openChannels(args: string[]): Sound {
  const options = parseOptions(args);
  if (options === null) throw new Error(`${args[0]} is no recording`);
  const { sampleRate, frames, source } = openTake(options);
  const a = new Float32Array(frames);
  const b = new Float32Array(frames);
  source(0, a, b);
  return { sampleRate, a, b };
}
