import { describe, expect, it } from 'vitest';
import type { Advice } from '../../../src/advice/advice';
import type { Action } from '../../../src/advice/plan/alternatives';
import { arrivalView, rangeFor } from '../../../src/state/views/arrivalView';
import { carried, SUM_HZ, SUM_LOW_DB, sumKey, sumView } from '../../../src/state/views/sumView';
import { TRACE_BAND_LIST } from '../../../src/state/views/traceView';
import { delaySpectrum, measured, RATE, reading } from '../../advice/readings';

const context = { kind: 'other', temperatureC: 20, invertB: false } as const;
const advice = (fields: Partial<Advice>): Advice => ({
  plan: [],
  action: 'leave',
  moveCm: null,
  delayLaterMs: null,
  lowDb: 0,
  allDb: 0,
  fine: false,
  timed: true,
  chosen: false,
  text: '',
  callOut: '',
  sureness: '',
  notes: [],
  cautions: [],
  ...fields,
});
/** the advice to do this */
const toDo = (action: Advice['action'], fields: Partial<Action> = {}): Advice => {
  const one = { invertB: action.includes('invert'), delayMs: null, moveCm: null, ...fields };
  const plan = [{ ...one, lowDb: 3, allDb: 3, bandsDb: [0, 0, 0, 0] }];
  return advice({ action, plan, moveCm: one.moveCm, delayLaterMs: one.delayMs });
};
const nearest = (hz: number): number =>
  SUM_HZ.reduce(
    (best, f, i) => (Math.abs(Math.log(f / hz)) < Math.abs(Math.log((SUM_HZ[best] ?? 0) / hz)) ? i : best),
    0,
  );

describe('the sum, ready to draw', () => {
  // Everest & Pohlmann, Master Handbook of Acoustics, ch. 10, table 10-3: 1 ms gives nulls at 500, 1500, 2500 Hz …, peaks of +6.02 dB
  it('has the notches of a 1 ms path', () => {
    const now = measured('same', 0, { delaySamples: RATE / 1000, spectrum: delaySpectrum(1e-3, 'same') });
    const view = sumView(now, null, context);
    expect(view.notchesHz.slice(0, 3)).toEqual([500, 1500, 2500]);
    expect(view.predictedDb?.[nearest(500)]).toBeLessThan(-15);
    expect(view.predictedDb?.[nearest(1000)]).toBeCloseTo(6.02, 1);
    expect(view.thinZonesHz[0]?.[0]).toBeCloseTo(333.3, 1);
    expect(view.thinZonesHz[0]?.[1]).toBeCloseTo(666.7, 1);
  });

  it('leaves the notch at 0 Hz off an axis that has none, and cuts the zone there', () => {
    const now = measured('inverted', 0, { delaySamples: RATE / 1000, spectrum: delaySpectrum(1e-3, 'inverted') });
    const view = sumView(now, null, context);
    expect(view.notchesHz[0]).toBe(1000);
    expect(view.thinZonesHz[0]).toEqual([20, expect.closeTo(166.7, 1)]);
  });

  it('draws no comb finer than its grid', () => {
    const now = measured('same', 0, { delaySamples: RATE / 100, spectrum: delaySpectrum(1e-2, 'same') });
    const view = sumView(now, null, context);
    expect(view.predictedDb?.[nearest(200)]).not.toBeNull();
    expect(view.predictedDb?.[nearest(15000)]).toBeNull();
  });

  it('shows the advice as a sum without the comb: +6.02 dB less what the coherence lacks', () => {
    const spectrum = delaySpectrum(1e-4, 'inverted');
    const now = measured('inverted', 0, { delaySamples: RATE / 10000, spectrum });
    const move = toDo('invert-and-move', { moveCm: 1e-4 * 34321 });
    const view = sumView(now, move, context);
    // |γ| = 0.9: 10·log10(2·1.9) = 5.80 dB everywhere
    for (const value of view.afterDb ?? []) expect(value).toBeCloseTo(5.8, 1);
    expect(view.measuredDb[nearest(100)]).toBeLessThan(-5);
    expect(sumView(now, advice({ action: 'cannot-tell' }), context).afterDb).toBeNull();
  });

  it('says what the forecast takes as done', () => {
    const now = measured('inverted', 0, { delaySamples: 4.8, spectrum: delaySpectrum(1e-4, 'inverted') });
    const what = (one: Advice, invertB = false): string => sumView(now, one, { ...context, invertB }).afterWhat;
    expect(what(toDo('invert'))).toBe('after inverting');
    expect(what(toDo('move', { moveCm: 3 }))).toBe('after the move');
    expect(what(toDo('invert-and-move', { moveCm: 3 }))).toBe('after inverting and the move');
    expect(what(toDo('delay-later', { delayMs: 0.3 }))).toBe('after the delay in the mix');
    expect(what(toDo('invert-and-delay', { delayMs: 0.3 }))).toBe('after inverting and the delay in the mix');
    expect(what(toDo('leave'))).toBe('');
    expect(what(toDo('leave'), true)).toBe('with Invert B here off');
    expect(what(toDo('invert'), true)).toBe('');
    expect(what(advice({ action: 'cannot-tell' }))).toBe('');
  });

  it('has nothing to draw from nothing', () => {
    const view = sumView(reading(), null, context);
    expect(view.measuredDb.every((v) => v === null)).toBe(true);
    expect([view.predictedDb, view.afterDb, view.ownBandHz]).toEqual([null, null, null]);
    expect(view.notchesHz).toEqual([]);
  });

  it('stays above its floor and fades with the coherence', () => {
    const view = sumView(measured('same', 0, { spectrum: delaySpectrum(1e-3, 'same') }), null, context);
    for (const value of view.measuredDb) expect(value).toBeGreaterThanOrEqual(SUM_LOW_DB);
    expect([carried(Number.NaN), carried(0.05), carried(0.3), carried(0.9)]).toEqual([0, 0, expect.closeTo(0.5), 1]);
  });

  it('asks for a new picture only when the picture changes', () => {
    const one = measured('same', 3, { spectrum: delaySpectrum(1e-3, 'same') });
    const later = { ...one, streamSeconds: 99, hits: 7 };
    const other = { ...one, sum: { ...one.sum, spectrum: delaySpectrum(1.01e-3, 'same') } };
    expect(sumKey(later, null)).toBe(sumKey(one, null));
    expect(sumKey(other, null)).not.toBe(sumKey(one, null));
    expect(sumKey(one, advice({ action: 'invert' }))).not.toBe(sumKey(one, null));
  });
});

