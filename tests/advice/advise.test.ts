/** Advice in words: what is to be done, all of it together, what it gains, and how well it is known. The rules are this program's own (README). */

import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise, afterAdvice } from '../../src/advice/advise';
import type { PairKindId } from '../../src/advice/plan/pairKinds';
import type { Polarity, Reading } from '../../src/reading/reading';
import { changed, type Flat } from '../support/readings/flat';
import { CM_PER_SAMPLE, drum, measured, NO_SUM, reading, sumOf, turnedOver } from './readings';

const METRES_PER_SECOND = 343.21;

function about(kind: PairKindId, r: Reading, more: Partial<AdviceContext> = {}): Advice {
  return advise(r, { kind, temperatureC: 20, invertB: false, ...more });
}
const known = (cm: number | null): Partial<Flat> => ({ uncertaintySamples: cm === null ? null : cm / CM_PER_SAMPLE });
const GAIN = '\\+[\\d.]+ dB in the drum’s low octave \\(60–120 Hz\\) and \\+[\\d.]+ dB overall\\.';
const starting = (start: string): RegExp => new RegExp(`^${start}: ${GAIN}$`);

describe('what to do', () => {
  it('names the move for either microphone, both ways, with the labels where there are any', () => {
    expect(about('same-side', measured('inverted', 3)).text).toMatch(
      starting('Invert B, then bring it 3 cm closer to the drum, or A 3 cm back'),
    );
    expect(about('same-side', measured('same', -14)).text).toMatch(
      /^Take B 14 cm back from the drum, or bring A 14 cm closer: /,
    );
    const labels = { aLabel: 'top', bLabel: 'bottom' };
    expect(about('top-bottom', measured('inverted', -3), labels).text).toMatch(
      starting('Invert B \\(bottom\\), then take it 3 cm back from the drum, or bring A \\(top\\) 3 cm closer'),
    );
  });

  it('delays the one that is early, in the mix, together with the switch where that belongs to it', () => {
    expect(about('close-overhead', measured('same', 100)).text).toMatch(starting('Delay A by 2.91 ms in the mix'));
    expect(about('close-overhead', measured('same', -100)).text).toMatch(starting('Delay B by 2.91 ms in the mix'));
    const both = about('close-overhead', measured('inverted', 100));
    expect(both.text).toMatch(starting('Invert B, then delay A by 2.91 ms in the mix'));
    expect(both.callOut).toBe('Invert B. Then delay A by 2.91 ms in the mix');
    expect([both.action, both.moveCm, both.delayLaterMs]).toEqual(['invert-and-delay', null, 2.91]);
  });

  it('has a call for the talkback', () => {
    expect(about('same-side', measured('inverted', 3)).callOut).toBe('Invert B. Then B: 3 cm closer');
    expect(about('same-side', measured('same', 3.5)).callOut).toBe('B: 3.5 cm closer');
    expect(about('same-side', measured('same', -14)).callOut).toBe('B: 14 cm back');
    expect(about('same-side', measured('same', 0.2)).callOut).toBe('Polarity and timing are good: leave it');
  });

  it('says what is for the upper bands only', () => {
    // 1 cm is nothing to the low octave, and a notch at 17 kHz
    const r = measured(
      'same',
      2,
      sumOf({ polarity: 'same', delaySamples: 2 / CM_PER_SAMPLE, energies: [20, 10, 1, 0.1] }),
    );
    const a = about('same-side', r);
    expect(a.action).toBe('move');
    expect(a.text).toMatch(/: \+[\d.]+ dB at 3–10 kHz, the rest unchanged\.$/);
  });

  it('is to leave it where nothing is worth it, and names what was looked at', () => {
    const near = known(4);
    expect(about('other', measured('same', 0.2, near)).text).toBe('Leave it: not worth inverting.');
    expect(about('other', measured('same', 4)).text).toBe('Leave it: not worth inverting or delaying.');
    const low = sumOf({ polarity: 'same', delaySamples: 10 / CM_PER_SAMPLE, energies: [1, 0, 0, 0], common: 0.3 });
    expect(about('close-overhead', measured('same', 10, low)).text).toBe('Leave it: not worth inverting or delaying.');
    const little = sumOf({ polarity: 'same', delaySamples: 10 / CM_PER_SAMPLE, common: 0.05 });
    expect(about('same-side', measured('same', 10, little)).text).toBe(
      'Leave it: not worth inverting, moving or delaying.',
    );
  });

  it('is to leave it where the sum can’t be told', () => {
    for (const [sum, where] of [
      [NO_SUM, 'in the drum’s low octave'],
      [sumOf({ polarity: 'inverted', delaySamples: 0, all: false }), 'overall'],
    ] as const) {
      const a = about('other', measured('inverted', 0.3, sum));
      expect(a.text).toBe(
        `Leave it: no way to tell what inverting would gain, because A and B have too little in common ${where}.`,
      );
      expect([a.action, a.callOut]).toEqual(['leave', 'Leave it']);
    }
  });

  it('is good only where it is known to be', () => {
    expect(about('same-side', measured('same', 0.2)).text).toBe('Polarity and timing are good: leave it.');
    expect(about('top-bottom', measured('same', 0.3, known(1.9))).text).toBe('Polarity and timing are good: leave it.');
    for (const cm of [10.2, null]) {
      const rough = about('top-bottom', measured('same', 0.3, known(cm)));
      expect(rough.text).toBe('Leave it: not worth inverting.');
    }
  });

  it('says no move below twice the spread, nor one whose direction is not known', () => {
    const unsure = about('same-side', measured('same', 3, { ...NO_SUM, ...known(4) }));
    expect(unsure.moveCm).toBeNull();
    expect(unsure.text).toMatch(/ B may be 3 cm too far, but that’s not certain enough to move it\.$/);
    const unknown = about('same-side', measured('same', -3, { ...NO_SUM, ...known(null) }));
    expect(unknown.text).toMatch(/ B may be 3 cm too close, but that’s not certain enough to move it\.$/);
  });

  it('leads with the doubt where such a pair hardly has the gap, and moves nothing', () => {
    const far = about('same-side', measured('inverted', -95));
    expect([far.action, far.moveCm, far.delayLaterMs, far.plan]).toEqual(['cannot-tell', null, null, []]);
    expect(far.text).toBe('95 cm is a long way for two on the same side: check that the right two are patched.');
    expect(far.callOut).toBe('95 cm is a long way: check the patch');
    expect(far.notes).toEqual(['Measured: B is 95 cm closer, and B starts the opposite way to A.']);
    expect(about('two-overheads', measured('same', 105)).text).toMatch(/^105 cm is a long way for two overheads: /);
  });
});

