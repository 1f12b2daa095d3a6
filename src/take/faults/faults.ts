/** What is wrong with a take, most harmful first, each with its evidence. */
import type { DrumReport, Fault, TrackReport } from '../model';
import { invertedTracks } from './inverted';
import { lateTracks, type TimedTracks } from './late';
import type { CloseTrack } from './sharedSounds';
import { type OwnSound, swappedTracks } from './swapped';

export interface Findings extends TimedTracks {
  tracks: readonly TrackReport[];
  drums: readonly DrumReport[];
  /** numbers of tracks with one signal */
  same: readonly (readonly [number, number])[];
  sounds: readonly OwnSound[];
  close: readonly CloseTrack[];
}

export function faultsOf(found: Findings): Fault[] {
  const { tracks, drums, same, files, mics } = found;
  const of = (kind: 'silent' | 'clipped'): Fault[] =>
    tracks.flatMap(({ state, file, reason }): Fault[] =>
      state === kind ? [{ kind, files: [file], samples: null, text: `${file}: ${reason}` }] : [],
    );
  const twice = same.map(([a, b]): Fault => {
    const both = [files[a] as string, files[b] as string];
    return {
      kind: 'same-signal',
      files: both,
      samples: null,
      text: `${both.join(' and ')} carry one and the same signal: one mic is recorded twice, and one not at all. Look at the routing.`,
    };
  });
  const swapped = swappedTracks(drums, found.sounds, found, found.close);
  const known = new Set(swapped.flatMap((fault) => fault.files));
  return [
    ...of('silent'),
    ...twice,
    ...swapped,
    ...invertedTracks(trulyNamed(drums, known), files, mics),
    // by its name it would be too late
    ...lateTracks(drums, found).filter((fault) => !fault.files.some((file) => known.has(file))),
    ...of('clipped'),
  ];
}

/** What is called after the drum that it is close to: what is expected of a first push goes by that. */
function trulyNamed(drums: readonly DrumReport[], swapped: ReadonlySet<string>): DrumReport[] {
  return drums
    .filter(({ ownTrack }) => ownTrack === null || !swapped.has(ownTrack))
    .map((drum) => ({ ...drum, pairs: drum.pairs.filter(({ a, b }) => !swapped.has(a) && !swapped.has(b)) }));
}
