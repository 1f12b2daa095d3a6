import { describe, expect, it } from 'vitest';
import { SUM_HZ, type SumView } from '../../../src/state/views/sumView';
import { TraceHistory } from '../../../src/state/views/traceHistory';
import { keyTo } from '../../../src/ui/plots/keyTo';
import type { CurveDrawing, PushesDrawing } from '../../../src/ui/plots/paint/paintArrival';
import type { SumDrawing } from '../../../src/ui/plots/paint/paintSum';
import { curveAt, hitNear, pushesAt, sumAt, traceAt } from '../../../src/ui/plots/readOut';
import { combText, lossText, notchesText, sumText } from '../../../src/ui/plots/sumWords';
import { reading } from '../../advice/readings';

const AT_200 = SUM_HZ.findIndex((hz) => hz >= 199);
const flat = (db: number | null): (number | null)[] => SUM_HZ.map(() => db);
const sum = (fields: Partial<SumDrawing> = {}): SumDrawing => ({
  nowDb: flat(-13.42),
  tooFew: false,
  otherDb: flat(5.38),
  other: 'after',
  otherWhat: 'after inverting',
  ownBandHz: [177, 354],
  gainDb: 7.8,
  elsewhere: null,
  lossHz: null,
  comb: null,
  combShown: false,
  ...fields,
});
const comb = (share: number, fields: Partial<NonNullable<SumView['comb']>> = {}): NonNullable<SumView['comb']> => ({
  delayMs: 2.77,
  db: flat(-4.1),
  notchesHz: [181, 543, 904, 1266, 1628],
  fit: { share, reaches: true },
  fits: share > 0.66,
  ...fields,
});

describe('a place of the sum', () => {
  it('has its frequency and both levels', () => {
    expect(sumAt(sum(), AT_200)).toBe('200 Hz: −13.4 dB now, +5.4 dB after');
    expect(sumAt(sum({ other: 'without' }), AT_200)).toBe('200 Hz: −13.4 dB now, +5.4 dB without inverting');
    expect(sumAt(sum({ otherDb: null }), AT_200)).toBe('200 Hz: −13.4 dB now');
    expect(sumAt(sum({ comb: comb(0.8), combShown: true }), AT_200)).toMatch(/, comb −4\.1 dB$/);
    expect(sumAt(sum({ comb: comb(0.8) }), AT_200)).not.toMatch(/comb/);
  });
  it('has no value where the hits carry none', () => {
    expect(sumAt(sum({ nowDb: flat(null), otherDb: flat(null) }), AT_200)).toBe('200 Hz: no value, the hits differ');
    const begun = sum({ nowDb: flat(null), otherDb: null, tooFew: true });
    expect(sumAt(begun, AT_200)).toBe('200 Hz: no value yet, too few hits');
    expect(sumAt(null, AT_200)).toBe('200 Hz: nothing measured yet');
    expect(sumAt(sum(), -1)).toBe('');
  });
});

describe('what is said beside the sum', () => {
  it('how well the comb fits, or why it isn’t drawn', () => {
    expect(combText(comb(0.84), true)).toBe(
      'Comb: fits 84 % of the line within 3 dB. Notches: 181 Hz, 543 Hz, 904 Hz, 1.3 kHz …',
    );
    expect(combText(comb(0.3), false)).toBe('Comb: fits only 30 % of the line within 3 dB (unlike mics, reflections).');
    expect(combText(comb(0.3), true)).toMatch(/Notches: 181 Hz/);
    expect(combText(comb(1, { fit: { share: 1, reaches: false }, fits: false }), false)).toMatch(
      /^Comb: none of its notches/,
    );
    expect(combText(comb(1, { fit: null, fits: false }), false)).toMatch(/too little measured/);
    expect([combText(null, false), combText(null, true)]).toEqual(['', 'Comb: none without a delay.']);
    expect(notchesText({ notchesHz: [500, 1500] })).toBe('500 Hz, 1.5 kHz');
  });
  it('where the plan makes it thinner, and that the octave gains all the same', () => {
    const said = 'After the plan thinner at 291–377 Hz';
    expect(lossText(sum({ lossHz: [291, 377] }))).toBe(`${said}; the octave as a whole gains 8 dB.`);
    expect(lossText(sum({ lossHz: [291, 377], ownBandHz: [44, 88] }))).toBe(`${said}.`);
    expect(lossText(sum({ lossHz: [291, 377], gainDb: null }))).toBe(`${said}.`);
    expect(lossText(sum())).toBe('');
  });
  it('all of it in words', () => {
    const coherence = [0.9, 0.9, 0.9, 0];
    expect(sumText(sum(), coherence)).toMatch(
      /The hits agree over 75 % of it\. The drum’s low octave, 177–354 Hz: \+8 dB by the plan\. The second line: after inverting\.$/,
    );
    const above = sum({ gainDb: 0, elsewhere: { lowHz: 3000, highHz: 10_000, db: 5 } });
    expect(sumText(above, coherence)).toMatch(/177–354 Hz: ±0 dB by the plan\. The gain lies at 3–10 kHz: \+5 dB\./);
    expect(sumText(null, [])).toBe('Nothing measured yet.');
  });
});

