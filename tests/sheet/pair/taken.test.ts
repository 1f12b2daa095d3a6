import { describe, expect, test } from 'vitest';
import { advise } from '../../../src/advice/advise';
import { swappedSum } from '../../../src/advice/plan/sumByDelay';
import { LOW_OCTAVES_HZ, NEAR_BANDS, NEAR_POINTS, SPECTRUM_POINTS, spectrumHz } from '../../../src/reading/bands';
import { answerOf } from '../../../src/reading/reading';
import { SUM_PICTURE_HZ } from '../../../src/sheet/document/model';
import { type TakenWith, takenFrom } from '../../../src/sheet/pair/taken';
import { CM_PER_SAMPLE, measured, NO_SUM, RATE, reading } from '../../advice/readings';
import { changed } from '../../support/readings/flat';

const GIVEN: TakenWith = {
  takenAt: '2026-01-02T03:04:05Z',
  run: 'run 1',
  kind: 'top-bottom',
  shown: null,
  initials: 'lv',
  temperatureC: 20,
  aInverted: true,
  bInverted: false,
  meterInvert: false,
  turned: false,
};

/** 12 cm later, inverted, fuller inverted by 6 dB in 177–354 Hz. */
const SURE = measured('inverted', 12, {
  ...NO_SUM,
  hits: 9,
  hitsUsed: 8,
  agreement: 0.9,
  uncertaintySamples: 4.8,
  fuller: 'inverted',
  fullerDb: 6,
  fullerLowHz: LOW_OCTAVES_HZ[2] as number,
  fullerHighHz: 2 * (LOW_OCTAVES_HZ[2] as number),
  lowOctaves: [null, 0.2, -0.6, -0.1],
});

test('a sure reading in ms, with its evidence, and how the switches stood', () => {
  const taken = takenFrom(SURE, GIVEN);
  expect(taken).toMatchObject({
    takenAt: GIVEN.takenAt,
    initials: 'lv',
    sure: true,
    reason: '',
    polarity: 'inverted',
    hits: 9,
    hitsUsed: 8,
    agreement: 0.9,
    fuller: 'inverted',
    fullerDb: 6,
    lowCoherency: -0.6,
    octaveCoherency: [null, 0.2, -0.6, -0.1],
    aInverted: true,
    bInverted: false,
    sampleRate: RATE,
  });
  expect(taken.delayMs).toBeCloseTo((12 / CM_PER_SAMPLE / RATE) * 1000, 9);
  // 4.8 samples at 48 kHz
  expect(taken.uncertaintyMs).toBeCloseTo(0.1, 12);
  expect(Object.keys(taken)).not.toContain('meterInvert');
});

test('the meter’s own invert is taken out again: what is kept is what the inputs carry', () => {
  const [plain, turned] = [takenFrom(SURE, GIVEN), takenFrom(SURE, { ...GIVEN, meterInvert: true })];
  expect(turned).toMatchObject({ polarity: 'same', fuller: 'as-is', fullerDb: 6, lowCoherency: 0.6 });
  expect(turned.octaveCoherency).toEqual([null, -0.2, 0.6, 0.1]);
  expect(turned.delayMs).toBe(plain.delayMs);
});

