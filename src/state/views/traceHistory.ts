/**
 * The last 30 s of the correlation trace. Filled in the message handler, not in a frame callback: a hidden tab gets no
 * frames but keeps its history. Times run on one axis across restarts, seconds.
 */
import { fateHere } from '../../advice/plan/hitFates';
import { BAND_COUNT } from '../../reading/bands';
import type { HitReading, Reading } from '../../reading/reading';

export const HISTORY_SECONDS = 30;
/** closer trace points than this are not kept apart, s */
const POINT_SECONDS = 1 / 25;
/** without a reading for this long the line is broken, s */
const BREAK_SECONDS = 0.5;
/** gaps closer than this are one, s */
const GAP_JOINED_SECONDS = 0.25;

export type MarkKind = 'invert' | 'restart' | 'swap' | 'hold' | 'drum';
export interface TraceMark {
  atSeconds: number;
  kind: MarkKind;
}
export interface TraceHit {
  atSeconds: number;
  serial: number;
  fate: HitReading['fate'];
  /** it was part of an answer, if only until something moved */
  counted: boolean;
  /** broadband, then the order of BANDS */
  values: (number | null)[];
}
export interface TraceGap {
  fromSeconds: number;
  toSeconds: number;
}

/** A hit that grew old keeps what it was; any other verdict stands for itself. */
function countedAfter(before: boolean, fate: HitReading['fate']): boolean {
  return fate === 'used' || (fate === 'old' && before);
}

export class TraceHistory {
  /** point times, s */
  readonly times: number[] = [];
  /** broadband, then the order of BANDS */
  readonly values: (number | null)[][] = Array.from({ length: BAND_COUNT + 1 }, () => []);
  readonly marks: TraceMark[] = [];
  readonly gaps: TraceGap[] = [];
  hits: TraceHit[] = [];
  nowSeconds = 0;
  private offsetSeconds = 0;
  private lastStreamSeconds = 0;
  private epochHits: TraceHit[] = [];
  /** what was heard before an invert keeps the sign it had */
  private frozenSeconds = Number.NEGATIVE_INFINITY;

  /** Take the newest reading in. */
  push(reading: Reading): void {
    const stream = reading.streamSeconds;
    if (stream < this.lastStreamSeconds) this.nextEpoch();
    this.lastStreamSeconds = stream;
    const now = this.offsetSeconds + stream;
    this.nowSeconds = now;
    this.pushPoint(now, reading);
    this.pushGap(now, reading.inputs.gap);
    this.pushHits(reading);
    this.prune(now - HISTORY_SECONDS);
  }

  /** Note what a person did, at the present time. */
  mark(kind: MarkKind): void {
    this.marks.push({ atSeconds: this.nowSeconds, kind });
    if (kind === 'invert') this.frozenSeconds = this.nowSeconds;
  }

  /** Forget everything: another source. */
  clear(): void {
    this.times.length = 0;
    for (const line of this.values) line.length = 0;
    this.marks.length = 0;
    this.gaps.length = 0;
    this.hits = [];
    this.epochHits = [];
    this.frozenSeconds = Number.NEGATIVE_INFINITY;
    this.nowSeconds = 0;
    this.offsetSeconds = 0;
    this.lastStreamSeconds = 0;
  }

  private nextEpoch(): void {
    this.offsetSeconds = this.nowSeconds;
    this.epochHits = [];
    this.breakLine(this.nowSeconds);
  }

  private breakLine(at: number): void {
    this.times.push(at);
    for (const line of this.values) line.push(null);
  }

  private pushPoint(now: number, reading: Reading): void {
    const last = this.times.at(-1);
    if (last !== undefined && now - last < POINT_SECONDS) return;
    if (last !== undefined && now - last > BREAK_SECONDS) this.breakLine(last + POINT_SECONDS / 2);
    this.times.push(now);
    this.values[0]?.push(reading.inputs.gap ? null : reading.trace.broadband);
    for (let b = 0; b < BAND_COUNT; b++)
      this.values[b + 1]?.push(reading.inputs.gap ? null : (reading.trace.bands[b] ?? null));
  }

  private pushGap(now: number, gap: boolean): void {
    const last = this.gaps.at(-1);
    if (!gap) return;
    if (last && now - last.toSeconds < GAP_JOINED_SECONDS) last.toSeconds = now;
    else this.gaps.push({ fromSeconds: now, toSeconds: now });
  }

  private pushHits(reading: Reading): void {
    for (const hit of reading.perHit) {
      const fate = fateHere(hit, reading);
      const values = [hit.correlation, ...hit.bandCorrelation];
      const known = this.epochHits.find((h) => h.serial === hit.serial);
      if (known) {
        known.fate = fate;
        known.counted = countedAfter(known.counted, fate);
        if (known.atSeconds > this.frozenSeconds) known.values = values;
      } else {
        const { serial } = hit;
        const atSeconds = this.offsetSeconds + hit.timeSeconds;
        const next = { atSeconds, serial, fate, counted: countedAfter(false, fate), values };
        this.epochHits.push(next);
        this.hits.push(next);
      }
    }
  }

  private prune(before: number): void {
    // drop in lumps: shifting one element per message would move the whole array each time
    let drop = 0;
    while (drop < this.times.length && (this.times[drop] as number) < before - 1) drop++;
    if (drop > 50) {
      this.times.splice(0, drop);
      for (const line of this.values) line.splice(0, drop);
    }
    if (this.hits.length > 0 && (this.hits[0] as TraceHit).atSeconds < before) {
      this.hits = this.hits.filter((h) => h.atSeconds >= before);
      this.epochHits = this.epochHits.filter((h) => h.atSeconds >= before - HISTORY_SECONDS);
    }
    while (this.marks.length > 0 && (this.marks[0] as TraceMark).atSeconds < before) this.marks.shift();
    while (this.gaps.length > 0 && (this.gaps[0] as TraceGap).toSeconds < before) this.gaps.shift();
  }
}
