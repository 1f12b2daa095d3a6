/**
 * How the numbers come about, held against what the engine and the plan say of the example kit: formulas, inputs and results are the
 * code's own. Closed forms beside them: Everest & Pohlmann, ch. 10 (notches); Audio Engineering: Know It All, table 2.9 (two tones).
 */
import { describe, expect, it } from 'vitest';
import { advise } from '../../../src/advice/advise';
import { DEVIATION, NINETY, PLACE_SECONDS } from '../../../src/advice/sums/arrivalSums';
import type { SumId } from '../../../src/advice/sums/sumIds';
import { sumsOf } from '../../../src/advice/sums/sums';
import { Engine } from '../../../src/dsp/engine';
import { MAD_TO_DEVIATION } from '../../../src/dsp/signal/median';
import { LIKELY } from '../../../src/dsp/tuning/likelyTuning';
import { answerOf, type Reading } from '../../../src/reading/reading';
import type { Sum } from '../../../src/text/sum';
import { openPair, recordedPairs } from '../../support/sound/recordedPairs';
import { measured, reading } from '../readings';

const CONTEXT = { kind: 'top-bottom', temperatureC: 20, invertB: false } as const;
const BLOCK = 1024;

function readScene(name: string): Reading {
  const pair = recordedPairs().find((one) => one.name === name);
  if (!pair) throw new Error(`no ${name}`);
  const { sampleRate, a, b } = openPair(pair);
  const engine = new Engine(sampleRate);
  for (let at = 0; at < a.length; at += BLOCK) engine.push(a.subarray(at, at + BLOCK), b.subarray(at, at + BLOCK));
  return engine.reading();
}

const of = (sums: readonly Sum[], id: SumId): Sum => {
  const found = sums.find((one) => one.id === id);
  if (!found) throw new Error(id);
  return found;
};
const inputOf = (sum: Sum, symbol: string): string => sum.inputs.find((one) => one.symbol === symbol)?.value ?? '';
const numberIn = (text: string): number => Number(text.replace('−', '-').replace(/[^\d.-]/g, ''));

