/** Versions at one loudness, so that louder isn't taken for better. */
import { kMeanSquare, loudnessLkfs } from './loudness';
import { steadyLoop } from './steady';
import type { Loop } from './stretch';
import { mixOf, PUTS, type Put, type Start, type Version } from './version';

/** nothing comes out over this, dBFS */
export const CEILING_DBFS = -1;
/** what is softer than that against the first version is left softer: it would be noise, dB */
export const MOST_RAISE_DB = 24;
/** all of them are turned down for the others' peaks by no more than that below what the first one needs itself, dB */
const MOST_DOWN_DB = 12;
const ROUNDING_DB = 1e-9;
/** softer is silence, LKFS: the absolute gate of BS.1770 */
const SILENT_LKFS = -70;

export interface Matched {
  /** added to what the version comes to by itself, dB; null: it is silent, or the first one is */
  gainDb: number | null;
  /** softer than the others all the same, by so much, dB; 0: it isn't; ∞: it is silent */
  shortDb: number;
}

/** Loudness and peak of a version before it is matched. */
interface Measured {
  lkfs: number;
  peakDbfs: number;
}

/** Measures a loop's versions; what was measured is kept, since all but one stay the same while that one is moved. */
export class Matching {
  private readonly kept = new Map<string, Measured>();
  private readonly kA: number;
  private readonly kB: number;
  private readonly peakA: number;
  private readonly peakB: number;
  /** factor that brings B to A's level (mean square over the loop); 1 where one of them is silent */
  readonly equalB: number;
  /** what all are turned down by, dB: it falls by `rise` alone, so that no version comes back louder at once */
  private down: number;
  /** what they have to be turned down by for the versions that were matched last, dB */
  private needed = 0;

  /** @param downDb they were turned down by before, of the same sound */
  constructor(
    private readonly loop: Loop,
    private readonly offsetSamples = 0,
    downDb = 0,
  ) {
    this.down = downDb;
    const { a, b, sampleRate } = loop;
    this.kA = kMeanSquare(a, sampleRate);
    this.kB = kMeanSquare(b, sampleRate);
    this.peakA = peakOf(a);
    this.peakB = peakOf(b);
    const [powerA, powerB] = [power(a), power(b)];
    this.equalB = powerA > 0 && powerB > 0 ? Math.sqrt(powerA / powerB) : 1;
  }

  get downDb(): number {
    return this.down;
  }

  /** what all were turned down for is gone */
  get canRise(): boolean {
    return this.down > this.needed;
  }

  /** All of them up again by so much, and no further than there is room: to be matched again. */
  rise(db: number): void {
    this.down = Math.max(this.needed, this.down - db);
  }

  levelB(start: Start): number {
    return start === 'equal' ? this.equalB : 1;
  }

  /**
   * Every version, put every way, at the loudness of the first one; all of them down together where one would pass the
   * ceiling; they stay there until `rise`. What would take more than MOST_DOWN_DB is left softer instead.
   * @param to how the first one is put that the rest is matched with
   * @returns by version, in their order
   */
  match(versions: readonly Version[], start: Start, to: Put = 'both'): Readonly<Record<Put, Matched>>[] {
    const measured = versions.map((version) => PUTS.map((put) => this.measure(version, put, start)));
    const first = measured[0]?.[PUTS.indexOf(to)];
    const wanted = first?.lkfs ?? SILENT_LKFS;
    const gains = measured.map((puts) =>
      puts.map(({ lkfs }) =>
        lkfs < SILENT_LKFS || wanted < SILENT_LKFS ? null : Math.min(MOST_RAISE_DB, wanted - lkfs),
      ),
    );
    const own = Math.max(0, (first?.peakDbfs ?? CEILING_DBFS) - CEILING_DBFS);
    let over = own;
    measured.forEach((puts, i) => {
      puts.forEach(({ peakDbfs }, j) => {
        over = Math.max(over, peakDbfs + (gains[i]?.[j] ?? 0) - CEILING_DBFS);
      });
    });
    this.needed = Math.min(over, own + MOST_DOWN_DB);
    this.down = Math.max(this.down, this.needed);
    const { down } = this;
    return measured.map((puts, i) => {
      const of = (j: number): Matched => {
        const gain = gains[i]?.[j] ?? null;
        const { lkfs, peakDbfs } = puts[j] as Measured;
        if (gain === null) return { gainDb: null, shortDb: lkfs < SILENT_LKFS ? Number.POSITIVE_INFINITY : 0 };
        const gainDb = Math.min(gain - down, CEILING_DBFS - peakDbfs);
        const shortDb = wanted - down - lkfs - gainDb;
        return { gainDb, shortDb: shortDb > ROUNDING_DB ? shortDb : 0 };
      };
      return { both: of(0), a: of(1), b: of(2), apart: of(3) };
    });
  }

  private measure(version: Version, put: Put, start: Start): Measured {
    const b = this.levelB(start) * 10 ** (version.trimBDb / 20);
    const [ka, kb] = [this.kA, this.kB * b * b];
    // a delay changes neither: only the sum has to be made
    if (put === 'a') return { lkfs: loudnessLkfs(ka, ka), peakDbfs: db(this.peakA) };
    if (put === 'b') return { lkfs: loudnessLkfs(kb, kb), peakDbfs: db(this.peakB * b) };
    if (put === 'apart') return { lkfs: loudnessLkfs(ka, kb), peakDbfs: db(Math.max(this.peakA, this.peakB * b)) };
    const key = `${version.invertB} ${version.delayBSamples} ${b}`;
    const known = this.kept.get(key);
    if (known) return known;
    if (this.kept.size > 200) this.kept.clear();
    const { left } = steadyLoop(
      this.loop.a,
      this.loop.b,
      mixOf(version, 'both', this.levelB(start), 1, this.offsetSamples),
    );
    const k = kMeanSquare(left, this.loop.sampleRate);
    const found = { lkfs: loudnessLkfs(k, k), peakDbfs: db(peakOf(left)) };
    this.kept.set(key, found);
    return found;
  }
}

const db = (value: number): number => 20 * Math.log10(value);

function peakOf(x: ArrayLike<number>): number {
  let peak = 0;
  for (let i = 0; i < x.length; i++) peak = Math.max(peak, Math.abs(x[i] as number));
  return peak;
}

function power(x: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += (x[i] as number) ** 2;
  return sum;
}
