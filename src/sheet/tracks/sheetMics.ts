/** Which of a sheet's mics the tracks of a take are: one to one, by what each is called. */
import { guessMic, hearsAll, type MicGuess } from '../../advice/names/guessPair';
import type { Microphone } from '../document/model';

/** A track, and what is known of its mic. */
export interface TrackMic {
  file: string;
  mic: MicGuess;
}

/** What a mic of the sheet is, as a track's name would say it; its label is the sheet's. */
export function micOfSheet({ label, drum, side }: Pick<Microphone, 'label' | 'drum' | 'side'>): MicGuess {
  const named = guessMic(label);
  const placed = guessMic(`${drum} ${side}`);
  if (drum !== '') return { ...named, drum, place: named.place ?? placed.place, label };
  const place = [named.place, placed.place].find((one) => hearsAll({ place: one ?? null })) ?? 'overhead';
  return { ...named, drum: '', place, side: named.side || placed.side, label };
}

/** where a drum's mic stands whose name says no place */
const FIRST: readonly MicGuess['place'][] = ['top', 'inside', 'beater'];

/** How well a track and a mic fit; 0: not at all. @param alone it is the drum's only mic */
function fitOf(track: MicGuess, mic: MicGuess, alone: boolean): number {
  if (track.label !== '' && sameText(track.label, mic.label)) return EXACT;
  const far = hearsAll(mic);
  if (far !== hearsAll(track)) return 0;
  if (!far && (track.drum === '' || track.drum !== mic.drum)) return 0;
  if (far && track.place !== mic.place) return 0;
  if (track.side !== mic.side && track.side !== '' && mic.side !== '') return 0;
  const [one, other] = [track.place, mic.place];
  const open = one === null || other === null;
  const places = one === other ? 4 : open && (alone || FIRST.includes(one ?? other)) ? 1 : 0;
  if (places === 0) return 0;
  return places + (track.side === mic.side ? 2 : 0) + (track.number === mic.number ? 1 : 0);
}
const EXACT = 100;

const sameText = (p: string, q: string): boolean => p.trim().toLowerCase() === q.trim().toLowerCase();

/** @returns id of the sheet's mic by file: of those only that fit one, the best first; of equal ones in their order */
export function matchTracks(tracks: readonly TrackMic[], mics: readonly Microphone[]): Map<string, string> {
  const known = mics.map(micOfSheet);
  const isAlone = ({ drum }: MicGuess): boolean => known.filter((one) => one.drum === drum).length === 1;
  const all = tracks
    .flatMap(({ file, mic }, t) =>
      known.map((one, m) => ({ file, id: (mics[m] as Microphone).id, t, m, fit: fitOf(mic, one, isAlone(one)) })),
    )
    .filter((one) => one.fit > 0)
    .sort((p, q) => q.fit - p.fit || p.t - q.t || p.m - q.m);
  const matched = new Map<string, string>();
  const taken = new Set<string>();
  for (const { file, id } of all) {
    if (matched.has(file) || taken.has(id)) continue;
    matched.set(file, id);
    taken.add(id);
  }
  return matched;
}
