/** Advice as a table: pair kinds × polarity × path × what the sum says. The rules are this program's own (README). */

import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise, afterAdvice } from '../../src/advice/advise';
import { PAIR_KIND_IDS, type PairKindId } from '../../src/advice/plan/pairKinds';
import type { Fuller } from '../../src/reading/codes';
import type { DrumReading, Polarity, Reading } from '../../src/reading/reading';
import { changed, type Flat } from '../support/readings/flat';
import { bands, CM_PER_SAMPLE, delaySpectrum, drum, measured, reading, sums } from './readings';

const METRES_PER_SECOND = 343.21;

function about(kind: PairKindId, r: Reading, more: Partial<AdviceContext> = {}): Advice {
  return advise(r, { kind, temperatureC: 20, invertB: false, ...more });
}
const brief = (a: Advice): [string, number | null, number | null] => [a.action, a.moveCm, a.delayLaterMs];

describe('a pair that can be brought together', () => {
  it.each<[PairKindId, Polarity, number, string, number | null]>([
    ['same-side', 'same', 0.3, 'leave', null],
    ['same-side', 'same', 0.9, 'leave', null],
    ['same-side', 'same', 1.1, 'move', 1],
    ['same-side', 'same', 3.2, 'move', 3],
    ['same-side', 'same', 3.3, 'move', 3.5],
    ['same-side', 'same', -4, 'move', -4],
    ['same-side', 'same', 14.4, 'move', 14],
    ['same-side', 'inverted', 0.3, 'invert', null],
    ['same-side', 'inverted', -3.2, 'invert-and-move', -3],
    ['two-overheads', 'same', 2.8, 'leave', null],
    ['two-overheads', 'same', 12.6, 'move', 13],
    ['two-overheads', 'inverted', 12.6, 'invert-and-move', 13],
    ['top-bottom', 'inverted', 1.5, 'invert', null],
    ['top-bottom', 'inverted', 4.1, 'invert-and-move', 4],
    ['top-bottom', 'same', 5.9, 'move', 6],
    ['top-bottom', 'same', -5.9, 'move', -6],
  ])('%s, %s, B %d cm late: %s %s', (kind, polarity, cm, action, moveCm) => {
    expect(brief(about(kind, measured(polarity, cm)))).toEqual([action, moveCm, null]);
  });

  it('says the move for either microphone, both ways, with the labels where there are any', () => {
    expect(about('same-side', measured('inverted', 3)).text).toBe(
      'Invert B, then bring it 3 cm closer to the drum, or A 3 cm back.',
    );
    expect(about('same-side', measured('same', -3)).text).toBe(
      'Take B 3 cm back from the drum, or bring A 3 cm closer.',
    );
    const labels = { aLabel: 'top', bLabel: 'bottom' };
    expect(about('top-bottom', measured('inverted', -3), labels).text).toBe(
      'Invert B (bottom), then take it 3 cm back from the drum, or bring A (top) 3 cm closer.',
    );
  });

  it('has a call for the talkback, in words', () => {
    expect(about('same-side', measured('inverted', 3)).callOut).toBe('Invert B. Then B closer, 3 centimetres');
    expect(about('same-side', measured('same', 1)).callOut).toBe('B closer, 1 centimetre');
    expect(about('same-side', measured('same', -3.5)).callOut).toBe('B back, 3.5 centimetres');
    expect(about('same-side', measured('same', 0.2)).callOut).toBe('Everything is fine, leave it');
  });

  it('puts the cautions beside a move: stop, then what the microphone may meet, under the rules of the house', () => {
    const [stop, meets, house] = about('same-side', measured('same', 3)).cautions;
    expect(house).toMatch(/^House rules.* come first/);
    expect(stop).toBe('Ask the drummer to stop before you reach in; measure again after.');
    expect(meets).toMatch(/stick/);
    expect(about('same-side', measured('same', 0.2)).cautions).toEqual([]);
  });

  it('says how sure it is: agreement, repeats and uncertainty, never mixed', () => {
    const r = measured('same', 3, { agreement: 5 / 6, uncertaintySamples: 1.2 / CM_PER_SAMPLE }, 0.4);
    expect(about('same-side', r).sureness).toBe('5 of 6 hits agree, within ±4 mm; true to about ±1.2 cm (90 %)');
    expect(about('same-side', changed(r, { uncertaintySamples: null })).sureness).toBe(
      '5 of 6 hits agree, within ±4 mm; accuracy not known yet',
    );
  });

  it('says no move below twice the repeats, nor one whose direction is not known', () => {
    const scattered = about('same-side', measured('same', 3, {}, 1.6));
    expect(brief(scattered)).toEqual(['leave', null, null]);
    const unsure = about('same-side', measured('inverted', 3, { uncertaintySamples: 4 / CM_PER_SAMPLE }));
    expect(brief(unsure)).toEqual(['invert', null, null]);
    for (const a of [scattered, unsure]) {
      expect(a.text).toMatch(/B may be some 3 cm late, known only to ±\d/);
      expect(a.text).not.toMatch(/fine/);
    }
  });

  it('rounds no finer than is known', () => {
    const known = (cm: number): Partial<Flat> => ({ uncertaintySamples: cm / CM_PER_SAMPLE });
    expect(about('same-side', measured('same', 7.3, known(0.4))).moveCm).toBe(7.5);
    expect(about('same-side', measured('same', 7.3, known(1.2))).moveCm).toBe(7);
    expect(about('same-side', measured('same', 7.3, known(2.4))).moveCm).toBe(8);
    expect(about('same-side', measured('same', 17.3, known(5.4))).moveCm).toBe(15);
  });

  it('goes by the arrival where the sum says the opposite, says both, and what the move will change', () => {
    const late = 3 / METRES_PER_SECOND / 100;
    const ideal = measured('inverted', 3, { ...sums('as-is'), spectrum: delaySpectrum(late, 'inverted') });
    const a = about('same-side', ideal);
    expect(a.action).toBe('invert-and-move');
    expect(a.text).toMatch(
      /A 3 cm back\. As things stand the drum's own low octave \(60–120 Hz\) is fuller with B as it is; after the move that should change\.$/,
    );
    expect(a.notes[0]).toMatch(/^Arrival and sum disagree: .* after the move .* fuller with B inverted\.$/);
    const stays = about('same-side', changed(ideal, { spectrum: delaySpectrum(late, 'same') }));
    expect(stays.text).toMatch(/ As things stand .* with B as it is; listen after the move\.$/);
    expect(about('same-side', measured('same', 0.2, sums('inverted'))).text).toMatch(
      /equal within 4 mm\. As things stand the drum's own low octave \(60–120 Hz\) is fuller with B inverted: listen to both\.$/,
    );
    expect(stays.notes[0]).toMatch(/should stay so after the move: listen to both/);
  });

  it('says what a move of an overhead does to the other drums, and for which drum it is', () => {
    const cm = (path: number): number => path / CM_PER_SAMPLE;
    const kit = (path: number, others: DrumReading[], fields: Partial<Flat> = {}): Reading =>
      measured('same', path, { drum: 1, drums: [drum(1, { delaySamples: cm(path) }), ...others], ...fields });
    const a = about('two-overheads', kit(24, [drum(2, { delaySamples: cm(-46) })]));
    expect(a.moveCm).toBe(24);
    expect(a.notes).toContain(
      'If B comes as much closer to drum 2 too, that takes drum 2 from 46 cm to 70 cm apart: measure both again after the move.',
    );
    expect(a.callOut).toBe('B closer, 24 centimetres, for drum 1');
    const back = about('two-overheads', kit(-24, [drum(3, { delaySamples: cm(-46) })]));
    expect(back.notes.join(' ')).toMatch(/If B goes as much back from drum 3 too, .* from 46 cm to 22 cm apart:/);
    // a drum without an answer has no number; one drum needs no name; other pairs are at one drum
    const listening = drum(2, { state: 'listening', reason: 'too-few-hits', delaySamples: cm(-46) });
    expect(about('two-overheads', kit(24, [listening])).notes.join(' ')).not.toMatch(/drum 2/);
    const unread = drum(2, { state: 'unclear', reason: 'hits-disagree', delaySamples: null });
    expect(about('two-overheads', kit(24, [unread])).notes.join(' ')).not.toMatch(/drum 2/);
    expect(about('two-overheads', kit(24, [])).callOut).toBe('B closer, 24 centimetres');
    const other = about('same-side', kit(24, [drum(2, { delaySamples: cm(-46) })]));
    expect(`${other.callOut} ${other.notes}`).not.toMatch(/drum \d/);
    // too long for a call
    const long = about('two-overheads', kit(24, [drum(2)]), { invertB: true });
    expect(long.callOut).toBe("Press B's polarity switch. Then B closer, 24 centimetres");
    // no move, no note
    expect(about('two-overheads', kit(1, [drum(2)])).notes.join(' ')).not.toMatch(/drum 2/);
  });

  it('leads with the doubt where such a pair hardly has the gap, and moves nothing', () => {
    const far = about('same-side', measured('inverted', -95));
    expect(brief(far)).toEqual(['cannot-tell', null, null]);
    expect(far.text).toBe('95 cm is far for two on the same side: check that A and B are what the pair says.');
    expect(far.callOut).toBe('95 centimetres is far: check A and B');
    expect(far.notes).toEqual([
      "What was read: B hears the drum 95 cm earlier, and B's first push is opposite to A's.",
    ]);
    expect(about('same-side', measured('same', 29)).moveCm).toBe(29);
    expect(about('two-overheads', measured('same', 95)).moveCm).toBe(95);
    expect(about('two-overheads', measured('same', 105)).text).toMatch(/^105 cm is far for two overheads: /);
  });

  it('calls nothing fine that is not known to be', () => {
    const known = (cm: number | null): Partial<Flat> => ({
      uncertaintySamples: cm === null ? null : cm / CM_PER_SAMPLE,
    });
    const rough = about('top-bottom', measured('same', 0.3, known(10.2)));
    expect(brief(rough)).toEqual(['leave', null, null]);
    expect(rough.text).toBe(
      "Leave B's polarity as it is; the distance is known only to ±10 cm, so no move is advised.",
    );
    expect(about('top-bottom', measured('inverted', 0.3, known(10.2))).text).toBe(
      'Invert B: press its polarity switch. Leave both where they are: the distance is known only to ±10 cm, so no move is advised.',
    );
    const unknown = about('top-bottom', measured('same', 0.3, known(null)));
    expect(brief(unknown)).toEqual(['leave', null, null]);
    expect(unknown.text).toBe(
      "Leave B's polarity as it is; how accurate the distance is isn't known yet, so no move is advised.",
    );
    // top-bottom's tolerance is 2 cm
    expect(about('top-bottom', measured('same', 0.3, known(1.9))).text).toBe(
      "Everything is fine, leave it: B's first push is the same way as A's, and the distances are equal within 1.9 cm.",
    );
    const overhead = about('close-overhead', measured('same', 1, { ...sums('as-is'), ...known(8) }));
    expect(overhead.text).toMatch(/^Leave B's polarity .* known only to ±8 cm, so no delay is advised\.$/);
  });
});

describe('a pair that cannot be brought together', () => {
  const fixed = PAIR_KIND_IDS.filter((id) => !['same-side', 'two-overheads', 'top-bottom'].includes(id));

  it.each(fixed)('%s: the sum decides the polarity, the arrival where the sum is silent', (kind) => {
    const decide = (polarity: Polarity, fuller: Fuller | null): string =>
      about(kind, measured(polarity, 100, fuller === null ? {} : sums(fuller))).action;
    expect(decide('same', 'as-is')).toBe('delay-later');
    expect(decide('same', 'inverted')).toBe('invert');
    expect(decide('inverted', 'inverted')).toBe('invert');
    // a delay alone would bring opposite pushes together
    expect(decide('inverted', 'as-is')).toBe('leave');
    expect(decide('same', 'either')).toBe('delay-later');
    expect(decide('inverted', 'either')).toBe('invert');
    expect(decide('same', null)).toBe('delay-later');
    expect(decide('inverted', null)).toBe('invert');
  });

  it('gives the band, the dB and the delay to apply later', () => {
    // 1 m at 343.21 m/s is 2.914 ms (check: 1 m / c)
    const a = about('close-overhead', measured('same', 100, sums('as-is', 4.2)));
    expect(brief(a)).toEqual(['delay-later', null, 2.91]);
    expect(a.text).toBe(
      "Leave B's polarity as it is: the drum's own low octave (60–120 Hz) comes out 4 dB fuller that way, and B's first push is the same way as A's. To bring the attacks together in the mix, if wanted, delay A by 2.91 ms (B hears the drum 100 cm later).",
    );
    const b = about('close-overhead', measured('same', -100, sums('as-is')));
    expect(b.delayLaterMs).toBe(-2.91);
    expect(b.text).toMatch(/delay B by 2\.91 ms \(B hears the drum 100 cm earlier\)/);
    expect(b.callOut).toBe('Leave B, delay B 2.91 milliseconds in the mix');
  });

  it('says the path beside a delay so that neither contradicts the numbers that are shown', () => {
    // 6.7 cm at 343.21 m/s are 0.195 ms; the uncertainty makes 0.2 ms of it
    const known = (cm: number): Partial<Flat> => ({ ...sums('as-is'), uncertaintySamples: cm / CM_PER_SAMPLE });
    expect(about('close-overhead', measured('same', 6.7, known(5))).text).toMatch(
      /delay A by 0\.2 ms \(B hears the drum 7 cm later\)/,
    );
    expect(about('close-overhead', measured('same', 6.7, known(0.4))).text).toMatch(
      /0\.2 ms \(B hears the drum 6\.5 cm/,
    );
    for (const [cm, unsure] of [
      [-97.3, 12],
      [133, 60],
      [24.4, 21],
      [-17.6, 3],
    ] as const) {
      const a = about('close-overhead', measured('same', cm, known(unsure)));
      const said = Number(/B hears the drum ([\d.]+) cm/.exec(a.text)?.[1]);
      expect(Math.abs(said - Math.abs(cm))).toBeLessThanOrEqual(0.5);
      // the delay as it is said, in the words of the path: a tenth of a millisecond is 3.4 cm
      expect(Math.abs(said - Math.abs(a.delayLaterMs ?? 0) * METRES_PER_SECOND * 0.1)).toBeLessThan(1.72 + 0.5);
    }
  });

  it('says both where arrival and sum disagree, and which polarity belongs to the delay', () => {
    const a = about('close-overhead', measured('same', 100, sums('inverted')));
    expect(a.text).toMatch(
      /^Invert B: the drum's own low octave \(60–120 Hz\) comes out 4 dB fuller that way, though the arrival/,
    );
    expect(a.text).toMatch(/delay A by 2\.91 ms and listen with B as it is/);
    expect(a.callOut).toBe('Invert B');
    expect(a.notes[0]).toMatch(/so the sum decides\.$/);
  });

  it('says so where the delay would leave the low end the other way round', () => {
    // the aligned low end is inverted although the first pushes are the same way
    const r = measured('same', 100, { ...sums('as-is'), spectrum: delaySpectrum(1 / METRES_PER_SECOND, 'inverted') });
    expect(about('close-room', r).text).toMatch(/the drum's own low octave would then be fuller with B inverted\.$/);
  });

  it('names another strong band that says the opposite, not a weak one, nor one below the drum', () => {
    const other = (fields: Partial<Flat>): string =>
      about('other', measured('same', 100, { ...sums('as-is', 4, 177, 354), ...fields })).notes.join(' ');
    expect(other({ bands: bands({ mid: -3 }) })).toMatch(/Another band says the opposite: 800 Hz–3 kHz is 3 dB fuller/);
    expect(other({ bands: bands({ mid: -1.5 }) })).toBe('');
    expect(other({ bands: bands({ low: -6 }) })).toBe('');
    expect(other({ bands: bands({ mid: 3 }) })).toBe('');
  });

  it('names the own octave of the drum, so that nobody takes it for the row that is named low', () => {
    // the row low, 30–150 Hz, says the opposite of the octave
    const opposite = bands({ low: -6 });
    const readings = [
      measured('same', 100, { ...sums('as-is', 4, 177, 354), bands: opposite }),
      measured('same', 100, { ...sums('inverted', 4, 177, 354), bands: bands({ low: 6 }) }),
      measured('same', 100, { ...sums('either', 0, 177, 354), bands: opposite }),
      reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...sums('as-is', 4, 177, 354), bands: opposite }),
      reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...sums('either', 0, 177, 354), bands: opposite }),
    ];
    for (const r of readings) {
      const a = about('other', r);
      expect([a.text, ...a.notes].join(' ')).toMatch(/the drum's own low octave \(177–354 Hz\)/i);
      expect(a.callOut).not.toMatch(/octave/);
    }
  });

  it('leaves alone what is within the tolerance, and says no delay that repeats or uncertainty drown', () => {
    expect(about('close-overhead', measured('same', 4, sums('as-is'))).text).toMatch(/^Everything is fine, leave it/);
    const unsure = measured('same', 40, { ...sums('as-is'), uncertaintySamples: 60 / CM_PER_SAMPLE });
    expect(brief(about('close-overhead', unsure))).toEqual(['leave', null, null]);
    expect(about('close-overhead', unsure).text).not.toMatch(/fine/);
  });

  it('treats top and bottom farther apart than 6 cm as one of these, and says why', () => {
    const a = about('top-bottom', measured('inverted', 9, sums('inverted')));
    expect(brief(a)).toEqual(['invert', null, 0.26]);
    expect(a.notes.join(' ')).toMatch(/A gap of 9 cm can't be taken away by a stand/);
  });
});

describe("the meter's own invert", () => {
  it('turns the advice to the real switch', () => {
    const on = { invertB: true };
    const keep = about('top-bottom', measured('same', 0.5), on);
    expect(keep.action).toBe('invert');
    expect(keep.text).toBe(
      "Press B's polarity switch, then take the meter's invert off. Leave both where they are: the distances are equal within 5 mm.",
    );
    expect(keep.callOut).toBe("Press B's polarity switch");
    const drop = about('same-side', measured('inverted', 0.3), on);
    expect(drop.action).toBe('leave');
    expect(drop.text).toMatch(/^Take the meter's invert off: B is right without it\. Leave both/);
    expect(drop.callOut).toBe("Take the meter's invert off");
  });

  it('comes before a move, in one sentence', () => {
    const press = about('same-side', measured('same', 2.5), { invertB: true });
    expect(press.action).toBe('invert-and-move');
    expect(press.text).toBe(
      "Press B's polarity switch, then take the meter's invert off; then bring B 2.5 cm closer to the drum, or A 2.5 cm back.",
    );
    expect(press.callOut).toBe("Press B's polarity switch. Then B closer, 2.5 centimetres");
    const off = about('same-side', measured('inverted', -3), { invertB: true });
    expect(off.action).toBe('move');
    expect(off.text).toMatch(
      /^Take the meter's invert off: B is right without it; then take B 3 cm back from the drum/,
    );
    expect(off.callOut).toBe("Take the meter's invert off. Then B back, 3 centimetres");
  });

  it('is taken out of what is said of the first push', () => {
    const r = measured('inverted', 100, sums('inverted'));
    const a = about('close-overhead', r, { invertB: true });
    expect(a.text).toMatch(
      /^Take the meter's invert off: .* and without the meter's invert, B's first push is the same way as A's\./,
    );
    const split = about('close-overhead', measured('inverted', 100, sums('as-is')), { invertB: true });
    expect(split.notes[0]).toMatch(
      /^Arrival and sum disagree: without the meter's invert, B's first push is the same way .* fuller as the meter has it; /,
    );
  });

  it('speaks of the sum with B as it really stands', () => {
    const unclear = reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...sums('inverted') });
    expect(about('other', unclear).text).toMatch(/fuller with B inverted\.$/);
    expect(about('other', unclear, { invertB: true }).text).toMatch(/fuller without the meter's invert\.$/);
  });

  it('draws what the advice would change of the curve that is shown', () => {
    const context = (invertB: boolean): AdviceContext => ({ kind: 'same-side', temperatureC: 20, invertB });
    const change = (polarity: Polarity, cm: number, invertB: boolean): ReturnType<typeof afterAdvice> =>
      afterAdvice(advise(measured(polarity, cm), context(invertB)), context(invertB));
    expect(change('same', 0.2, false)).toBeNull();
    expect(change('same', 0.2, true)).toBeNull();
    expect(change('inverted', 0.2, false)).toEqual({ shiftSeconds: 0, invert: true });
    expect(change('inverted', 0.2, true)).toEqual({ shiftSeconds: 0, invert: true });
    expect(change('same', 3, true)?.invert).toBe(false);
    expect(change('same', 3, true)?.shiftSeconds).toBeCloseTo(0.03 / METRES_PER_SECOND, 8);
    expect(afterAdvice(advise(reading(), context(true)), context(true))).toBeNull();
  });
});
