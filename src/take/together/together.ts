/**
 * All tracks hear the same hits of a drum, so their arrivals must close. A pair that its own hits leave open is answered where the
 * others settle it, and a sure one that they contradict is taken back. Pure; pairs are read by the live engine as ever.
 */
import type { ReadingReason } from '../../reading/codes';
import type { PairReport } from '../model';
import { agree, type Chain, chainsOf, contradicted, type Edge, ENOUGH_CHAINS, type Place, placesOf } from './graph';
import { type Found, PLACED_UNCERTAINTY_SECONDS, Placer } from './place';
import { seeded } from './seed';

/** What the others make of a pair. */
export type Settled =
  | { kind: 'answer'; delaySamples: number; sign: number; uncertaintySamples: number; reason: string }
  | { kind: 'contradicted'; reason: string };

type Told = Pick<
  PairReport,
  'a' | 'b' | 'state' | 'reasonCode' | 'polarity' | 'delaySamples' | 'uncertaintySamples' | 'perHit'
>;

export interface DrumTracks {
  sampleRate: number;
  /** what is cut out of each track, by its file */
  pieces: ReadonlyMap<string, readonly Float32Array[]>;
  /** of each hit, frame of its piece at which it begins in the drum's own track */
  begins: readonly number[];
}

/** why a pair's own hits may leave open what others settle; a track with the low end only, or a clipped one, is left as it is */
const OPEN: readonly ReadingReason[] = ['hits-disagree', 'arrival-hidden', 'push-and-shape-disagree'];
/** trust from which a place among all others holds, and from which it does where hits of the pair itself show it */
const TRUSTED = 0.3;
const TRUSTED_WITH_HITS = 0.15;
/** a place is one among so many tracks at least */
const LEAST_TRACKS = 3;
/** hits of a pair that show a delay: so near, s, so many, and such a share of them. By chance three of ten do in one of a hundred */
const HIT_SECONDS = 0.00008;
const LEAST_HITS = 3;
const LEAST_SHARE = 0.3;
/** where nobody says how sure it is, s */
const UNKNOWN_SECONDS = 0.00015;

/** @returns for each pair what the others make of it; null: nothing */
export function settle(pairs: readonly Told[], tracks: DrumTracks): (Settled | null)[] {
  const { sampleRate } = tracks;
  const files = [...new Set(pairs.flatMap(({ a, b }) => [a, b]))];
  const numberOf = (file: string): number => files.indexOf(file);
  const edgeOf = (pair: Told): Edge | null => {
    const { a, b, state, delaySamples, polarity, uncertaintySamples } = pair;
    if (state !== 'measured' || delaySamples === null || polarity === null) return null;
    const uncertainty = uncertaintySamples ?? UNKNOWN_SECONDS * sampleRate;
    return { a: numberOf(a), b: numberOf(b), delay: delaySamples, sign: polarity === 'same' ? 1 : -1, uncertainty };
  };
  const edges = pairs.map(edgeOf);
  const sure = edges.filter((edge) => edge !== null);
  const wrong = contradicted(sure);
  const left = sure.filter((edge) => !wrong.some((one) => one.edge === edge));
  const places = placesOf(left);
  const [first] = pairs;
  const whole = new Joint(files, pairs, tracks, left, places, first ? numberOf(first.a) : 0);
  return pairs.map((pair, i) => {
    const found = wrong.find(({ edge }) => edge === edges[i]);
    if (found) return { kind: 'contradicted', reason: contradictedBy(found.by.map((t) => files[t] as string)) };
    return OPEN.includes(pair.reasonCode) ? whole.answer(pair) : null;
  });
}

class Joint {
  private readonly placer: Placer;
  /** tracks that no sure pair places, with those whose curves do */
  private readonly byCurves = new Map<number, number[]>();
  /** it is known where each track is to be looked at */
  private based = false;

  constructor(
    private readonly files: readonly string[],
    private readonly pairs: readonly Told[],
    private readonly tracks: DrumTracks,
    private readonly edges: readonly Edge[],
    private places: Map<number, Place>,
    own: number,
  ) {
    const pieces = new Map(files.map((file, t) => [t, tracks.pieces.get(file) as readonly Float32Array[]]));
    this.placer = new Placer(tracks.sampleRate, pieces, tracks.begins);
    // frames after the hit begins in the drum's own track
    const zero = places.get(own)?.at ?? this.placer.findOwn(own, places) ?? 0;
    for (const place of places.values()) place.at -= zero;
    this.based = (places.has(own) && places.size >= LEAST_TRACKS) || this.placeOwn(own) || this.seed(own);
    if (this.based) this.placeTheRest();
  }

  private seed(own: number): boolean {
    const { placer, places, edges, files, tracks } = this;
    if (!this.isOpen(own)) return false;
    const start = places.has(own) ? places : new Map([[own, { at: 0, sign: 1, uncertainty: 0 }]]);
    const waiting = files.flatMap((_, t) => (this.isOpen(t) ? [t] : []));
    const found = seeded(placer, start, waiting, edges, TRUSTED, tracks.sampleRate);
    if (found === null) return false;
    this.places = found;
    for (const t of found.keys()) if (!start.has(t)) this.byCurves.set(t, [...found.keys()]);
    return true;
  }

  private isOpen(t: number): boolean {
    return this.pairs.some(
      ({ a, b, reasonCode }) => [a, b].includes(this.files[t] as string) && OPEN.includes(reasonCode),
    );
  }

