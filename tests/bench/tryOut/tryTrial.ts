/** What is told of something tried, beside what it really comes to over the very same hits. */
import { type PairKindId, pairKind } from '../../../src/advice/plan/pairKinds';
import { plan } from '../../../src/advice/plan/plan';
import type { Tried } from '../../../src/advice/tryOut/tried';
import { shiftSecondsOf, type TriedLevel, tryOut } from '../../../src/advice/tryOut/tryOut';
import { Engine } from '../../../src/dsp/engine';
import { BANDS, SUM_BAND } from '../../../src/reading/bands';
import { POOL_HITS } from '../../../src/reading/limits';
import type { Reading } from '../../../src/reading/reading';
import { AddedUp, type Band } from '../../support/sound/addedUp';
import type { Sound } from '../../support/sound/recordedPairs';

export const TEMPERATURE_C = 20;
const BLOCK_FRAMES = 4096;

/** low octave, whole, BANDS: a band of a thing that was tried */
export interface TriedBand {
  band: 'low end' | 'overall' | (typeof BANDS)[number]['name'];
  /** energy-weighted |γ|² over the hits (AddedUp.coherence) */
  coherence: number;
  /** really, dB re the power sum */
  trueDb: number;
  /** null: nothing is told */
  toldDb: number | null;
  /** told as a bound only */
  deep: boolean;
}

export interface Heard {
  reading: Reading;
  /** there is something to be tried: known without the truth */
  answers: boolean;
  /** hits behind the sum, s; those that `otherwise` names where there is none */
  times: number[];
}

export function hear({ a, b, sampleRate }: Sound, kind: PairKindId, otherwise: readonly number[]): Heard {
  const engine = new Engine(sampleRate, { maxLagMs: pairKind(kind).maxLagMs });
  for (let at = 0; at < a.length; at += BLOCK_FRAMES)
    engine.push(a.subarray(at, at + BLOCK_FRAMES), b.subarray(at, at + BLOCK_FRAMES));
  engine.flush();
  const reading = engine.reading();
  const answers = plan(reading, { kind, temperatureC: TEMPERATURE_C, invertB: false }).type === 'answer';
  const used = engine.usedHits();
  const ofDrum = reading.perHit.filter(({ drum }) => drum !== null && drum === reading.drum).slice(-POOL_HITS);
  const hits = used.length > 0 ? reading.perHit.filter(({ serial }) => used.includes(serial)) : ofDrum;
  const times = hits.map(({ timeSeconds }) => timeSeconds);
  return { reading, answers, times: answers && times.length > 0 ? times : otherwise.slice(-POOL_HITS) };
}

export function bandsOf({ sum: { fullerLowHz, fullerHighHz } }: Reading): { name: TriedBand['band']; band: Band }[] {
  const octave = fullerLowHz === null || fullerHighHz === null ? null : { lowHz: fullerLowHz, highHz: fullerHighHz };
  return [
    ...(octave ? [{ name: 'low end' as const, band: octave }] : []),
    { name: 'overall', band: SUM_BAND },
    ...BANDS.map((band) => ({ name: band.name, band })),
  ];
}

/** What is told of one thing tried, in the order of `bandsOf`. */
export function toldOf({ reading, answers }: Heard, tried: Tried): { toldDb: number | null; deep: boolean }[] {
  const { low, all, bands } = tryOut(reading, { invertB: false, temperatureC: TEMPERATURE_C }, tried);
  const list: TriedLevel[] = reading.sum.fullerLowHz === null ? [all, ...bands] : [low, all, ...bands];
  return list.map(({ triedDb, triedDeep }) => ({ toldDb: answers ? triedDb : null, deep: triedDeep }));
}

/** B alone made earlier or later by so much, inverted and trimmed. */
export function tryInRecording({ a, b, sampleRate }: Sound, heard: Heard, tries: readonly Tried[]): TriedBand[] {
  if (heard.times.length === 0) return [];
  const added = new AddedUp(a, b, sampleRate, heard.times);
  const named = bandsOf(heard.reading);
  const bands = named.map(({ band }) => band);
  const coherence = bands.map((band) => added.coherence(band));
  return tries.flatMap((tried) => {
    const told = toldOf(heard, tried);
    const delayMs = -shiftSecondsOf(tried, TEMPERATURE_C) * 1000;
    const levels = added.withBLaterDb(bands, { invertB: tried.invertB, delayMs, trimDb: tried.trimDb });
    return named.map(
      ({ name }, i): TriedBand => ({
        band: name,
        coherence: coherence[i] as number,
        trueDb: levels[i] as number,
        toldDb: told[i]?.toldDb ?? null,
        deep: told[i]?.deep ?? false,
      }),
    );
  });
}