describe('beside it', () => {
  it('how sure it is: agreement, spread and accuracy, never mixed', () => {
    const r = measured('same', 3, { agreement: 5 / 6, uncertaintySamples: 1.2 / CM_PER_SAMPLE }, 0.4);
    expect(about('same-side', r).sureness).toBe(
      '5 of 6 hits agree, hit-to-hit spread ±4 mm; accurate to ±1.2 cm (90 %)',
    );
    const without = changed(r, { uncertaintySamples: null });
    expect(about('same-side', without).sureness).toBe(
      '5 of 6 hits agree, hit-to-hit spread ±4 mm; accuracy unknown so far',
    );
    expect(about('same-side', without, { ended: true }).sureness).toMatch(/; accuracy unknown$/);
  });

  it('the cautions of a move: stop, then what the microphone may meet, under the rules of the house', () => {
    const [stop, meets, house] = about('same-side', measured('same', 3)).cautions;
    expect(stop).toBe('Ask the drummer to stop before you reach in. Move the stand, step away, then four hits.');
    expect(meets).toMatch(/stick/);
    expect(house).toMatch(/^House rules.* come first/);
    expect(about('same-side', measured('same', 0.2)).cautions).toEqual([]);
  });

  it('what a move of an overhead does to the other drums, and for which drum it is', () => {
    const cm = (path: number): number => path / CM_PER_SAMPLE;
    const kit = (path: number, ids: [number, number][]): Reading => {
      const others = ids.map(([id, at]) => drum(id, { delaySamples: cm(at) }));
      return measured('same', path, { drum: 1, drums: [drum(1, { delaySamples: cm(path) }), ...others] });
    };
    const a = about('two-overheads', kit(24, [[2, -46]]));
    expect(a.notes).toContain(
      'If the move brings B that much closer to drum 2 too, the path for drum 2 goes from 46 cm to 70 cm. Measure both drums again afterwards.',
    );
    expect(a.callOut).toBe('B: 24 cm closer, for drum 1');
    const back = about('two-overheads', kit(-24, [[3, -46]]));
    expect(back.notes.join(' ')).toMatch(
      /If the move takes B that much further from drum 3 too, the path for drum 3 goes from 46 cm to 22 cm\./,
    );
    expect(about('two-overheads', kit(24, [])).callOut).toBe('B: 24 cm closer');
    // too long for a call
    const long = about('two-overheads', turnedOver(changed(kit(24, [[2, 10]]), {})), { invertB: false });
    expect(long.callOut).toBe('Invert B. Then B: 24 cm closer, for drum 1');
  });

  it('the sum where it says the opposite of the first push, and the drum that lies in the gap', () => {
    const torn = about('other', measured('same', 0.3, sumOf({ polarity: 'inverted', delaySamples: 0 })));
    expect(torn.notes[0]).toBe(
      'B starts the same way as A, but with the mics where they are, the drum’s low octave (60–120 Hz) is 13 dB fuller with B inverted. The plan follows the sum.',
    );
    const gap = about('top-bottom', measured('inverted', 9));
    expect(gap.notes).toContain('Moving a stand won’t make up the 9 cm: the drum is between the two mics.');
  });

  it('what is unusual of the wiring, and the plan once that is right: the large sentence never stands against it', () => {
    const a = about('same-side', measured('inverted', 3), { switched: false });
    expect(a.callOut).toMatch(/^Invert B/);
    expect(a.notes).toContain(
      'These two usually start the same way. Stop the drummer, monitors down, and check the cables and the polarity switches first; if they are right, invert B, then bring it 3 cm closer to the drum, or A 3 cm back.',
    );
    const open = about('top-bottom', measured('same', 0.3));
    expect(open.notes).toContain(
      'These two usually start in opposite directions, unless a polarity switch is pressed. Stop the drummer, monitors down, and check the cables and the polarity switches first; if they are right, leave both as they are.',
    );
  });

  it('what a band would gain is never told where nobody can say what inverting gains', () => {
    const sum = sumOf({ polarity: 'inverted', delaySamples: 0, all: false });
    const a = about('other', measured('inverted', 0.3, sum));
    expect(a.text).toMatch(/what .* would gain/);
    expect(a.notes.filter((note) => / gains? /.test(note))).toEqual([]);
    // and not that the whole drum doesn't gain, where a person leaves it although it does
    const leave = { invertB: false, delayMs: null, moveCm: null };
    const left = about('other', measured('inverted', 0.3), { chosen: leave });
    expect(left.notes.join(' ')).not.toMatch(/whole drum/);
  });

  it('whatever sends hands to the kit says what to mind, the whole of it first', () => {
    const PATCH =
      'Drummer stopped and monitors down before you patch. Phantom power off before you plug or patch a ribbon or a speaker used as a mic.';
    const HANDS = /^Stop the drummer before anyone touches .* phantom power off first /;
    const first = (kind: PairKindId, r: Reading): string => about(kind, r, { switched: false }).cautions[0] ?? '';
    for (const reason of ['a-silent', 'b-silent', 'both-silent'] as const)
      expect(first('other', reading({ state: 'no-signal', reason }))).toBe(PATCH);
    for (const reason of ['gain-copy', 'bit-identical'] as const)
      expect(first('other', reading({ state: 'same-signal', reason }))).toBe(PATCH);
    expect(first('same-side', measured('inverted', -95))).toBe(PATCH);
    expect(first('same-side', measured('inverted', 3))).toBe(PATCH);
    expect(first('other', reading({ state: 'unclear', reason: 'lows-only-b', hits: 8 }))).toBe(PATCH);
    for (const reason of ['push-and-shape-disagree', 'no-common-signal'] as const)
      expect(first('other', reading({ state: 'unclear', reason, hits: 8 }))).toMatch(HANDS);
    // a gain, a hit, nothing
    expect(first('other', reading({ state: 'overloaded', reason: 'clipped-a' }))).toBe('');
    expect(first('other', reading({ hits: 1, hitsPooled: 1, reason: 'too-few-hits' }))).toBe('');
    expect(first('same-side', measured('same', 0.1))).toBe('');
  });

  it('what a person chose, and what would be recommended', () => {
    const leave = { invertB: false, delayMs: null, moveCm: null };
    const a = about('close-overhead', measured('inverted', 100), { chosen: leave });
    expect([a.text, a.callOut, a.chosen]).toEqual(['Your choice: leave it.', 'Leave it', true]);
    const gains = '\\+[\\d.]+ dB in the drum’s low octave and \\+[\\d.]+ dB overall';
    expect(a.notes[0]).toMatch(new RegExp(`^Recommended: invert B, delay A by 2\\.91 ms in the mix, ${gains}\\.$`));
    const delay = about('close-overhead', measured('inverted', 100), { chosen: { ...leave, delayMs: 2.91 } });
    expect(delay.text).toMatch(/^Your choice: delay A by 2\.91 ms in the mix, −/);
  });
});

