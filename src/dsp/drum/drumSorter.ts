/**
 * Sorts hits by the drum that made them: leaders that follow their hits, compared by how the energy lies over bands and
 * channels (level ratio, spectrum), whatever the force. A hit that a cymbal led into, or that two drums share, is none's.
 */
import { BANDS_A_CHANNEL, FINGERPRINT, LOW_BANDS } from '../hit/fingerprint';
import type { HitStore } from '../hit/hitStore';
import { TUNING, type Tuning } from '../tuning';
import type { SorterTuning } from '../tuning/drumTuning';
import { DrumLevels } from './drumLevels';
import { SoundJump } from './soundJump';
import { SpectralCentre } from './spectralCentre';
import { TwoDelays } from './twoDelays';

/** drums told apart at a time */
export const DRUM_SLOTS = 10;

export const NO_DRUM = -1;

export class DrumSorter {
  /** 0: free. Counts up, so that a drum keeps its own */
  readonly id = new Int32Array(DRUM_SLOTS);
  /** hits since the start */
  readonly hits = new Int32Array(DRUM_SLOTS);
  /** centre of A's energy over its bands, Hz, while a drum is heard */
  readonly centreHz = new Float64Array(DRUM_SLOTS).fill(Number.NaN);
  private readonly centre = new Float64Array(DRUM_SLOTS * FINGERPRINT);
  private readonly newest = new Float64Array(DRUM_SLOTS);
  /** hits that its low end led */
  private readonly ledHits = new Int32Array(DRUM_SLOTS);
  private readonly lowLevel = new Float64Array(DRUM_SLOTS);
  private readonly levels = new DrumLevels(DRUM_SLOTS);
  /** of two that sound alike: delay of the low end, samples; NaN: it sounds like no other */
  private readonly lowDelay = new Float64Array(DRUM_SLOTS).fill(Number.NaN);
  private strays = 0;
  private readonly twoDelays: TwoDelays;
  private readonly jump = new SoundJump();
  private readonly sameDelay: number;
  private readonly tuning: SorterTuning;
  /** all hits are one drum's unless they are sorted; drums that sound alike are parted */
  private readonly sorting: boolean;
  private readonly parting: boolean;
  private readonly middle: SpectralCentre;
  private nextId = 1;
  /** of the last comparison */
  private shift = 0;

  constructor(sampleRate: number, { drum, hit, parts }: Tuning = TUNING) {
    this.tuning = drum.sorter;
    this.sorting = parts.drumSorting;
    this.parting = parts.drumSorting && parts.twoDelays;
    this.twoDelays = new TwoDelays(sampleRate, drum.twoDelays);
    this.sameDelay = drum.sorter.sameDelaySeconds * sampleRate;
    this.middle = new SpectralCentre(hit.fingerprint.edgesHz);
  }

