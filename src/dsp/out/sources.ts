/** What the frame and the verdict are made from: the parts of the engine, as they are read here. */
import type { Decision } from '../delay/decision';
import type { InputOffsetGauge } from '../delay/inputOffsetGauge';
import type { Pool } from '../delay/pool';
import type { DrumSorter } from '../drum/drumSorter';
import type { Gaps } from '../hit/gaps';
import type { HitAnalyser } from '../hit/hitAnalyser';
import type { HitStore } from '../hit/hitStore';
import type { BandGauge } from '../input/bandGauge';
import type { LevelMeter } from '../input/levels';
import type { OffsetLine } from '../input/offsetLine';
import type { Trace } from '../input/trace';
import type { DrumSum } from '../sum/drumSum';

/** One of the drums heard. */
export interface DrumSource {
  readonly pool: Pool;
  readonly decision: Decision;
  readonly sum: DrumSum;
}

/** The drums heard, which of them the reading is about, and what is wrong with the newest hits of all. */
export interface HeardSource {
  readonly sorter: DrumSorter;
  readonly each: readonly DrumSource[];
  readonly shown: DrumSource;
  /** number of the drum that is shown, −1: none */
  readonly shownAt: number;
  readonly chosen: boolean;
  /** it is open which of several drums is meant */
  readonly open: boolean;
  /** the newest hits, and how many of them clipped or were heard on one side only */
  readonly length: number;
  readonly clippedA: number;
  readonly clippedB: number;
  readonly onlyA: number;
  readonly onlyB: number;
}

/** What a verdict needs. */
export interface VerdictSources {
  readonly store: HitStore;
  readonly heard: HeardSource;
  readonly levelA: LevelMeter;
  readonly levelB: LevelMeter;
}

export interface FrameSources extends VerdictSources {
  readonly analyser: HitAnalyser;
  readonly trace: Trace;
  readonly offset: OffsetLine;
  readonly bands: BandGauge;
  readonly gauge: InputOffsetGauge | null;
  readonly gaps: Gaps;
}