describe('what can be done about it', () => {
  // as things stand −0.5 in the drum’s low octave, −0.3 overall; wherever the arrivals about meet 0.9
  const at = answerOf(SURE).delaySamples as number;
  const near = {
    centreSamples: at,
    stepSamples: 1,
    bands: Array.from({ length: NEAR_BANDS }, () => new Float64Array(NEAR_POINTS).fill(0.9)),
  };
  const READ = changed(SURE, { now: [-0.5, -0.3, null, null, null, null], near });
  const given: TakenWith = { ...GIVEN, kind: 'close-overhead' };
  const delayMs = Math.round((at / RATE) * 100_000) / 100;

  test('every alternative by its sums for either way of the switch, and what the meter recommends, whole', () => {
    const { timings, plan } = takenFrom(READ, given);
    expect(timings[0]).toMatchObject({ delayMs: null, moveCm: null });
    // by hand: 10·lg 0.5 and 1.5, 0.7 and 1.3, 1.9 and 0.1
    expect(timings[0]?.asIs.lowDb).toBeCloseTo(-3.0103, 4);
    expect(timings[0]?.inverted.allDb).toBeCloseTo(1.1394, 4);
    expect(timings[1]).toMatchObject({ delayMs, moveCm: null });
    expect(timings[1]?.asIs.lowDb).toBeCloseTo(2.7875, 4);
    expect(timings[1]?.inverted.allDb).toBeCloseTo(-10, 4);
    expect(plan).toEqual({ invertB: false, delayMs, moveCm: null });
    // the very one that stands on the meter
    const [shown] = advise(READ, { kind: given.kind, temperatureC: 20, invertB: false }).plan;
    expect(shown).toMatchObject(plan as object);
  });

  test('what any other delay near the arrival would come to is kept with it', () => {
    const { sumByDelay } = takenFrom(READ, given);
    expect(sumByDelay).toMatchObject({ low: new Array(NEAR_POINTS).fill(0.9), all: new Array(NEAR_POINTS).fill(0.9) });
    expect(sumByDelay?.fromMs).toBeCloseTo(((at - 60) / RATE) * 1000, 9);
    expect(sumByDelay?.stepMs).toBeCloseTo(1000 / RATE, 12);
    // of two that are too far apart, or whose arrival doesn't hold, nothing is offered and nothing kept
    expect(takenFrom(changed(READ, { state: 'unclear', reason: 'hits-disagree' }), given).sumByDelay).toBeNull();
    expect(takenFrom(changed(READ, { near: null }), given).sumByDelay).toBeNull();
  });

  test('the meter’s own invert is no part of it', () => {
    const turned = changed(READ, { now: [0.5, 0.3, null, null, null, null], polarity: 'same' });
    const flipped = { ...near, bands: near.bands.map((band) => band.map((x) => -x)) };
    const { timings, sumByDelay, plan } = takenFrom(changed(turned, { near: flipped }), {
      ...given,
      meterInvert: true,
    });
    const plain = takenFrom(READ, given);
    expect({ timings, sumByDelay, plan }).toEqual({
      timings: plain.timings,
      sumByDelay: plain.sumByDelay,
      plan: plain.plan,
    });
  });

  test('the meter’s A is the pair’s B: delays and moves turn, what they gain doesn’t', () => {
    const [one, other] = [takenFrom(READ, given), takenFrom(READ, { ...given, turned: true })];
    expect(other.plan).toEqual({ ...one.plan, delayMs: -delayMs });
    expect(other.timings).toEqual(
      one.timings.map((it) => ({ ...it, delayMs: it.delayMs === null ? null : -it.delayMs })),
    );
    expect(other.sumByDelay).toEqual(one.sumByDelay && swappedSum(one.sumByDelay));
    const close = { ...given, kind: 'same-side' as const };
    const moves = (turned: boolean): (number | null)[] =>
      takenFrom(READ, { ...close, turned }).timings.map(({ moveCm }) => moveCm);
    expect(moves(false).filter((cm) => cm !== null)).toEqual([12]);
    expect(moves(true)).toEqual(moves(false).map((cm) => (cm === null ? null : -cm)));
  });

  test('what stands on the meter is what is kept, though another is as good', () => {
    const standing = { invertB: true, delayMs: null, moveCm: null };
    const gains = { lowDb: 0, allDb: 0, bandsDb: [] };
    const shown = (chosen: boolean) => ({ plan: [{ ...standing, ...gains }], fine: false, chosen });
    const even = changed(READ, { now: [-0.6, -0.6, null, null, null, null], near: null });
    expect(takenFrom(even, { ...given, shown: shown(false) }).plan).toEqual(standing);
    const slight = changed(READ, { now: [-0.05, -0.05, null, null, null, null], near: null });
    expect(takenFrom(slight, given).plan).toMatchObject({ invertB: false });
    expect(takenFrom(slight, { ...given, shown: shown(false) }).plan).toEqual(standing);
    // a person chose it there, though it loses
    const loses = changed(READ, { now: [0.5, 0.5, null, null, null, null], near: null });
    expect(takenFrom(loses, { ...given, shown: shown(false) }).plan).toMatchObject({ invertB: false });
    expect(takenFrom(loses, { ...given, shown: shown(true) }).plan).toEqual(standing);
  });

  test('nothing is carried: nothing is kept, and nothing recommended', () => {
    expect(takenFrom(reading(), given)).toMatchObject({ timings: [], plan: null });
  });
});

test('a demo scene played the other way round: the delays turn, nothing else does', () => {
  const turned = takenFrom(SURE, { ...GIVEN, turned: true });
  expect(turned.delayMs).toBeCloseTo(-(12 / CM_PER_SAMPLE / RATE) * 1000, 9);
  expect({ ...turned, delayMs: 0, timings: [] }).toEqual({ ...takenFrom(SURE, GIVEN), delayMs: 0, timings: [] });
});

test.each(['unclear', 'following', 'listening', 'overloaded', 'no-signal'] as const)(
  '%s: no polarity and no delay is kept, whatever the reading carries, but the reason is',
  (state) => {
    const reason = state === 'unclear' ? 'lows-only-b' : state === 'no-signal' ? 'b-silent' : 'too-few-hits';
    const taken = takenFrom(changed(SURE, { state, reason }), GIVEN);
    expect(taken).toMatchObject({ sure: false, polarity: null, delayMs: null, uncertaintyMs: null, spreadMs: null });
    expect(taken.reason).not.toBe('');
    // the sum is another question, and keeps its answer
    expect(taken.fuller).toBe('inverted');
  },
);

test('the sum’s picture: A+B over one alone at every fourth point, nothing where the hits don’t carry it', () => {
  const re = new Float64Array(SPECTRUM_POINTS).fill(1);
  const coherence = new Float64Array(SPECTRUM_POINTS).fill(0.9);
  re[40] = -0.5;
  coherence[80] = 0.1;
  re[120] = Number.NaN;
  re[160] = -1;
  const spectrum = { re, im: new Float64Array(SPECTRUM_POINTS), coherence };
  const db = (turned: boolean) => takenFrom(changed(SURE, { spectrum }), { ...GIVEN, meterInvert: turned }).sumDb ?? [];
  expect(SUM_PICTURE_HZ.map((hz) => hz.toFixed(6))).toEqual(SUM_PICTURE_HZ.map((_, i) => spectrumHz(4 * i).toFixed(6)));
  // two alike: 20·log10 2; at a right angle over the power sum: 10·log10(2·0.5)
  expect(db(false)[0]).toBe(6);
  expect(db(false)[10]).toBe(0);
  expect([db(false)[20], db(false)[30]]).toEqual([null, null]);
  expect(db(false)[40]).toBeLessThan(-50);
  // 10·log10(2·1.5)
  expect(db(true)[10]).toBe(4.8);
  expect(takenFrom(reading(), GIVEN).sumDb).toBeNull();
});
