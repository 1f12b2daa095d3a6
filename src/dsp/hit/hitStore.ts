/**
 * STORED_HITS hits, as parallel arrays by slot. A hit that comes takes the slot of the oldest one of the drum that has most of
 * them, so that a drum struck often isn't forgotten while others are played. Nothing is allocated after construction.
 */

import { BAND_COUNT, SPECTRUM_POINTS } from '../../reading/bands';
import { FATE } from '../../reading/codes';
import { OCTAVE_BANDS } from '../signal/octaves';
import { room64 } from '../signal/room';
import { FINGERPRINT } from './fingerprint';
import { PAIRS } from './onsets';

/** hits remembered: enough for some of each drum while the whole kit plays */
export const STORED_HITS = 64;

/** newest hits that may still be in work */
const UNDER_WAY = 8;

const numbers = (n = STORED_HITS): Float64Array => room64(n);

export class HitStore {
  /** hits since start or restart */
  count = 0;
  /** hits kept */
  kept = 0;
  /** slots of the kept hits, oldest first: the first `kept` entries */
  private readonly order = new Int32Array(STORED_HITS);
  /** counts from 1; of a kept hit its own */
  readonly serial = numbers();
  private readonly drumKept = new Int32Array(128);

  readonly trigger = numbers();
  readonly anchor = numbers();
  readonly fate = new Uint8Array(STORED_HITS);
  /** 1 once the arrival, respectively the sum, has been worked out */
  readonly hasArrival = new Uint8Array(STORED_HITS);
  readonly hasSum = new Uint8Array(STORED_HITS);
  /** 1: what is kept of it was read in the far reach, for the near one shows nothing */
  readonly far = new Uint8Array(STORED_HITS);
  /** 1: its delay lies where the two reaches meet: it speaks in both */
  readonly between = new Uint8Array(STORED_HITS);

  /** first arrivals: B−A samples (NaN: none), product of signs, smaller quality of the two channels */
  readonly pickDelay = numbers();
  readonly pickSign = numbers();
  readonly pickQuality = numbers();
  /** 1: the noise, not the drum, set a threshold: a soft first push may be hidden */
  readonly pickHidden = new Uint8Array(STORED_HITS);
  /** the first arrival of each channel: frame (NaN: none), way of the push (0: none), quality (0: none) */
  readonly arrivalA = numbers();
  readonly arrivalB = numbers();
  readonly pushA = new Int8Array(STORED_HITS);
  readonly pushB = new Int8Array(STORED_HITS);
  readonly qualityA = numbers();
  readonly qualityB = numbers();
  /** where the noise set the threshold: bit 1: of A, bit 2: of B */
  readonly noiseBound = new Uint8Array(STORED_HITS);
  /** difference of the two channels' rises, samples */
  readonly riseDifference = numbers();

  /** delays that pairs of its onsets could mean, samples, and their products of signs */
  readonly pairs = new Uint8Array(STORED_HITS);
  readonly pairDelay = numbers(STORED_HITS * PAIRS);
  readonly pairSign = new Int8Array(STORED_HITS * PAIRS);
  /** where it shows its drum's likeliest delay, samples; NaN: it doesn't */
  readonly likelyDelay = numbers();

  /** first push of the low end: B−A samples (NaN: none), product of signs; 1: nothing higher, and no softer push, came before it */
  readonly lowDelay = numbers();
  readonly lowSign = numbers();
  readonly lowAlone = new Uint8Array(STORED_HITS);
  /** 1: in a channel the top, not the low end, begins the hit */
  readonly highLed = new Uint8Array(STORED_HITS);

  /** which drum (−1: none), the fingerprint that says so, and 1 for two drums at once */
  readonly drum = new Int8Array(STORED_HITS).fill(-1);
  readonly print = numbers(STORED_HITS * FINGERPRINT);
  readonly mixed = new Uint8Array(STORED_HITS);

  /** waveform witness: B−A samples, sign, opposite peak over peak (0…1; 1 = ambiguous) */
  readonly waveDelay = numbers();
  readonly waveSign = numbers();
  readonly waveRival = numbers();

  /** peaks, dBFS of the 100 Hz high-passed signal, and the tilt 40–250 over 2–12k Hz of each channel, dB */
  readonly levelA = numbers();
  readonly levelB = numbers();
  readonly tiltA = numbers();
  readonly tiltB = numbers();
  /** attack over the noise before, the weaker channel, dB */
  readonly snrDb = numbers();
  /** bit 1: A clipped, bit 2: B clipped */
  readonly clipped = new Uint8Array(STORED_HITS);
  /** 1: frames were lost in its stretch: nothing that was read of it counts */
  readonly dropped = new Uint8Array(STORED_HITS);
  /** +1: only A heard it, −1: only B, 0: both */
  readonly oneSided = new Int8Array(STORED_HITS);