describe('top and bottom of a snare, the example', () => {
  const read = readScene('scene snare-top-bottom');
  const said = answerOf(read);
  const advice = advise(read, CONTEXT);
  const sums = sumsOf(read, advice, CONTEXT);

  it('has a sum for every number, each with a source, inputs and what comes out', () => {
    expect(said.state).toBe('measured');
    for (const { id, inputs, worked, result, source } of sums) {
      expect(worked, id).not.toBeNull();
      expect(result, id).not.toBeNull();
      expect(worked, id).not.toMatch(/NaN|null|undefined/);
      expect(inputs.length, id).toBeGreaterThan(0);
      expect(source, id).not.toBe('');
    }
  });

  it('delay and path are the reading’s', () => {
    const ms = ((said.delaySamples as number) / read.sampleRate) * 1000;
    expect(of(sums, 'delay').result).toBeCloseTo(ms, 9);
    // 343.21 m/s at 20 °C: check value of the ideal-gas formula, to a centimetre a second
    expect(of(sums, 'path').result).toBeCloseTo((ms / 1000) * 34321, 2);
    expect(of(sums, 'path').worked).toContain('343.2 m/s');
  });

  it('accuracy: hits and rest add up to the engine’s 90 %, with the engine’s own factors', () => {
    const cm = 34321 / read.sampleRate;
    const sum = of(sums, 'accuracy');
    expect(sum.result).toBeCloseTo((said.uncertaintySamples as number) * cm, 2);
    const hits = numberIn(inputOf(sum, 'h'));
    expect(hits).toBeCloseTo((1.645 * 1.4826 * (said.spreadSamples as number) * cm) / Math.sqrt(said.hitsUsed), 2);
    expect(Math.hypot(hits, numberIn(inputOf(sum, 'r')))).toBeCloseTo(sum.result as number, 1);
    expect(DEVIATION).toBeCloseTo(MAD_TO_DEVIATION, 3);
    expect(NINETY).toBe(1.645);
  });

  it('accuracy of what is likeliest has the engine’s own constant', () => {
    expect(PLACE_SECONDS).toBe(LIKELY.placeSeconds);
    const likely = measured('same', 3, { method: 'likeliest', uncertaintySamples: 4 });
    const sum = of(sumsOf(likely, null, CONTEXT), 'accuracy');
    expect(Math.hypot(numberIn(inputOf(sum, 'p')), numberIn(inputOf(sum, 'w')))).toBeCloseTo(sum.result as number, 1);
  });

  it('gains are the recommended one’s, from the levels that the reading has', () => {
    const [one] = advice.plan;
    expect(of(sums, 'low-octave').result).toBeCloseTo(one?.lowDb as number, 6);
    expect(of(sums, 'overall').result).toBeCloseTo(one?.allDb as number, 6);
    expect(of(sums, 'upper-band').result).toBeCloseTo(one?.bandsDb[3] as number, 6);
    for (const other of advice.plan)
      expect(of(sumsOf(read, { ...advice, plan: [other] }, CONTEXT), 'overall').result).toBeCloseTo(
        other.allDb as number,
        6,
      );
    expect(numberIn(inputOf(of(sums, 'low-octave'), 'γ'))).toBeCloseTo(read.sum.now[0] as number, 3);
  });

  it('inverting alone turns γ round', () => {
    const alone = advice.plan.find((each) => each.invertB && each.moveCm === null && each.delayMs === null);
    const sum = of(sumsOf(read, { ...advice, plan: alone ? [alone] : [] }, CONTEXT), 'overall');
    expect(numberIn(inputOf(sum, 'γ′'))).toBeCloseTo(-numberIn(inputOf(sum, 'γ')), 2);
  });

  it('the meter’s own invert is taken out of the gains', () => {
    const turned = { ...read, sum: { ...read.sum, now: read.sum.now.map((x) => (x === null ? null : -x)) } };
    const there = sumsOf(turned, advice, { ...CONTEXT, invertB: true });
    expect(inputOf(of(there, 'overall'), 'γ')).toBe(inputOf(of(sums, 'overall'), 'γ'));
  });
});

describe('closed forms', () => {
  it('1 ms: the first notch lies at 500 Hz, inverted at 1 kHz after 0 Hz', () => {
    // 34.32 cm at 20 °C
    const notch = (polarity: 'same' | 'inverted') => of(sumsOf(measured(polarity, 34.321), null, CONTEXT), 'notch');
    expect(notch('same').result).toBeCloseTo(500, 0);
    expect(notch('inverted').result).toBeCloseTo(1000, 0);
  });

  it('a move of the whole path, rounded as the path is said', () => {
    const sum = of(sumsOf(measured('same', 4.2), null, CONTEXT), 'move');
    expect(sum.result).toBe(4);
    expect(of(sumsOf(measured('same', 0.3), null, CONTEXT), 'move').worked).toBeNull();
  });

  it('levels: a full-scale sine has a peak of 1 and a mean square of ½, both 0 dBFS (AES17)', () => {
    const full = measured('same', 4.2);
    full.inputs.a = { ...full.inputs.a, peakDbfs: 0, rmsDbfs: 0 };
    const sums = sumsOf(full, null, CONTEXT);
    expect(inputOf(of(sums, 'peak'), 'p')).toBe('1.000');
    expect(inputOf(of(sums, 'rms'), 'q')).toBe('0.5000');
    expect(of(sums, 'rms').worked).toBe('10 · lg(2 · 0.5000) = 0.0 dBFS');
  });

  it('with no reading there is no result, and no number is made up', () => {
    for (const { id, worked, result, inputs } of sumsOf(reading(), null, CONTEXT)) {
      if (id === 'peak' || id === 'rms') continue;
      expect([worked, result], id).toEqual([null, null]);
      expect(JSON.stringify(inputs), id).not.toMatch(/NaN|null|undefined/);
    }
  });
});
