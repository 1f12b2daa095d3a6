/**
 * Tracks whose polarity is the odd one: what their place leads one to expect, against what their neighbours say. A struck head goes away
 * from every microphone above it, so all of these, overheads and rooms begin alike; one below begins the other way by nature.
 */
import type { MicGuess } from '../../advice/names/guessPair';
import type { DrumReport, Fault } from '../model';

interface Edge {
  a: number;
  b: number;
  drum: string;
  /** +1: as expected of the two; −1: the other way */
  sign: number;
  weight: number;
}

/** readings, weighted, that have to speak against a track more than for it */
const LEAST_AGAINST = 1.5;
/** share of its readings that do */
const LEAST_SHARE = 0.7;

/** @param files names of the tracks, in the order of `mics` */
export function invertedTracks(
  drums: readonly DrumReport[],
  files: readonly string[],
  mics: readonly MicGuess[],
): Fault[] {
  const edges = drums.flatMap((drum) => edgesOf(drum, files, mics));
  const flips = files.map(() => 1);
  const faults: Fault[] = [];
  for (;;) {
    const votes = files.map((_, t) => votesOn(t, edges, flips));
    const odd = votes.map(({ against, weight }, t) => ({ t, lead: 2 * against - weight, share: against / weight }));
    const found = odd.filter(({ lead, share }) => lead >= LEAST_AGAINST && share >= LEAST_SHARE);
    const worst = found.sort((p, q) => q.lead - p.lead)[0];
    if (!worst || faults.length >= files.length / 2) return faults;
    flips[worst.t] = -(flips[worst.t] as number);
    const { against, weight, drums: heard } = votes[worst.t] as Votes;
    const file = files[worst.t] as string;
    faults.push({
      kind: 'inverted',
      files: [file],
      samples: null,
      text: `${file} starts the other way than its place leads one to expect: ${Math.round((100 * against) / weight)} % of its ${count(edges, worst.t)} readings say so (${[...heard].join(', ')}). Invert it, or look at its cable.`,
    });
  }
}

interface Votes {
  against: number;
  weight: number;
  drums: Set<string>;
}

function votesOn(t: number, edges: readonly Edge[], flips: readonly number[]): Votes {
  const votes: Votes = { against: 0, weight: 0, drums: new Set() };
  for (const { a, b, sign, weight, drum } of edges) {
    if (a !== t && b !== t) continue;
    votes.weight += weight;
    if (sign * (flips[a] as number) * (flips[b] as number) > 0) continue;
    votes.against += weight;
    votes.drums.add(drum);
  }
  return votes;
}

const count = (edges: readonly Edge[], t: number): number => edges.filter(({ a, b }) => a === t || b === t).length;

function edgesOf({ drum, pairs }: DrumReport, files: readonly string[], mics: readonly MicGuess[]): Edge[] {
  return pairs.flatMap(({ a, b, state, polarity }): Edge[] => {
    if (state !== 'measured' || polarity === null) return [];
    const [ta, tb] = [files.indexOf(a), files.indexOf(b)];
    const expected = expectedSign(drum, mics[ta] as MicGuess, mics[tb] as MicGuess);
    if (expected === 0) return [];
    const sign = (polarity === 'same' ? 1 : -1) * Math.sign(expected);
    return [{ a: ta, b: tb, drum, sign, weight: Math.abs(expected) }];
  });
}

/** a cymbal's first push is small, and goes either way */
const CYMBAL_WEIGHT = 0.3;

/** +1: they begin alike, −1: the other way; smaller: less certain; 0: nobody can say. Common practice, no source, but for the physics above. */
function expectedSign(drum: string, a: MicGuess, b: MicGuess): number {
  const [one, two] = [sideOf(drum, a), sideOf(drum, b)];
  if (one === null || two === null) return 0;
  // a kick is heard from its front, from above and through its shell: only its own microphones can be compared
  if (drum === 'kick' && (one.own !== two.own || !one.own)) return 0;
  const weight = /cymbal|hat|ride|crash/.test(drum) ? CYMBAL_WEIGHT : 1;
  return one.sign * two.sign * weight;
}

/** How a microphone hears a drum begin; null: nobody can say. */
function sideOf(drum: string, { drum: close, place }: MicGuess): { sign: number; own: boolean } | null {
  if (place === 'driver') return null;
  const own = close === drum;
  if (!own) return { sign: 1, own };
  if (place === 'shell') return null;
  if (drum === 'kick') return { sign: place === 'beater' || place === 'batter' ? -1 : 1, own };
  return { sign: place === 'bottom' || place === 'reso' ? -1 : 1, own };
}
