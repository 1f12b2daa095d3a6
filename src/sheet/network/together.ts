/**
 * Switches and delays of all microphones together, so that the pairs lose least of what each would have by itself. Every step
 * is judged by the delays that would really be set. A step gives one pair one of its ways: one of its two microphones takes it,
 * alone or with what hangs on it. A row of steps may lose for a while if it gains in the end. Nothing is drawn by lot.
 */
import { type Ends, setsOf } from './ends';

/** Switch and delay between a pair's two. */
export interface Way {
  /** the switch between the two is turned: one of them changes */
  turned: boolean;
  /** positive: A is delayed, negative: B */
  delayMs: number;
}

export interface KitPair extends Ends {
  /** worth trying; the first is what it would have by itself */
  ways: readonly Way[];
  /** false: the switch between the two is none of its business, another drum decides about it */
  asked: boolean;
  /** what it loses so, dB, 0 or more; 0: it has what it would have */
  lossDb(turned: boolean, delayMs: number): number;
}

/** What is set at each microphone; only differences of delays count. */
export interface Setting {
  signs: Int8Array;
  delayMs: Float64Array;
}

/** Microphones that take a step together. */
export interface Carrier {
  /** 1: it does, for each microphone */
  who: Uint8Array;
  /** pairs of which one microphone does, and the other doesn't */
  crossing: readonly number[];
}

export interface Step {
  by: Carrier;
  turned: boolean;
  byMs: number;
}

/** Of sets that come to the same the one that turns fewer of the drums' references, then fewer microphones, dB */
const REFERENCE_DB = 1e-4;
const SWITCH_DB = 1e-6;
/** Less is no gain, dB. */
const LEAST_DB = 1e-9;
/** So many steps in a row may lose before one that gains. */
const MOST_STEPS = 3;
/** Pairs looked at in all: past that what was found stands. Some tenths of a second; fewer of them where there are more pairs than … */
const MOST_LOOKS = 200_000;
const MANY_PAIRS = 100;
/** Delays are told to 0.01 ms: finer is rounding. */
const PER_MS = 1e6;

export class Together {
  private readonly microphones: number;
  private readonly pairs: readonly KitPair[];
  private readonly pairsOf: number[][];
  private readonly references: ReadonlySet<number>;
  /** microphones that can turn over together, and no pair that is asked sees it */
  private readonly groups: readonly Carrier[];
  private readonly carriersOf = new Map<number, Carrier[]>();
  private readonly known: Map<number, number>[];
  private looks = 0;
  private settled: { of: Setting; pairs: readonly boolean[] } | null = null;
  private readonly mostLooks: number;

  constructor(microphones: number, pairs: readonly KitPair[], references: ReadonlySet<number>) {
    this.microphones = microphones;
    this.pairs = pairs;
    this.mostLooks = MOST_LOOKS * Math.min(1, MANY_PAIRS / Math.max(1, pairs.length));
    this.references = references;
    this.pairsOf = Array.from({ length: microphones }, (_, m) =>
      pairs.flatMap(({ a, b }, i) => (a === m || b === m ? [i] : [])),
    );
    this.known = pairs.map(() => new Map());
    const asked = pairs.filter((one) => one.asked);
    this.groups = setsOf(microphones, asked).map(this.carrier);
  }

  asIs(): Setting {
    return { signs: new Int8Array(this.microphones).fill(1), delayMs: new Float64Array(this.microphones) };
  }

  wayOf(i: number, { signs, delayMs }: Setting): Way {
    const { a, b } = this.pairs[i] as KitPair;
    return {
      turned: signs[a] !== signs[b],
      delayMs: Math.round(((delayMs[a] as number) - (delayMs[b] as number)) * PER_MS) / PER_MS,
    };
  }

  lossOf(i: number, setting: Setting): number {
    const { turned, delayMs } = this.wayOf(i, setting);
    return this.loss(i, turned, delayMs);
  }

