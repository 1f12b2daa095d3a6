/**
 * Sorts hits by the drum that made them: leaders that follow their hits, compared by how the energy lies over bands and
 * channels (level ratio, spectrum), whatever the force. A hit that a cymbal led into, or that two drums share, is none's.
 */
import { BANDS_A_CHANNEL, FINGERPRINT } from '../hit/fingerprint';
import type { HitStore } from '../hit/hitStore';
import { TwoDelays } from './twoDelays';

/** drums told apart at a time */
export const DRUM_SLOTS = 6;
/** RMS distance of fingerprints of one drum, dB (tried on simulated kits) */
const SAME_DRUM_DB = 5.5;
/** hits that a drum's fingerprint is averaged over */
const REMEMBERED = 12;
/** a drum that was not heard for so many hits gives its place up */
const FORGOTTEN_HITS = 32;
/** low end this far below a drum's usual is not that drum */
const MUCH_SOFTER_DB = 9;
/** a drum whose low end led so many hits, and such a share of them, isn't read from hits that a cymbal led */
const LED_HITS = 2;
const LED_SHARE = 0.2;
/** newest hits of which the loudest drum in A is taken; it needs so many, and such a share of the most frequent one's */
const LOUDEST_HITS = 24;
const LOUDEST_LEAST = 3;
const LOUDEST_SHARE = 0.2;
/** of two drums that sound alike, a hit belongs to the one whose delay is within this, s (7 cm of path) */
const SAME_DELAY_SECONDS = 0.0002;
/** so many hits of neither, one after the other, and both begin anew: a microphone was moved */
const STRAY_HITS = 3;
/** another must be louder by this to take over, as a ratio of powers (1 dB) */
const TAKES_OVER = 1.26;

export const NO_DRUM = -1;

export class DrumSorter {
  /** 0: free. Counts up, so that a drum keeps its own */
  readonly id = new Int32Array(DRUM_SLOTS);
  /** hits since the start */
  readonly hits = new Int32Array(DRUM_SLOTS);
  /** the drum that sounds loudest in A; NO_DRUM while none is known */
  loudest = NO_DRUM;
  private readonly centre = new Float64Array(DRUM_SLOTS * FINGERPRINT);
  private readonly newest = new Float64Array(DRUM_SLOTS);
  /** hits that its low end led */
  private readonly ledHits = new Int32Array(DRUM_SLOTS);
  private readonly lowLevel = new Float64Array(DRUM_SLOTS);
  /** over the newest hits: mean power in A, and how many */
  private readonly power = new Float64Array(DRUM_SLOTS);
  private readonly lately = new Int32Array(DRUM_SLOTS);
  /** of two that sound alike: delay of the low end, samples; NaN: it sounds like no other */
  private readonly lowDelay = new Float64Array(DRUM_SLOTS).fill(Number.NaN);
  private strays = 0;
  private readonly twoDelays: TwoDelays;
  private readonly sameDelay: number;
  private nextId = 1;
  /** of the last comparison */
  private shift = 0;

  constructor(sampleRate: number) {
    this.twoDelays = new TwoDelays(sampleRate);
    this.sameDelay = SAME_DELAY_SECONDS * sampleRate;
  }

