import { describe, expect, it } from 'vitest';
import type { Advice } from '../../../src/advice/advice';
import type { Action } from '../../../src/advice/plan/alternatives';
import type { SumSpectrum } from '../../../src/reading/reading';
import { arrivalView, rangeFor } from '../../../src/state/views/arrivalView';
import { carried, combFit, combView, SUM_LOW_DB } from '../../../src/state/views/combView';
import { SUM_HZ, sumKey, sumView } from '../../../src/state/views/sumView';
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

/** carried up to so many Hz, or from there on */
function carriedWhere(spectrum: SumSpectrum, isCarried: (hz: number) => boolean): SumSpectrum {
  return { ...spectrum, coherence: spectrum.coherence.map((c, i) => (isCarried(SUM_HZ[i] as number) ? c : 0)) };
}

describe('the sum, ready to draw', () => {
  it('shows the advice as a sum without the comb: +6.02 dB less what the coherence lacks', () => {
    const spectrum = delaySpectrum(1e-4, 'inverted');
    const now = measured('inverted', 0, { delaySamples: RATE / 10000, spectrum });
    const move = toDo('invert-and-move', { moveCm: 1e-4 * 34321 });
    const view = sumView(now, move, context);
    // |γ| = 0.9: 10·log10(2·1.9) = 5.80 dB everywhere
    for (const value of view.otherDb ?? []) expect(value).toBeCloseTo(5.8, 1);
    expect(view.nowDb[nearest(100)]).toBeLessThan(-5);
    expect(view.other).toBe('after');
    expect(view.lossHz).toBeNull();
    expect(sumView(now, advice({ action: 'cannot-tell' }), context).otherDb).toBeNull();
  });

  it('says what the forecast takes as done', () => {
    const now = measured('inverted', 0, { delaySamples: 4.8, spectrum: delaySpectrum(1e-4, 'inverted') });
    const what = (one: Advice, invertB = false): string => sumView(now, one, { ...context, invertB }).otherWhat;
    expect(what(toDo('invert'))).toBe('after inverting');
    expect(what(toDo('move', { moveCm: 3 }))).toBe('after the move');
    expect(what(toDo('invert-and-move', { moveCm: 3 }))).toBe('after inverting and the move');
    expect(what(toDo('delay-later', { delayMs: 0.3 }))).toBe('after the delay in the mix');
    expect(what(toDo('invert-and-delay', { delayMs: 0.3 }))).toBe('after inverting and the delay in the mix');
    expect(what(toDo('leave'))).toBe('');
    expect(what(toDo('leave'), true)).toBe('with “Invert B here” off');
    expect(what(toDo('invert'), true)).toBe('without “Invert B here”');
    expect(what(advice({ action: 'cannot-tell' }))).toBe('');
  });

  it('gains the same whether B is inverted in the meter or not yet: which line is now changes', () => {
    const spectrum = delaySpectrum(1e-4, 'inverted');
    const before = measured('inverted', 0, { delaySamples: 4.8, spectrum });
    const after = measured('same', 0, { delaySamples: 4.8, spectrum: delaySpectrum(1e-4, 'same') });
    const invert = toDo('invert');
    const todo = sumView(before, invert, context);
    const here = sumView(after, invert, { ...context, invertB: true });
    expect([todo.gainDb, here.gainDb]).toEqual([3, 3]);
    expect([todo.other, here.other]).toEqual(['after', 'without']);
    expect(here.otherDb?.[nearest(100)]).toBeCloseTo(todo.nowDb[nearest(100)] as number, 6);
    expect(here.nowDb[nearest(100)]).toBeCloseTo(todo.otherDb?.[nearest(100)] as number, 6);
    expect(here.lossHz).toEqual(todo.lossHz);
  });

  it('counts the gain from what is shown: with B inverted in the meter against the plan’s own', () => {
    const spectrum = delaySpectrum(1e-4, 'inverted');
    const now = measured('inverted', 0, { delaySamples: 4.8, spectrum });
    const leave = { invertB: false, delayMs: null, moveCm: null, lowDb: 0, allDb: 0, bandsDb: [0, 0, 0, 0] };
    const plan = [leave, { ...leave, invertB: true, lowDb: -8 }];
    const view = sumView(now, advice({ action: 'leave', plan }), { ...context, invertB: true });
    expect(view.gainDb).toBe(8);
    expect(sumView(now, advice({ action: 'leave', plan }), context).gainDb).toBe(0);
    expect(view.elsewhere).toBeNull();
    const move = { ...leave, moveCm: 4, lowDb: 0.2, bandsDb: [0, 0.5, 1.5, 5] };
    const above = sumView(now, advice({ action: 'move', plan: [move, leave] }), context);
    expect(above.elsewhere).toEqual({ lowHz: 3000, highHz: 10_000, db: 5 });
    const low = { ...move, lowDb: 0.6 };
    expect(sumView(now, advice({ action: 'move', plan: [low, leave] }), context).elsewhere).toBeNull();
  });

  it('draws both lines where the hits carry the sum, and in no specks', () => {
    const spectrum = carriedWhere(delaySpectrum(1e-4, 'inverted'), (hz) => hz < 1000 || (hz > 4000 && hz < 4200));
    const now = measured('inverted', 0, { delaySamples: 4.8, spectrum });
    const view = sumView(now, toDo('invert'), context);
    expect(view.nowDb[nearest(900)]).not.toBeNull();
    for (const hz of [1200, 4100, 9000]) expect(view.nowDb[nearest(hz)]).toBeNull();
    expect(view.otherDb?.map((value) => value === null)).toEqual(view.nowDb.map((value) => value === null));
  });

  it('names the widest place where the plan makes it thinner', () => {
    // inverting a pair of 1 ms: its lows lose, and so does every other peak; the widest in pitch is the lowest
    const now = measured('same', 0, { delaySamples: RATE / 1000, spectrum: delaySpectrum(1e-3, 'same') });
    const [low, high] = sumView(now, toDo('invert'), context).lossHz ?? [];
    expect(low).toBe(20);
    // 1 + 0.9·cos(2πf·1 ms) is 3 dB above 1 − 0.9·cos: cos = 0.37, f = 190 Hz
    expect(high).toBeGreaterThan(175);
    expect(high).toBeLessThan(195);
  });

  it('has nothing to draw from nothing', () => {
    const view = sumView(reading(), null, context);
    expect(view.nowDb.every((v) => v === null)).toBe(true);
    expect([view.comb, view.otherDb, view.ownBandHz, view.gainDb, view.lossHz]).toEqual([null, null, null, null, null]);
  });

  it('stays above its floor and fades with the coherence', () => {
    const view = sumView(measured('same', 0, { spectrum: delaySpectrum(1e-3, 'same') }), null, context);
    for (const value of view.nowDb) expect(value).toBeGreaterThanOrEqual(SUM_LOW_DB);
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

describe('the comb of delay and polarity', () => {
  // Everest & Pohlmann, Master Handbook of Acoustics, ch. 10, table 10-3: 1 ms gives nulls at 500, 1500, 2500 Hz …, peaks of +6.02 dB
  it('has the notches of a 1 ms path', () => {
    const comb = combView(delaySpectrum(1e-3, 'same'), 1e-3, 'same', false);
    expect(comb.notchesHz.slice(0, 3)).toEqual([500, 1500, 2500]);
    expect(comb.db[nearest(500)]).toBeLessThan(-15);
    expect(comb.db[nearest(1000)]).toBeCloseTo(6.02, 1);
  });

  it('leaves the notch at 0 Hz off an axis that has none', () => {
    expect(combView(delaySpectrum(1e-3, 'inverted'), 1e-3, 'inverted', false).notchesHz[0]).toBe(1000);
  });

  it('is drawn no finer than its grid', () => {
    const { db } = combView(delaySpectrum(1e-2, 'same'), 1e-2, 'same', false);
    expect(db[nearest(200)]).not.toBeNull();
    expect(db[nearest(15000)]).toBeNull();
  });

  it('fits what it made, and not another delay or polarity', () => {
    const spectrum = delaySpectrum(1e-3, 'same', 0.99);
    expect(combFit(spectrum, 1e-3, 'same')).toEqual({ share: 1, reaches: true });
    // half a period off wherever the comb isn't flat
    const turned = combFit(spectrum, 1e-3, 'inverted');
    expect(turned?.share).toBeLessThan(0.3);
    const other = combFit(spectrum, 1.4e-3, 'same');
    expect(other?.share).toBeLessThan(0.65);
    expect(combView(spectrum, 1e-3, 'same', false).fits).toBe(true);
    expect(combView(spectrum, 1e-3, 'inverted', false).fits).toBe(false);
  });

  it('is not told to fit where nothing reaches its thin places, nor where too little is measured', () => {
    const lows = carriedWhere(delaySpectrum(1e-4, 'same'), (hz) => hz < 800);
    // first notch 5 kHz, thin from 3.3 kHz on
    expect(combFit(lows, 1e-4, 'same')).toEqual({ share: 1, reaches: false });
    expect(combView(lows, 1e-4, 'same', true).fits).toBe(false);
    const little = carriedWhere(delaySpectrum(1e-3, 'same'), (hz) => hz > 400 && hz < 700);
    expect(combFit(little, 1e-3, 'same')).toBeNull();
    expect(combView(little, 1e-3, 'same', true).fits).toBe(false);
  });

  it('stays on the screen until it fits clearly less', () => {
    // the upper part has another delay: the share falls with where that begins
    const mixed = (fromHz: number): SumSpectrum => {
      const [one, two] = [delaySpectrum(1e-3, 'same'), delaySpectrum(1e-3, 'inverted')];
      const re = one.re.map((x, i) => ((SUM_HZ[i] as number) < fromHz ? x : (two.re[i] as number)));
      return { ...one, re };
    };
    const between = Array.from({ length: 60 }, (_, i) => 100 * 1.05 ** i)
      .map(mixed)
      .find((one) => {
        const share = combFit(one, 1e-3, 'same')?.share ?? 0;
        return share > 0.6 && share < 2 / 3;
      });
    if (between === undefined) throw new Error('no spectrum in between');
    expect(combView(between, 1e-3, 'same', false).fits).toBe(false);
    expect(combView(between, 1e-3, 'same', true).fits).toBe(true);
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

  it('marks where the whole stroke fits best, where that is not the first push', () => {
    const at = (delaySamples: number, polarity: 'same' | 'inverted' = 'inverted') =>
      arrivalView(measured(polarity, 0, { curve: curve(), delaySamples }), 0).best;
    // the curve's own place, 0.25 ms, downwards
    expect(at(12)).toBeNull();
    expect(at(60)).toEqual({ lagMs: expect.closeTo(0.25, 6), value: -0.4 });
    expect(at(12, 'same')).toEqual({ lagMs: expect.closeTo(0.25, 6), value: -0.4 });
    expect(arrivalView(reading({ curve: curve() }), 0).best).toBeNull();
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