  /** What all of them lose, and next to nothing for each switch. */
  total(setting: Setting): number {
    let sum = 0;
    for (let i = 0; i < this.pairs.length; i++) sum += this.lossOf(i, setting);
    for (let m = 0; m < this.microphones; m++) if (setting.signs[m] === -1) sum += this.switchDb(m);
    return sum;
  }

  /** From there to where no row of steps gains. */
  improved(from: Setting): Setting {
    let at = from;
    for (let next = this.better(at); next; next = this.better(at)) at = next;
    return at;
  }

  /**
   * Why a pair doesn't have its way: of the steps that would give it that the one that costs the others least, and the pair
   * that would lose most by it. Null: nobody would.
   */
  against(i: number, setting: Setting): { pair: number; step: Step; lossDb: number } | null {
    const { turned } = this.wayOf(i, setting);
    const pair = this.pairs[i] as KitPair;
    const way = pair.ways.find((one) => pair.asked || one.turned === turned) as Way;
    let found: { pair: number; step: Step; lossDb: number } | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const step of this.stepsTo(i, way, setting, this.settledIn(setting))) {
      const costs = this.gainOf(step, setting);
      if (costs >= least - LEAST_DB) continue;
      const then = stepped(setting, step);
      const losers = step.by.crossing
        .map((k) => {
          const lossDb = this.lossOf(k, then);
          return { pair: k, step, lossDb, more: lossDb - this.lossOf(k, setting) };
        })
        .filter((one) => one.pair !== i && one.more > LEAST_DB);
      const [worst] = losers.sort((p, q) => q.more - p.more);
      if (!worst) continue;
      [found, least] = [worst, costs];
    }
    return found;
  }

  /** The nearest setting that loses less: by one step, or by a row of them that begins with a pair that loses. */
  private better(from: Setting): Setting | null {
    const first = this.bestStep(from, new Set());
    if (first && first.db < -LEAST_DB) return stepped(from, first.step);
    for (let i = 0; i < this.pairs.length; i++) {
      if (this.lossOf(i, from) === 0) continue;
      const taken = new Set<number>();
      let at = from;
      let db = 0;
      for (let row = 0; row < MOST_STEPS && this.looks < this.mostLooks; row++) {
        const next = this.bestStep(at, taken, row === 0 ? i : null);
        if (!next) break;
        at = stepped(at, next.step);
        db += next.db;
        if (db < -LEAST_DB) return at;
        taken.add(next.pair);
      }
    }
    return null;
  }

  /** The step that gains most or loses least, for a pair that loses something and hasn't had one. */
  private bestStep(
    at: Setting,
    taken: ReadonlySet<number>,
    only: number | null = null,
  ): { step: Step; db: number; pair: number } | null {
    let best: { step: Step; db: number; pair: number } | null = null;
    const look = (pair: number, step: Step): void => {
      const db = this.gainOf(step, at);
      if (best === null || db < best.db - LEAST_DB) best = { step, db, pair };
    };
    const settled = this.settledIn(at);
    for (const [i, pair] of this.pairs.entries()) {
      if (this.looks >= this.mostLooks) break;
      if ((only !== null && only !== i) || taken.has(i) || settled[i]) continue;
      const { turned } = this.wayOf(i, at);
      for (const way of pair.ways)
        if (pair.asked || way.turned === turned) for (const step of this.stepsTo(i, way, at, settled)) look(i, step);
    }
    if (only === null) for (const by of this.groups) look(-1, { by, turned: true, byMs: 0 });
    return best;
  }

  /** A's side takes it, or B's: alone, with all that has its own way and hangs on it, with all that hangs on it. */
  private stepsTo(i: number, way: Way, at: Setting, settled: readonly boolean[]): Step[] {
    const { a, b } = this.pairs[i] as KitPair;
    const is = this.wayOf(i, at);
    const turned = is.turned !== way.turned;
    const byMs = way.delayMs - is.delayMs;
    if (!turned && byMs === 0) return [];
    const side = (from: number, without: number, ms: number): Step[] => {
      const fixed = this.fixedCarriers(i, from, without);
      const who = this.reached(from, without, (k) => k !== i && settled[k] === true);
      const carriers = fixed.some((one) => isSame(one.who, who)) ? fixed : [...fixed, this.carrier(who)];
      return carriers.map((by) => ({ by, turned, byMs: ms }));
    };
    return [...side(a, b, byMs), ...side(b, a, -byMs)];
  }

  /** The microphone alone, and with all that hangs on it; never with the other one. */
  private fixedCarriers(pair: number, from: number, without: number): Carrier[] {
    const key = this.microphones * pair + from;
    const known = this.carriersOf.get(key);
    if (known) return known;
    const sets = [this.reached(from, without, () => false), this.reached(from, without, (k) => k !== pair)];
    const carriers = sets
      .filter((who, n) => n === 0 || !isSame(who, sets[0] as Uint8Array))
      .map((who) => this.carrier(who));
    this.carriersOf.set(key, carriers);
    return carriers;
  }

  private carrier = (who: Uint8Array): Carrier => ({ who, crossing: this.crossing(who) });

  private reached(from: number, without: number, by: (pair: number) => boolean): Uint8Array {
    const found = new Uint8Array(this.microphones);
    found[from] = 1;
    const waiting = [from];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop())
      for (const k of this.pairsOf[at] as number[]) {
        const { a, b } = this.pairs[k] as KitPair;
        const other = a === at ? b : a;
        if (other === without || found[other] === 1 || !by(k)) continue;
        found[other] = 1;
        waiting.push(other);
      }
    return found;
  }

  /** Of one setting it is asked for many pairs in a row. */
  private settledIn(setting: Setting): readonly boolean[] {
    if (this.settled?.of !== setting)
      this.settled = { of: setting, pairs: this.pairs.map((_, k) => this.lossOf(k, setting) === 0) };
    return this.settled.pairs;
  }

  /** dB that are lost more by it; below 0: it gains. */
  private gainOf({ by: { who, crossing }, turned, byMs }: Step, { signs, delayMs }: Setting): number {
    let db = 0;
    this.looks += crossing.length;
    for (const i of crossing) {
      const { a, b } = this.pairs[i] as KitPair;
      const is = signs[a] !== signs[b];
      const ms = (delayMs[a] as number) - (delayMs[b] as number);
      db += this.loss(i, is !== turned, who[a] === 1 ? ms + byMs : ms - byMs) - this.loss(i, is, ms);
    }
    if (turned)
      for (let m = 0; m < this.microphones; m++)
        if (who[m] === 1) db += signs[m] === 1 ? this.switchDb(m) : -this.switchDb(m);
    return db;
  }

  private crossing(who: Uint8Array): number[] {
    const found: number[] = [];
    for (let m = 0; m < this.microphones; m++)
      if (who[m] === 1)
        for (const i of this.pairsOf[m] as number[]) {
          const { a, b } = this.pairs[i] as KitPair;
          if (who[a] !== who[b]) found.push(i);
        }
    return found;
  }

  private loss(i: number, turned: boolean, delayMs: number): number {
    const whole = Math.round(delayMs * PER_MS);
    const key = 2 * whole + (turned ? 1 : 0);
    const known = this.known[i] as Map<number, number>;
    const before = known.get(key);
    if (before !== undefined) return before;
    const db = (this.pairs[i] as KitPair).lossDb(turned, whole / PER_MS);
    known.set(key, db);
    return db;
  }

  private switchDb = (m: number): number => (this.references.has(m) ? REFERENCE_DB : SWITCH_DB);
}

const isSame = (one: Uint8Array, other: Uint8Array): boolean => one.every((x, m) => x === other[m]);

export function stepped({ signs, delayMs }: Setting, { by: { who }, turned, byMs }: Step): Setting {
  return {
    signs: signs.map((sign, m) => (turned && who[m] === 1 ? -sign : sign)),
    delayMs: delayMs.map((ms, m) => (who[m] === 1 ? Math.round((ms + byMs) * PER_MS) / PER_MS : ms)),
  };
}