  /** Give the hit of this serial to a drum, or to none. Real-time safe: yes. @returns a drum that begins anew, or NO_DRUM */
  sort(store: HitStore, serial: number): number {
    const s = store.slot(serial);
    store.drum[s] = NO_DRUM;
    if (store.clipped[s] || store.oneSided[s]) return NO_DRUM;
    const led = store.lowAlone[s] === 1;
    let best = NO_DRUM;
    let nearest = SAME_DRUM_DB;
    let stray = false;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (this.id[d] === 0) continue;
      const apart = this.apart(store, s, d, led && this.led(d));
      if (apart > nearest) continue;
      // a cymbal's own low end lies far below that of the drums
      if (store.highLed[s] && this.led(d) && this.lowOf(store, s) < (this.lowLevel[d] as number) - MUCH_SOFTER_DB)
        continue;
      if (!Number.isNaN(this.lowDelay[d] as number)) {
        const away = led
          ? Math.abs((store.lowDelay[s] as number) - (this.lowDelay[d] as number))
          : Number.POSITIVE_INFINITY;
        if (!(away <= this.sameDelay)) {
          stray = true;
          continue;
        }
      }
      best = d;
      nearest = apart;
    }
    if (store.mixed[s]) return NO_DRUM;
    if (best < 0 && stray) {
      if (!led || ++this.strays < STRAY_HITS) return NO_DRUM;
      this.forgetTwins();
    }
    if (led) this.strays = 0;
    let begun = NO_DRUM;
    if (best < 0) {
      best = this.place(serial);
      if (best < 0) return NO_DRUM;
      this.begin(store, best);
      begun = best;
    }
    this.join(store, s, best, serial, led);
    return begun;
  }

  /** Part a drum whose hits arrive with two delays by turns. Real-time safe: yes. @returns the new one, or NO_DRUM */
  split(store: HitStore, d: number): number {
    if (!this.led(d) || !Number.isNaN(this.lowDelay[d] as number)) return NO_DRUM;
    const between = this.twoDelays.between(store, d);
    if (Number.isNaN(between)) return NO_DRUM;
    const twin = this.place(store.count);
    if (twin < 0) return NO_DRUM;
    this.begin(store, twin);
    this.centre.copyWithin(twin * FINGERPRINT, d * FINGERPRINT, (d + 1) * FINGERPRINT);
    this.lowLevel[twin] = this.lowLevel[d] as number;
    this.hits[d] = 0;
    this.ledHits[d] = 0;
    for (let serial = store.first; serial <= store.count; serial++) {
      const s = store.slot(serial);
      if (store.drum[s] !== d) continue;
      // which of the two, nobody knows
      if (!store.lowAlone[s]) store.drum[s] = NO_DRUM;
      else this.count(store, s, (store.lowDelay[s] as number) > between ? twin : d, serial);
    }
    return twin;
  }

  private count(store: HitStore, s: number, d: number, serial: number): void {
    this.hits[d] = (this.hits[d] as number) + 1;
    this.ledHits[d] = (this.ledHits[d] as number) + 1;
    this.newest[d] = serial;
    this.lowDelay[d] = store.lowDelay[s] as number;
    store.drum[s] = d;
  }

  private forgetTwins(): void {
    this.strays = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) if (!Number.isNaN(this.lowDelay[d] as number)) this.id[d] = 0;
    if (this.loudest >= 0 && this.id[this.loudest] === 0) this.loudest = NO_DRUM;
  }

  /** The drum is one whose low end begins its hits: what a cymbal began is two drums. Real-time safe: yes. */
  led(d: number): boolean {
    const n = this.ledHits[d] as number;
    return n >= LED_HITS && n >= LED_SHARE * (this.hits[d] as number);
  }

  /** Level in A's two lowest bands, dB. */
  private lowOf(store: HitStore, s: number): number {
    const at = s * FINGERPRINT;
    return Math.max(store.print[at] as number, store.print[at + 1] as number);
  }

  /** RMS distance with the force taken out; where the low end leads both, what a cymbal may add is left out. */
  private apart(store: HitStore, s: number, d: number, withoutTop: boolean): number {
    const at = s * FINGERPRINT;
    const to = d * FINGERPRINT;
    let mean = 0;
    let square = 0;
    let n = 0;
    for (let i = 0; i < FINGERPRINT; i++) {
      if (withoutTop && i % BANDS_A_CHANNEL === BANDS_A_CHANNEL - 1) continue;
      const x = (store.print[at + i] as number) - (this.centre[to + i] as number);
      mean += x;
      square += x * x;
      n++;
    }
    this.shift = mean / n;
    return Math.sqrt(Math.max(0, square / n - this.shift * this.shift));
  }

  /** A free place, or that of a drum not heard for long. */
  private place(serial: number): number {
    let oldest = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (this.id[d] === 0) return d;
      if ((this.newest[d] as number) < (this.newest[oldest] as number)) oldest = d;
    }
    return serial - (this.newest[oldest] as number) > FORGOTTEN_HITS ? oldest : NO_DRUM;
  }

  private begin(store: HitStore, d: number): void {
    // the hits of the drum that had the place before are nobody's now
    for (let serial = store.first; serial <= store.count; serial++)
      if (store.drum[store.slot(serial)] === d) store.drum[store.slot(serial)] = NO_DRUM;
    this.id[d] = this.nextId++;
    this.hits[d] = 0;
    this.ledHits[d] = 0;
    this.lowLevel[d] = 0;
    this.lowDelay[d] = Number.NaN;
    this.centre.fill(0, d * FINGERPRINT, (d + 1) * FINGERPRINT);
  }

  private join(store: HitStore, s: number, d: number, serial: number, led: boolean): void {
    const n = (this.hits[d] as number) + 1;
    const share = 1 / Math.min(n, REMEMBERED);
    this.apart(store, s, d, led && this.led(d));
    // the first hit's level is kept: later ones are brought to it
    const shift = n === 1 ? 0 : this.shift;
    for (let i = 0; i < FINGERPRINT; i++) {
      const to = d * FINGERPRINT + i;
      const x = (store.print[s * FINGERPRINT + i] as number) - shift;
      this.centre[to] = (this.centre[to] as number) + share * (x - (this.centre[to] as number));
    }
    if (led) this.ledHits[d] = (this.ledHits[d] as number) + 1;
    this.lowLevel[d] = (this.lowLevel[d] as number) + share * (this.lowOf(store, s) - (this.lowLevel[d] as number));
    this.hits[d] = n;
    this.newest[d] = serial;
    if (led && !Number.isNaN(this.lowDelay[d] as number)) this.lowDelay[d] = store.lowDelay[s] as number;
    store.drum[s] = d;
  }

  /** Which drum is loudest in A over the newest hits. Real-time safe: yes. */
  findLoudest(store: HitStore): void {
    const { power, lately } = this;
    power.fill(0);
    lately.fill(0);
    for (let serial = Math.max(store.first, store.count - LOUDEST_HITS + 1); serial <= store.count; serial++) {
      const s = store.slot(serial);
      const d = store.drum[s] as number;
      if (!store.hasArrival[s] || d < 0) continue;
      power[d] = (power[d] as number) + 10 ** ((store.levelA[s] as number) / 10);
      lately[d] = (lately[d] as number) + 1;
    }
    let frequent = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if ((lately[d] as number) > 0) power[d] = (power[d] as number) / (lately[d] as number);
      if ((lately[d] as number) > (lately[frequent] as number)) frequent = d;
    }
    // until a drum has enough hits, the one with most of them
    const least = Math.min(
      lately[frequent] as number,
      Math.max(LOUDEST_LEAST, LOUDEST_SHARE * (lately[frequent] as number)),
    );
    let best = this.loudest;
    let most = 0;
    if (best >= 0 && (lately[best] as number) >= least) most = TAKES_OVER * (power[best] as number);
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if ((lately[d] as number) === 0 || (lately[d] as number) < least || (power[d] as number) <= most) continue;
      most = power[d] as number;
      best = d;
    }
    this.loudest = best;
  }

  /** Mean power in A over the newest hits; 0: not heard. Real-time safe: yes. */
  loudness(d: number): number {
    return this.power[d] as number;
  }

  /** Centre of A's energy over its bands, Hz. Real-time safe: yes. */
  centreHz(d: number): number {
    let sum = 0;
    let weight = 0;
    for (let b = 0; b < BANDS_A_CHANNEL; b++) {
      const power = 10 ** ((this.centre[d * FINGERPRINT + b] as number) / 10);
      sum += power * (MIDDLE_LOG_HZ[b] as number);
      weight += power;
    }
    return weight > 0 ? 2 ** (sum / weight) : Number.NaN;
  }

  /** Slot of the drum with this id; NO_DRUM when it is gone. Real-time safe: yes. */
  find(id: number): number {
    for (let d = 0; d < DRUM_SLOTS; d++) if (this.id[d] === id) return d;
    return NO_DRUM;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.id.fill(0);
    this.hits.fill(0);
    this.power.fill(0);
    this.lowDelay.fill(Number.NaN);
    this.strays = 0;
    this.loudest = NO_DRUM;
    this.nextId = 1;
  }
}

/** middles of 40–150, 150–500, 500–2000, 2000–10000 Hz, octaves */
const MIDDLE_LOG_HZ = [77, 274, 1000, 4472].map((hz) => Math.log2(hz));