  /** sum: energies and zero-lag products of the whole band, then per fixed band */
  readonly energyA = numbers();
  readonly energyB = numbers();
  readonly product = numbers();
  readonly bandA = numbers(STORED_HITS * BAND_COUNT);
  readonly bandB = numbers(STORED_HITS * BAND_COUNT);
  readonly bandProduct = numbers(STORED_HITS * BAND_COUNT);
  readonly octaveA = numbers(STORED_HITS * OCTAVE_BANDS);
  readonly octaveB = numbers(STORED_HITS * OCTAVE_BANDS);
  readonly octaveProduct = numbers(STORED_HITS * OCTAVE_BANDS);
  readonly noiseA = numbers(STORED_HITS * OCTAVE_BANDS);
  readonly noiseB = numbers(STORED_HITS * OCTAVE_BANDS);
  /** cross- and power spectra on the logarithmic grid */
  readonly gridRe = numbers(STORED_HITS * SPECTRUM_POINTS);
  readonly gridIm = numbers(STORED_HITS * SPECTRUM_POINTS);
  readonly gridA = numbers(STORED_HITS * SPECTRUM_POINTS);
  readonly gridB = numbers(STORED_HITS * SPECTRUM_POINTS);

  /** Slot of the i-th kept hit, oldest first. Real-time safe: yes. */
  at(i: number): number {
    return this.order[i] as number;
  }

  /** Slot of the newest hit; there is one. Real-time safe: yes. */
  get newest(): number {
    return this.order[this.kept - 1] as number;
  }

  /** Slot of a serial; −1: it isn't kept any more. Real-time safe: yes. */
  slot(serial: number): number {
    for (let i = this.kept - 1; i >= 0; i--) {
      const s = this.order[i] as number;
      if (this.serial[s] === serial) return s;
    }
    return -1;
  }

  /** Serials of all kept hits of a drum with that fate. Real-time safe: no (allocates). */
  serialsOf(fate: number, drum: number): number[] {
    const slots = Array.from(this.order.subarray(0, this.kept));
    return slots.filter((s) => this.fate[s] === fate && this.drum[s] === drum).map((s) => this.serial[s] as number);
  }

  /** Which kept hit gives its slot up: the oldest of the drum that has most of them; those of no drum count like one drum's. */
  private leaver(): number {
    const { drumKept, order, kept } = this;
    drumKept.fill(0);
    for (let i = 0; i < kept; i++) {
      const d = (this.drum[order[i] as number] as number) + 1;
      drumKept[d] = (drumKept[d] as number) + 1;
    }
    let most = 0;
    for (let d = 1; d < drumKept.length; d++) if ((drumKept[d] as number) > (drumKept[most] as number)) most = d;
    // those of the newest are still being read
    for (let i = 0; i < kept - UNDER_WAY; i++) if ((this.drum[order[i] as number] as number) + 1 === most) return i;
    return 0;
  }

  /** Make room for a new hit. Real-time safe: yes. @returns its slot */
  add(triggerFrame: number): number {
    this.count++;
    let s = this.kept;
    if (this.kept === STORED_HITS) {
      const i = this.leaver();
      s = this.order[i] as number;
      this.order.copyWithin(i, i + 1, this.kept);
      this.kept--;
    }
    this.order[this.kept++] = s;
    this.serial[s] = this.count;
    this.pairs[s] = 0;
    this.likelyDelay[s] = Number.NaN;
    this.trigger[s] = triggerFrame;
    this.anchor[s] = triggerFrame;
    this.fate[s] = FATE.pending;
    this.hasArrival[s] = 0;
    this.hasSum[s] = 0;
    this.far[s] = 0;
    this.between[s] = 0;
    this.pickDelay[s] = Number.NaN;
    this.pickSign[s] = 0;
    this.pickQuality[s] = 0;
    this.pickHidden[s] = 0;
    this.arrivalA[s] = Number.NaN;
    this.arrivalB[s] = Number.NaN;
    this.pushA[s] = 0;
    this.pushB[s] = 0;
    this.qualityA[s] = 0;
    this.qualityB[s] = 0;
    this.noiseBound[s] = 0;
    this.riseDifference[s] = 0;
    this.lowDelay[s] = Number.NaN;
    this.lowSign[s] = 0;
    this.lowAlone[s] = 0;
    this.highLed[s] = 0;
    this.drum[s] = -1;
    this.mixed[s] = 0;
    this.waveDelay[s] = Number.NaN;
    this.waveSign[s] = 0;
    this.waveRival[s] = 1;
    this.levelA[s] = Number.NaN;
    this.levelB[s] = Number.NaN;
    this.tiltA[s] = 0;
    this.tiltB[s] = 0;
    this.snrDb[s] = 0;
    this.clipped[s] = 0;
    this.dropped[s] = 0;
    this.oneSided[s] = 0;
    return s;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.count = 0;
    this.kept = 0;
  }
}
