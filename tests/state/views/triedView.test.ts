/** What is tried, ready to draw, on readings made of one delay and one polarity. */
import { describe, expect, it } from 'vitest';
import { spotsOf } from '../../../src/advice/tryOut/moveCurve';
import { NOTHING_TRIED, type Tried } from '../../../src/advice/tryOut/tried';
import { tryOut } from '../../../src/advice/tryOut/tryOut';
import { SUM_HZ } from '../../../src/state/views/sumView';
import { moveView, triedSumView } from '../../../src/state/views/triedView';
import { createTryChoice, parseSigned } from '../../../src/state/views/tryChoice';
import { CM_PER_SAMPLE, RATE, tryable, turnedOver } from '../../advice/readings';

const here = { invertB: false, temperatureC: 20 };
const tried = (fields: Partial<Tried>): Tried => ({ ...NOTHING_TRIED, ...fields });
const viewOf = (r: ReturnType<typeof tryable>, what: Tried, context = here) =>
  triedSumView(r, context, what, tryOut(r, context, what));

describe('the sum as tried', () => {
  const cm = 10 * CM_PER_SAMPLE;
  const r = tryable('inverted', cm);

  it('inverted and moved onto A it is full everywhere: 10·log10(2·1.9) re one mic', () => {
    const { otherDb } = viewOf(r, tried({ invertB: true, moveCm: cm }));
    for (const db of otherDb ?? []) expect(db).toBeCloseTo(5.8, 1);
  });

  it('trimmed, the two have less in common: 2g/(1+g²) of it', () => {
    const g = 10 ** (6 / 20);
    const { otherDb } = viewOf(r, tried({ invertB: true, moveCm: cm, trimDb: 6 }));
    for (const db of otherDb ?? []) expect(db).toBeCloseTo(10 * Math.log10(2 * (1 + ((2 * g) / (1 + g * g)) * 0.9)), 1);
  });

  it('the notches are those of what is tried: same polarity (2k+1)/2τ, inverted k/τ', () => {
    const half = viewOf(r, tried({ invertB: true, moveCm: cm / 2 }));
    expect(half.comb?.fits).toBe(true);
    expect(half.comb?.notchesHz[0]).toBeCloseTo(RATE / 10, 0);
    expect(viewOf(r, tried({ moveCm: cm / 2 })).comb?.notchesHz[0]).toBeCloseTo(RATE / 5, 0);
  });

  it('nothing tried: one line, and no gain', () => {
    expect(viewOf(r, NOTHING_TRIED)).toMatchObject({ otherDb: null, gainDb: null, lossHz: null });
  });

  it('with the meter’s invert on it counts from B as it comes in all the same', () => {
    const on = { ...here, invertB: true };
    for (const what of [NOTHING_TRIED, tried({ invertB: true }), tried({ moveCm: 3 })]) {
      const [off, turned] = [viewOf(r, what), viewOf(turnedOver(r), what, on)];
      for (const [i] of SUM_HZ.entries()) {
        expect(turned.nowDb[i]).toBeCloseTo(off.nowDb[i] as number, 6);
        if (off.otherDb) expect(turned.otherDb?.[i]).toBeCloseTo(off.otherDb[i] as number, 6);
      }
      expect(turned.comb?.notchesHz).toEqual(off.comb?.notchesHz);
    }
  });
});

describe('the curve over the move', () => {
  it('draws the polarity that is tried, and the other, with a mark at each place worth trying', () => {
    const r = tryable('inverted', 8);
    const spots = spotsOf(r, here);
    const plain = moveView(r, here, NOTHING_TRIED, 1, spots);
    const inverted = moveView(r, here, tried({ invertB: true, moveCm: -3.2 }), 1, spots);
    expect(plain.sameDb).toEqual(inverted.otherDb);
    expect(plain.otherDb).toEqual(inverted.sameDb);
    const [now, aligned, ...rest] = inverted.marks;
    expect(now).toMatchObject({ what: 'now', spot: { invertB: false, moveCm: 0 } });
    expect(aligned).toMatchObject({ what: 'aligned', spot: { invertB: true, moveCm: 8 } });
    expect(rest.map(({ what }) => what)).toEqual(['fullest', 'fullest', 'tried']);
    expect(rest.at(-1)?.spot).toEqual({ invertB: true, moveCm: -3.2 });
  });

  it('a delay in the mix stands where the same move would', () => {
    const r = tryable('same', 8);
    const { triedCm } = moveView(r, here, tried({ delayMs: 0.5 }), 1, spotsOf(r, here));
    expect(triedCm).toBeCloseTo(0.5 * 34.32, 1);
  });
});

describe('what a person sets', () => {
  it('keeps a move to the millimetre and within 60 cm, a trim to half a dB and within 12', () => {
    const choice = createTryChoice();
    choice.setMoveCm(2.4449);
    choice.setTrimDb(-3.3);
    expect(choice.tried()).toEqual({ invertB: false, delayMs: null, moveCm: 2.4, trimDb: -3.5 });
    choice.setMoveCm(-99);
    choice.setTrimDb(50);
    expect(choice.tried()).toMatchObject({ moveCm: -60, trimDb: 12 });
    choice.setMoveCm(-0.01);
    expect(choice.tried().moveCm).toBeNull();
  });

  it('takes one of the plan’s options whole, at equal level; a move takes the place of a delay', () => {
    const choice = createTryChoice();
    choice.setTrimDb(4);
    choice.take({ invertB: true, delayMs: 0.3, moveCm: null });
    expect(choice.tried()).toEqual({ invertB: true, delayMs: 0.3, moveCm: null, trimDb: 0 });
    choice.setMoveCm(1);
    expect(choice.tried()).toEqual({ invertB: true, delayMs: null, moveCm: 1, trimDb: 0 });
  });

  it.each([
    ['2,4', 2.4],
    ['−3.5 cm', -3.5],
    ['-60', -60],
    ['+1', 1],
    ['', null],
    ['61', null],
    ['a lot', null],
  ])('reads %s', (text, value) => {
    expect(parseSigned(text, 60)).toBe(value);
  });
});