describe("the meter's own invert", () => {
  it('turns the advice to the real switch', () => {
    const on = { invertB: true };
    const press = about('top-bottom', turnedOver(measured('inverted', 0.5)), on);
    expect(press.action).toBe('invert');
    const both = 'Mute B, press its polarity switch, unmute, then switch “Invert B here” off';
    expect(press.text).toMatch(starting(both));
    expect(press.callOut).toBe('Press B’s polarity switch, “Invert B here” off');
    const drop = about('same-side', turnedOver(measured('same', 0.3)), on);
    expect(drop.action).toBe('leave');
    expect(drop.text).toBe('Switch “Invert B here” off: fuller that way.');
    expect(drop.callOut).toBe('Switch “Invert B here” off');
  });

  it('taken off is fuller only where that is known, and is a gain', () => {
    const off = (sum: Partial<Flat>): string =>
      about('other', turnedOver(measured('same', 0.3, sum)), { invertB: true }).text;
    expect(off({})).toBe('Switch “Invert B here” off: fuller that way.');
    const little = sumOf({ polarity: 'same', delaySamples: 0, common: 0.05 });
    for (const sum of [NO_SUM, sumOf({ polarity: 'inverted', delaySamples: 0, all: false }), little]) {
      expect(off(sum)).toMatch(/^Switch “Invert B here” off; /);
      expect(off(sum)).not.toMatch(/fuller/);
    }
  });

  it('comes before a move, in one sentence', () => {
    const press = about('same-side', turnedOver(measured('inverted', 2.5)), { invertB: true });
    expect(press.action).toBe('invert-and-move');
    expect(press.text).toMatch(
      starting(
        'Mute B, press its polarity switch, unmute, then switch “Invert B here” off, then bring B 2.5 cm closer to the drum, or A 2.5 cm back',
      ),
    );
    expect(press.callOut).toBe('Press B’s polarity switch, “Invert B here” off. Then B: 2.5 cm closer');
  });

  it('is taken out of what is said of the first push and of the sum', () => {
    const r = measured('same', 0.3, sumOf({ polarity: 'inverted', delaySamples: 0 }));
    expect(about('other', turnedOver(r), { invertB: true }).notes[0]).toMatch(
      /^With “Invert B here” off, B starts the same way as A, but with the mics where they are, .* fuller with “Invert B here” on\. /,
    );
  });

  it('draws what the advice would change of the curve that is shown', () => {
    const change = (polarity: Polarity, cm: number, invertB: boolean): ReturnType<typeof afterAdvice> => {
      const context: AdviceContext = { kind: 'same-side', temperatureC: 20, invertB };
      const r = measured(polarity, cm);
      return afterAdvice(advise(invertB ? turnedOver(r) : r, context), context);
    };
    expect(change('same', 0.2, false)).toBeNull();
    expect(change('inverted', 0.2, true)).toBeNull();
    expect(change('inverted', 0.2, false)).toEqual({ shiftSeconds: 0, invert: true });
    expect(change('same', 0.2, true)).toEqual({ shiftSeconds: 0, invert: true });
    expect(change('inverted', 3, true)?.invert).toBe(false);
    expect(change('inverted', 3, true)?.shiftSeconds).toBeCloseTo(0.03 / METRES_PER_SECOND, 8);
    const context: AdviceContext = { kind: 'other', temperatureC: 20, invertB: false };
    expect(afterAdvice(advise(measured('same', 100), context), context)?.shiftSeconds).toBeCloseTo(0.00291, 9);
    expect(afterAdvice(advise(reading(), context), context)).toBeNull();
  });
});