describe('a place of the trace', () => {
  const history = new TraceHistory();
  for (const [at, broadband] of [
    [1, 0.2],
    [2, -0.59],
    [4, null],
  ] as const) {
    const perHit = [
      {
        serial: 3,
        timeSeconds: 2.05,
        delaySamples: 3,
        polarity: 'same' as const,
        fate: 'used' as const,
        drum: null,
        levelADbfs: -10,
        levelBDbfs: -10,
        correlation: -0.612,
        bandCorrelation: [null, null, null, null],
      },
    ];
    const now = reading({ streamSeconds: at, perHit: at < 2 ? [] : perHit });
    history.push({ ...now, trace: { ...now.trace, timeSeconds: at, broadband } });
  }
  it('has its time, its correlation, and the hit that is there', () => {
    expect(traceAt(history, 0, -2)).toBe('−2.0 s: −0.59, hit 3 −0.61');
    expect(traceAt(history, 0, -3)).toBe('−3.0 s: +0.20');
    expect(traceAt(history, 1, -2)).toBe('−2.0 s: no value, hit 3 no value');
  });
  it('has no value where none came', () => {
    expect(traceAt(history, 0, 0)).toBe('0.0 s: no value');
    expect(traceAt(history, 0, -30)).toBe('−30.0 s: no value');
    expect(traceAt(new TraceHistory(), 0, -5)).toBe('−5.0 s: no value');
  });
});

describe('a place of the arrival', () => {
  const pushes = {
    lengthMs: 2,
    cmPerMs: 34.3,
    hits: [
      { serial: 8, delayMs: 0.07 },
      { serial: 9, delayMs: 0.1 },
    ],
  } as PushesDrawing;
  it('has ms, cm and the hit that lies nearest', () => {
    expect(pushesAt(pushes, 0.07)).toBe('+0.07 ms, +2.4 cm, hit 8');
    expect(pushesAt(pushes, 0.11)).toBe('+0.11 ms, +3.8 cm, hit 9');
    expect(pushesAt(pushes, 1)).toBe('+1.00 ms, +34 cm');
    expect([hitNear(pushes, null), hitNear(null, 0.07)]).toEqual([null, null]);
  });
  it('of the curve: how well it fits', () => {
    const curve = { lagsMs: [-0.1, 0, 0.1], values: [0.1, 0.2, -0.314], cmPerMs: 34.3, hits: 4 } as CurveDrawing;
    expect(curveAt(curve, 0.09)).toBe('+0.09 ms, +3.1 cm: −0.31');
    expect(curveAt({ ...curve, hits: 0 }, 0.09)).toBe('+0.09 ms, +3.1 cm');
  });
});

describe('the keys of a plot', () => {
  const range = { at: 5, min: 0, max: 10, step: 1, stride: 4, start: 3 };
  const to = (key: string, at: number | null = 5, shiftKey = false): number | null =>
    keyTo({ key, shiftKey }, { ...range, at });
  it('go by steps, by strides and to the ends', () => {
    expect([to('ArrowRight'), to('ArrowLeft'), to('ArrowUp'), to('ArrowDown')]).toEqual([6, 4, 6, 4]);
    expect([to('PageUp'), to('PageDown'), to('ArrowRight', 5, true)]).toEqual([9, 1, 9]);
    expect([to('Home'), to('End')]).toEqual([0, 10]);
  });
  it('stay within, begin where that is of use, and leave other keys alone', () => {
    expect([to('ArrowRight', 10), to('PageDown', 2)]).toEqual([10, 0]);
    expect(to('ArrowRight', null)).toBe(3);
    expect([to('h'), to('Enter'), to('Tab')]).toEqual([null, null, null]);
  });
});
