/** What a gauge of the inputs' noise would say, window by window, made up: a room, two mics, and what people do there. */
import { INPUT_BAND_COUNT } from '../../../src/reading/bands';
import type { InputNoise } from '../../../src/reading/reading';
import { seeded } from '../sound/signals';

export const WINDOW_SECONDS = 0.256;

/** dB of chance in a band's quietest 32 ms: the wider the band, the less (from white noise through the gauge) */
const CHANCE_DB = [1.8, 1.4, 1.1, 0.9, 0.7, 0.5];

/** Noise between the hits, dBFS in each octave, as in three real recordings of drums. */
export const NOISES = {
  close: { one: [-98, -104, -107, -105, -101, -97], two: [-95, -99, -105, -104, -101, -98] },
  room: { one: [-83, -81, -82, -89, -99, -105], two: [-76, -77, -84, -91, -97, -102] },
  other: { one: [-96, -99, -99, -100, -101, -98], two: [-95, -96, -96, -97, -98, -96] },
} as const;

/** Of a session: what is added, dB over silence, and the preamps' gains. */
export interface Doing {
  gainDb: [number, number];
  /** added to both, dBFS a band; null: nothing */
  added: readonly number[] | null;
  /** dB by which each channel stands above its noise in this window: a hit, a ring, a voice */
  over: [number, number];
  zeroSeconds?: number;
}

export class NoiseWindows {
  private readonly random: () => number;
  private windows = 0;

  constructor(seed: number) {
    this.random = seeded(seed);
  }

  chance = (): number => this.random();
  between = (low: number, high: number): number => low + (high - low) * this.random();

  private normal(): number {
    return Math.sqrt(-2 * Math.log(this.random() + 1e-12)) * Math.cos(2 * Math.PI * this.random());
  }

  next(noise: { one: readonly number[]; two: readonly number[] }, doing: Partial<Doing> = {}): InputNoise {
    const { gainDb = [0, 0], added = null, over = [0, 0], zeroSeconds = 0 } = doing;
    const powers = (base: readonly number[], channel: 0 | 1): number[] =>
      base.map((db, k) => {
        const inRoom = added ? 10 ** ((added[k] as number) / 10) : 0;
        const tilt = over[channel] > 0 ? over[channel] - 3 * k + this.between(-4, 4) : 0;
        const steady = 10 * Math.log10(10 ** (db / 10) + inRoom) + (CHANCE_DB[k] as number) * this.normal();
        return 10 ** ((steady + Math.max(0, tilt) + gainDb[channel]) / 10);
      });
    const floorA = powers(noise.one, 0);
    const floorB = powers(noise.two, 1);
    const product = new Array<number>(INPUT_BAND_COUNT).fill(0);
    return { windows: ++this.windows, zeroSeconds, a: floorA, b: floorB, product, floorA, floorB };
  }
}

/**
 * An hour at the kit: stretches of playing and of quiet; gains turned ten times in each channel, by hand, by 3 to 20 dB, and
 * twice in both that are linked; phantom on and off; talk into one mic; hum, a fan, an amplifier's hiss on and off; 20 dropouts.
 */
export function* hourAtTheKit(seed: number): Generator<InputNoise> {
  const made = new NoiseWindows(seed);
  const total = Math.round(3600 / WINDOW_SECONDS);
  const when = (count: number): Set<number> =>
    new Set(Array.from({ length: count }, () => Math.floor(made.between(60, total - 60))));
  const [turns, links, phantoms, talks, hums, fans, hisses, breaks] = [20, 4, 4, 8, 10, 10, 10, 20].map(
    when,
  ) as Set<number>[];
  const gain = [0, 0];
  const wanted = [0, 0];
  let turned = 0;
  let [talkFor, thump, playFor, quietFor, fan, fanWanted, ring] = [0, 0, 0, 20, 0, 0, 0];
  let [hum, hiss] = [false, false];
  for (let w = 0; w < total; w++) {
    if (turns?.has(w)) {
      const channel = turned++ % 2;
      wanted[channel] = (wanted[channel] as number) + made.between(3, 20) * ((wanted[channel] as number) > 0 ? -1 : 1);
    }
    if (links?.has(w)) {
      const by = (gain[0] as number) > 6 ? -10 : 10;
      for (const c of [0, 1]) {
        gain[c] = (gain[c] as number) + by;
        wanted[c] = (wanted[c] as number) + by;
      }
    }
    if (phantoms?.has(w)) thump = 4;
    if (talks?.has(w)) talkFor = 80;
    if (hums?.has(w)) hum = !hum;
    if (fans?.has(w)) fanWanted = 1 - fanWanted;
    if (hisses?.has(w)) hiss = !hiss;
    // by hand: 6 dB a window at most
    for (const c of [0, 1]) gain[c] = toward(gain[c] as number, wanted[c] as number, 6);
    fan = toward(fan, fanWanted, 0.1);
    if (playFor > 0 && --playFor === 0) quietFor = made.between(10, 60);
    else if (quietFor > 0 && --quietFor <= 0) playFor = Math.round(made.between(40, 400));
    const hit = playFor > 0 && made.chance() < 0.5;
    ring = hit ? made.between(10, 45) : Math.max(0, ring - made.between(8, 20));
    const over: [number, number] = [ring, Math.max(0, ring - 6)];
    if (talkFor-- > 0 && made.chance() < 0.6) over[0] = Math.max(over[0], made.between(8, 35));
    if (thump-- > 0) over[1] = Math.max(over[1], 15 * thump);
    const added = [0, 0, 0, 0, 0, 0].map((_, k) => {
      const parts = [
        -150,
        hum && k === 0 ? -70 : -150,
        hiss ? -88 - 2 * k : -150,
        fan > 0 ? -74 - 6 * k - 20 * (1 - fan) : -150,
      ];
      return 10 * Math.log10(parts.reduce((sum, db) => sum + 10 ** (db / 10), 0));
    });
    const gainDb: [number, number] = [gain[0] as number, gain[1] as number];
    yield made.next(NOISES.close, { gainDb, added, over, zeroSeconds: breaks?.has(w) ? 0.021 : 0 });
  }
}

const toward = (from: number, to: number, most: number): number => from + Math.max(-most, Math.min(most, to - from));