describe('the arrival curve, ready to draw', () => {
  const curve = (): { values: Float64Array; stepSamples: number; hits: number } => {
    const values = new Float64Array(1057);
    values[528 + 12] = -0.4;
    return { values, stepSamples: 1, hits: 6 };
  };

  it('puts lags in ms round zero and keeps the found arrival well inside', () => {
    const view = arrivalView(measured('inverted', 0, { curve: curve(), delaySamples: 12 }), 0);
    expect(view.foundMs).toBeCloseTo(0.25);
    expect(view.rangeMs).toBe(1);
    const lowest = view.values.indexOf(-0.4);
    expect(view.lagsMs[lowest]).toBeCloseTo(0.25);
    expect(view.height).toBe(0.5);
    expect(view.lagsMs[0]).toBeLessThanOrEqual(-1);
  });

  it('does not let the axis jump about', () => {
    expect(rangeFor(0.5, 11, 0)).toBe(1);
    expect(rangeFor(0.7, 11, 1)).toBe(1);
    expect(rangeFor(0.9, 11, 1)).toBe(3);
    expect(rangeFor(0.7, 11, 3)).toBe(3);
    expect(rangeFor(null, 11, 3)).toBe(3);
    expect(rangeFor(null, 11, 0)).toBe(11);
    expect(rangeFor(20, 34, 0)).toBe(34);
    // the whole reach changed: a range wider than the curve is none
    expect(rangeFor(null, 11, 34)).toBe(11);
  });
});

describe('the bands of the trace', () => {
  // 1/√(2BT); 30–150 Hz over 0.42 s scatters by 0.1 (follows from the formula)
  it('say how far unrelated inputs scatter', () => {
    const low = TRACE_BAND_LIST[1];
    expect(low?.integrationSeconds).toBeCloseTo(0.42, 2);
    expect(low?.scatter).toBeCloseTo(0.1, 2);
    for (const band of TRACE_BAND_LIST) expect(band.scatter).toBeLessThanOrEqual(0.1001);
  });
});
