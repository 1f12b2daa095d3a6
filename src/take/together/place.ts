/**
 * A track that is sure with none, placed among those that are: the sum of its curves with all of them, each laid where that one's arrival
 * is known. What it shares with them stands at one place in all; what it shares with one of them only, and chance, doesn't.
 */
import { type Attacks, type Curve, Curves, valueAt } from './curves';
import type { Place } from './graph';

/** what is looked at of a track whose arrival is known, s: the longer, the more reflections; the shorter, the less of a cymbal */
const KNOWN_SECONDS = 0.009;
/** of one whose arrival isn't: rooms hear a drum up to 34 ms later */
const UNKNOWN_SECONDS = 0.04;
const EARLIEST_SECONDS = 0.0015;
const LATEST_SECONDS = 0.034;
/** the place is looked for once more so near the first one, s */
const NEAR_SECONDS = 0.004;
/** a curve bears the place out where its own highest point lies so near, s */
const SAME_SECONDS = 0.0001;
/** a second place lies farther off than that, s */
const APART_SECONDS = 0.0002;
/** step of the search, frames */
const STEP = 0.5;
/**
 * Arrivals so found lie within that of the first push, s: of 83 pairs in simulated takes (tuning seeds 10000–10005) 90 % within 2.3 samples, the farthest
 * 5.1; of a real kit's 12 tracks, held out one by one, the farthest 5
 */
export const PLACED_UNCERTAINTY_SECONDS = 0.0001;

/** Where a track seems to hear the drum. */
export interface Found {
  at: number;
  sign: number;
  /** share of the curves that bear it out, times how far the next best place falls short: the engine's measure of trust */
  trust: number;
  /** tracks whose curves do */
  by: number[];
}

interface PlacedCurve {
  other: number;
  place: Place;
  curve: Curve;
}

export class Placer {
  private readonly curves: Curves;
  private readonly known = new Map<number, { at: number; attacks: Attacks }>();
  private readonly unknown = new Map<number, Attacks>();

  /** @param pieces of each track, by its number; @param begins frame of each piece at which the drum's own track begins */
  constructor(
    private readonly sampleRate: number,
    private readonly pieces: ReadonlyMap<number, readonly Float32Array[]>,
    private readonly begins: readonly number[],
  ) {
    this.curves = new Curves(sampleRate, Math.round(UNKNOWN_SECONDS * sampleRate));
  }

  /**
   * @param places of tracks, in frames after `begins`
   * @returns null: there are too few tracks to say
   */
  find(t: number, places: ReadonlyMap<number, Place>): Found | null {
    const { sampleRate } = this;
    const others = [...places].filter(([other]) => other !== t);
    if (others.length === 0) return null;
    const curves = (attacks: Attacks): PlacedCurve[] =>
      others.map(([other, place]) => this.curveOf(other, place, this.at(other, place.at), attacks));
    const [earliest, latest] = [-EARLIEST_SECONDS * sampleRate, LATEST_SECONDS * sampleRate];
    const coarse = this.search(curves(this.anywhere(t)), earliest, latest, 1);
    const near = NEAR_SECONDS * sampleRate;
    return this.search(curves(this.at(t, coarse.at)), coarse.at - near, coarse.at + near, STEP);
  }

  /**
   * The drum's own track among others that are sure with each other and not with it: nobody knows yet where to look at these.
   * @param places against one of them @returns where it hears the drum against that one; null: nothing shows it
   */
  findOwn(own: number, places: ReadonlyMap<number, Place>): number | null {
    const others = [...places];
    if (others.length === 0) return null;
    const latest = LATEST_SECONDS * this.sampleRate;
    const most = Math.max(...others.map(([, { at }]) => at));
    const least = Math.min(...others.map(([, { at }]) => at));
    const curves = others.map(([other, place]) => this.curveOf(other, place, this.anywhere(other), this.anywhere(own)));
    return this.search(curves, most - latest, least + EARLIEST_SECONDS * this.sampleRate, 1).at;
  }

  /** Where two tracks fit best near the delay that is expected of them. */
  fits(a: number, b: number, placeA: Place, placeB: Place): boolean {
    const curve = this.curves.between(this.at(a, placeA.at), this.at(b, placeB.at));
    const near = NEAR_SECONDS * this.sampleRate;
    return this.bears(curve, 0, placeB.at - placeA.at, placeA.sign * placeB.sign, near);
  }

  private at(t: number, at: number): Attacks {
    const kept = this.known.get(t);
    if (kept && Math.abs(kept.at - at) < 1) return kept.attacks;
    const attacks = this.attacks(t, at, KNOWN_SECONDS);
    this.known.set(t, { at, attacks });
    return attacks;
  }

  private anywhere(t: number): Attacks {
    const kept = this.unknown.get(t);
    if (kept) return kept;
    const attacks = this.attacks(t, 0, UNKNOWN_SECONDS);
    this.unknown.set(t, attacks);
    return attacks;
  }

  private attacks(t: number, at: number, seconds: number): Attacks {
    const pieces = this.pieces.get(t) as readonly Float32Array[];
    return this.curves.attacks(pieces, this.begins, at, Math.round(seconds * this.sampleRate));
  }

  private curveOf(other: number, place: Place, known: Attacks, attacks: Attacks): PlacedCurve {
    return { other, place, curve: this.curves.between(known, attacks) };
  }

  private search(curves: readonly PlacedCurve[], from: number, to: number, step: number): Found {
    const n = Math.max(1, Math.floor((to - from) / step) + 1);
    const sums = Float64Array.from({ length: n }, (_, i) => {
      let sum = 0;
      for (const { place, curve } of curves) sum += place.sign * valueAt(curve, from + i * step - place.at);
      return sum;
    });
    const best = highest(sums, () => true);
    const apart = (APART_SECONDS * this.sampleRate) / step;
    const second = highest(sums, (i) => Math.abs(i - best) > apart);
    const height = sums[best] as number;
    const at = from + best * step;
    const sign = Math.sign(height);
    const by = curves.flatMap(({ other, place, curve }) =>
      this.bears(curve, place.at, at, sign * place.sign, NEAR_SECONDS * this.sampleRate) ? [other] : [],
    );
    const trust = (by.length / curves.length) * (1 - Math.abs((sums[second] as number) / height));
    return { at, sign, trust, by };
  }

  private bears(curve: Curve, base: number, at: number, sign: number, near: number): boolean {
    let best = 0;
    let bestAt = 0;
    for (let t = at - near; t <= at + near; t++) {
      const value = valueAt(curve, t - base);
      if (Math.abs(value) <= Math.abs(best)) continue;
      best = value;
      bestAt = t;
    }
    return Math.sign(best) === sign && Math.abs(bestAt - at) <= SAME_SECONDS * this.sampleRate;
  }
}

function highest(values: Float64Array, counts: (i: number) => boolean): number {
  let best = -1;
  for (let i = 0; i < values.length; i++)
    if (counts(i) && (best < 0 || Math.abs(values[i] as number) > Math.abs(values[best] as number))) best = i;
  return Math.max(0, best);
}