  private placeOwn(own: number): boolean {
    if (this.places.has(own)) return false;
    const found = this.placer.find(own, this.places);
    if (!found || !this.holds(own, found)) return false;
    this.put(own, found);
    for (const place of this.places.values()) place.at -= found.at;
    return true;
  }

  private holds(t: number, found: Found): boolean {
    if (this.places.size < LEAST_TRACKS) return false;
    return found.trust >= (this.shownByHits(t, found) ? TRUSTED_WITH_HITS : TRUSTED);
  }

  private put(t: number, { at, sign, by }: Found): void {
    const uncertainty = PLACED_UNCERTAINTY_SECONDS * this.tracks.sampleRate;
    this.places.set(t, { at, sign, uncertainty });
    this.byCurves.set(t, by);
  }

  /** The one that is placed best first: the next ones have one track more to go by. */
  private placeTheRest(): void {
    const { files, places, placer } = this;
    for (;;) {
      const waiting = files.flatMap((_, t) => (places.has(t) || !this.isOpen(t) ? [] : [t]));
      const found = waiting.flatMap((t) => {
        const one = placer.find(t, places);
        return one && this.holds(t, one) ? [{ t, one }] : [];
      });
      const best = found.sort((p, q) => q.one.trust - p.one.trust)[0];
      if (!best) return;
      this.put(best.t, best.one);
    }
  }

  /** Some pair of this track with one that is placed has hits at that place. */
  private shownByHits(t: number, place: Pick<Place, 'at' | 'sign'>): boolean {
    return this.pairs.some((pair) => {
      const [a, b] = [this.files.indexOf(pair.a), this.files.indexOf(pair.b)];
      const other = this.places.get(a === t ? b : a);
      if (!other || (a !== t && b !== t)) return false;
      const delay = a === t ? other.at - place.at : place.at - other.at;
      return hitsShow(pair, delay, place.sign * other.sign, this.tracks.sampleRate);
    });
  }

  answer(pair: Told): Settled | null {
    const { files, places, byCurves } = this;
    const [a, b] = [files.indexOf(pair.a), files.indexOf(pair.b)];
    const [placeA, placeB] = [places.get(a), places.get(b)];
    if (!placeA || !placeB) return null;
    const delay = placeB.at - placeA.at;
    const sign = placeA.sign * placeB.sign;
    const answer = (uncertainty: number, reason: string): Settled => ({
      kind: 'answer',
      delaySamples: delay,
      sign,
      uncertaintySamples: uncertainty,
      reason,
    });
    const curves = [a, b].flatMap((t) => byCurves.get(t) ?? []).filter((t) => t !== a && t !== b);
    if (byCurves.has(a) || byCurves.has(b))
      return answer(Math.hypot(placeA.uncertainty, placeB.uncertainty), byCurvesOf(this.named(curves)));
    const total = Math.hypot(placeA.uncertainty, placeB.uncertainty);
    const chains = chainsOf(this.edges, a, b).filter((chain) => agree(chain, { delay, sign, uncertainty: total }));
    const uncertainty = least(chains, total);
    if (chains.length >= ENOUGH_CHAINS)
      return answer(uncertainty, byChainsOf(this.named(chains.map(({ via }) => via))));
    const own =
      hitsShow(pair, delay, sign, this.tracks.sampleRate) || (this.based && this.placer.fits(a, b, placeA, placeB));
    return own ? answer(uncertainty, byOneChain(this.named(chains.map(({ via }) => via)))) : null;
  }

  private named(tracks: readonly number[]): string[] {
    return [...new Set(tracks)].map((t) => this.files[t] as string);
  }
}

const least = (chains: readonly Chain[], otherwise: number): number =>
  chains.reduce((best, { uncertainty }) => Math.min(best, uncertainty), otherwise);

function hitsShow({ perHit }: Told, delay: number, sign: number, sampleRate: number): boolean {
  const polarity = sign > 0 ? 'same' : 'inverted';
  const within = HIT_SECONDS * sampleRate;
  const shown = perHit.filter(
    (hit) => hit.delaySamples !== null && hit.polarity === polarity && Math.abs(hit.delaySamples - delay) <= within,
  ).length;
  return shown >= LEAST_HITS && shown >= LEAST_SHARE * perHit.length;
}

/** names told of several tracks */
const TOLD = 3;
function told(files: readonly string[]): string {
  const some = files.slice(0, TOLD);
  const more = files.length - some.length;
  if (more > 0) return `${some.join(', ')} and ${more} more`;
  return some.length > 1 ? `${some.slice(0, -1).join(', ')} and ${some[some.length - 1]}` : (some[0] ?? '');
}

const byChainsOf = (files: readonly string[]): string =>
  `Its own hits leave it open; it follows from ${told(files)}, each of which is certain with both.`;
const byOneChain = (files: readonly string[]): string =>
  files.length > 0
    ? `Its own hits leave it open; it follows from ${told(files)}, which is certain with both, and the two tracks show it.`
    : 'Its own hits leave it open; it follows from the other tracks, and the two tracks show it.';
const byCurvesOf = (files: readonly string[]): string =>
  `Its own hits leave it open; all hits together show it in the same place against ${told(files)}.`;
const contradictedBy = (files: readonly string[]): string =>
  `Its hits agree, but ${told(files)}, each of which is certain with both, say something else.`;