  /** Give the hit of this serial to a drum, or to none. Real-time safe: yes. @returns a drum that begins anew, or NO_DRUM */
  sort(store: HitStore, serial: number): number {
    const s = store.slot(serial);
    store.drum[s] = NO_DRUM;
    if (store.clipped[s] || store.oneSided[s] || store.dropped[s]) return NO_DRUM;
    const led = store.lowAlone[s] === 1;
    if (!this.sorting) return this.joinOnly(store, s, serial, led);
    let best = NO_DRUM;
    let nearest = this.tuning.sameDrumDb;
    let stray = false;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (this.id[d] === 0) continue;
      const apart = this.apart(store, s, d, led && this.led(d));
      if (apart > nearest) continue;
      // a cymbal's own low end lies far below that of the drums
      if (
        store.highLed[s] &&
        this.led(d) &&
        this.lowOf(store, s) < (this.lowLevel[d] as number) - this.tuning.muchSofterDb
      )
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
      if (!led || ++this.strays < this.tuning.strayHits) return NO_DRUM;
      this.forgetTwins();
    }
    if (led) this.strays = 0;
    const isNew = best < 0;
    if (isNew) {
      best = this.place(serial);
      if (best < 0) return NO_DRUM;
      this.begin(store, best);
    }
    this.join(store, s, best, serial, led);
    return isNew ? best : NO_DRUM;
  }

  /** Without sorting all hits are the first drum's. */
  private joinOnly(store: HitStore, s: number, serial: number, led: boolean): number {
    const begun = this.id[0] === 0 ? 0 : NO_DRUM;
    if (begun === 0) this.begin(store, 0);
    this.join(store, s, 0, serial, led);
    return begun;
  }

  /** Part a drum whose hits arrive with two delays by turns. Real-time safe: yes. @returns the new one, or NO_DRUM */
  split(store: HitStore, d: number): number {
    if (!this.parting || !this.led(d) || !Number.isNaN(this.lowDelay[d] as number)) return NO_DRUM;
    const between = this.twoDelays.between(store, d);
    if (Number.isNaN(between)) return NO_DRUM;
    const twin = this.place(store.count);
    if (twin < 0) return NO_DRUM;
    this.begin(store, twin);
    this.centre.copyWithin(twin * FINGERPRINT, d * FINGERPRINT, (d + 1) * FINGERPRINT);
    this.centreHz[twin] = this.centreHz[d] as number;
    this.lowLevel[twin] = this.lowLevel[d] as number;
    this.hits[d] = 0;
    this.ledHits[d] = 0;
    this.levels.forget(d);
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      if (store.drum[s] !== d) continue;
      // which of the two, nobody knows
      if (!store.lowAlone[s]) store.drum[s] = NO_DRUM;
      else this.count(store, s, (store.lowDelay[s] as number) > between ? twin : d, store.serial[s] as number);
    }
    return twin;
  }

  private count(store: HitStore, s: number, d: number, serial: number): void {
    this.hits[d] = (this.hits[d] as number) + 1;
    this.ledHits[d] = (this.ledHits[d] as number) + 1;
    this.newest[d] = serial;
    this.lowDelay[d] = store.lowDelay[s] as number;
    this.levels.note(store, s, d);
    store.drum[s] = d;
  }

  private forgetTwins(): void {
    this.strays = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) if (!Number.isNaN(this.lowDelay[d] as number)) this.id[d] = 0;
  }

  /** The drum is one whose low end begins its hits: what a cymbal began is two drums. Real-time safe: yes. */
  led(d: number): boolean {
    const n = this.ledHits[d] as number;
    return n >= this.tuning.ledHits && n >= this.tuning.ledShare * (this.hits[d] as number);
  }

  /** The drum is one of two that sound alike. Real-time safe: yes. @param d NO_DRUM: it isn't */
  parted(d: number): boolean {
    return d >= 0 && !Number.isNaN(this.lowDelay[d] as number);
  }

  /** Level in the strongest of A's lows, dB. */
  private lowOf(store: HitStore, s: number): number {
    let most = Number.NEGATIVE_INFINITY;
    for (let b = 0; b < LOW_BANDS; b++) most = Math.max(most, store.print[s * FINGERPRINT + b] as number);
    return most;
  }

  /** RMS distance with the force taken out; where the low end leads both, by the lows alone: a hi-hat adds to all above. */
  private apart(store: HitStore, s: number, d: number, withoutTop: boolean): number {
    const at = s * FINGERPRINT;
    const to = d * FINGERPRINT;
    let mean = 0;
    let square = 0;
    let n = 0;
    for (let i = 0; i < FINGERPRINT; i++) {
      if (withoutTop && i % BANDS_A_CHANNEL >= LOW_BANDS) continue;
      const x = (store.print[at + i] as number) - (this.centre[to + i] as number);
      mean += x;
      square += x * x;
      n++;
    }
    this.shift = mean / n;
    return Math.sqrt(Math.max(0, square / n - this.shift * this.shift));
  }

  /** A free place, or of the drums that weren't heard for long that of the one hit least. */
  private place(serial: number): number {
    let least = NO_DRUM;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (this.id[d] === 0) return d;
      if (serial - (this.newest[d] as number) <= this.tuning.forgottenHits) continue;
      if (least === NO_DRUM || (this.hits[d] as number) < (this.hits[least] as number)) least = d;
    }
    return least;
  }

  private begin(store: HitStore, d: number): void {
    // the hits of the drum that had the place before are nobody's now
    for (let i = 0; i < store.kept; i++) if (store.drum[store.at(i)] === d) store.drum[store.at(i)] = NO_DRUM;
    this.id[d] = this.nextId++;
    this.hits[d] = 0;
    this.ledHits[d] = 0;
    this.lowLevel[d] = 0;
    this.lowDelay[d] = Number.NaN;
    this.levels.forget(d);
    this.centre.fill(0, d * FINGERPRINT, (d + 1) * FINGERPRINT);
  }

  /**
   * A drum whose delay has jumped: hits after that may be another's, see SoundJump. Real-time safe: yes.
   * @param upTo serial of the last hit before the jump
   * @returns the new drum, which has the hits after it, or NO_DRUM
   */
  partBySound(store: HitStore, d: number, upTo: number): number {
    if (!this.sorting || this.jump.apart(store, d, upTo) < this.tuning.partDb) return NO_DRUM;
    const other = this.place(store.count);
    if (other < 0) return NO_DRUM;
    this.begin(store, other);
    this.levels.forget(d);
    this.newest[d] = upTo;
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      if (store.drum[s] !== d) continue;
      if ((store.serial[s] as number) > upTo) this.handOver(store, s, d, other);
      else this.levels.note(store, s, d);
    }
    this.centre.set(this.jump.before, d * FINGERPRINT);
    this.centre.set(this.jump.after, other * FINGERPRINT);
    this.placeCentre(d);
    this.placeCentre(other);
    return other;
  }

  private handOver(store: HitStore, s: number, from: number, to: number): void {
    const led = store.lowAlone[s] as number;
    this.hits[from] = (this.hits[from] as number) - 1;
    this.hits[to] = (this.hits[to] as number) + 1;
    this.ledHits[from] = (this.ledHits[from] as number) - led;
    this.ledHits[to] = (this.ledHits[to] as number) + led;
    this.lowLevel[to] = this.lowOf(store, s);
    this.newest[to] = store.serial[s] as number;
    this.levels.note(store, s, to);
    store.drum[s] = to;
  }

  private join(store: HitStore, s: number, d: number, serial: number, led: boolean): void {
    const n = (this.hits[d] as number) + 1;
    const share = 1 / Math.min(n, this.tuning.averagedHits);
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
    this.levels.note(store, s, d);
    store.drum[s] = d;
    this.placeCentre(d);
  }

  /** Level of its loudest hits above 1 kHz in a channel since it began, dB; −Infinity: not heard. Real-time safe: yes. */
  levelA(d: number): number {
    return this.levels.inA(d, this.hits[d] as number);
  }

  levelB(d: number): number {
    return this.levels.inB(d, this.hits[d] as number);
  }

  private placeCentre(d: number): void {
    this.centreHz[d] = this.middle.of(this.centre, d * FINGERPRINT);
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
    this.lowDelay.fill(Number.NaN);
    this.strays = 0;
    this.nextId = 1;
  }
}
