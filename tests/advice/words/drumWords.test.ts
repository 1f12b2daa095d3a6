import { describe, expect, it } from 'vitest';
import { advise } from '../../../src/advice/advise';
import { whichShown } from '../../../src/advice/plan/drums';
import { agreeingOf } from '../../../src/advice/plan/reasons';
import { drumAnswer, drumCalled, theDrumCalled, usedText, whichDrumText } from '../../../src/advice/words/drumWords';
import { agreeingText, reasonSentence } from '../../../src/advice/words/reasonWords';
import { whySentences } from '../../../src/advice/words/whyWords';
import { micName, named, polarityText } from '../../../src/advice/words/wording';
import type { DrumReading, HitReading, Reading } from '../../../src/reading/reading';
import { answerOf } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { CM_PER_SAMPLE, drum, measured, RATE, reading } from '../readings';

const CONTEXT = { kind: 'other', temperatureC: 20, invertB: false } as const;

function hits(fates: HitReading['fate'][]): HitReading[] {
  return fates.map((fate, i) => ({
    serial: i + 1,
    timeSeconds: i,
    delaySamples: 1,
    polarity: 'same',
    fate,
    drum: 1,
    levelADbfs: -10,
    levelBDbfs: -12,
    correlation: null,
    bandCorrelation: [null, null, null, null],
  }));
}

const kit = (fields: Partial<Flat> = {}): Reading =>
  measured('inverted', 12, { hits: 31, hitsUsed: 9, hitsPooled: 9, drum: 2, drums: [drum(2), drum(1)], ...fields });

describe('drums in words', () => {
  it.each<[string, Partial<DrumReading>]>([
    ['inverted, B 12 cm further', {}],
    ['same, A 3 cm further', { polarity: 'same', delaySamples: -3 / CM_PER_SAMPLE }],
    ['same, B at the same distance as A', { polarity: 'same', delaySamples: 0 }],
    ['no answer yet: hit 2 of 4', { state: 'listening', reason: 'too-few-hits', hitsPooled: 2 }],
    ['can’t tell: the hits don’t agree', { state: 'unclear', reason: 'hits-disagree', polarity: null }],
    ['a mic is being moved', { state: 'following', reason: 'moving', polarity: null }],
  ])('say %s', (text, fields) => {
    expect(drumAnswer(drum(1, fields), { sampleRate: RATE, hitsNeeded: 4 }, 20)).toBe(text);
  });

  it.each<[string, Partial<DrumReading>]>([
    ['inverted, B 12 cm further', {}],
    ['too few hits', { state: 'listening', reason: 'too-few-hits', hitsPooled: 2 }],
    ['no usable hit', { state: 'listening', reason: 'too-few-hits', hitsPooled: 0 }],
    ['can’t tell: the hits don’t agree', { state: 'unclear', reason: 'hits-disagree', polarity: null }],
    ['a mic was being moved until the end', { state: 'following', reason: 'moving', polarity: null }],
  ])('after the end wait for nothing: %s', (text, fields) => {
    expect(drumAnswer(drum(1, fields), { sampleRate: RATE, hitsNeeded: 4 }, 20, true)).toBe(text);
  });

  it('a colder room is a shorter path', () => {
    // c = 331.3·√(T/273.15): 0 °C is 331.3 m/s, so 480 samples at 48 kHz are 3.313 m
    const late = drum(1, { delaySamples: 480, polarity: 'same' });
    const at = { sampleRate: 48000, hitsNeeded: 4 };
    expect(drumAnswer(late, at, 0)).toBe('same, B 331 cm further');
    expect(drumAnswer(late, at, 20)).toBe('same, B 343 cm further');
  });
});

describe('names', () => {
  const names = { aLabel: 'Snare top', bLabel: 'Snare bottom', drumNames: new Map([[2, 'snare']]) };

  it('of drums, where somebody said them', () => {
    expect([drumCalled(2, names), drumCalled(1, names), drumCalled(2, {})]).toEqual(['snare', 'drum 1', 'drum 2']);
    expect([theDrumCalled(2, names), theDrumCalled(1, names)]).toEqual(['the snare', 'drum 1']);
  });

  it('of microphones: alone, or beside the letter', () => {
    expect([micName('A', names), micName('B', names)]).toEqual(['Snare top', 'Snare bottom']);
    expect([micName('A', {}), micName('B', { bLabel: ' ' })]).toEqual(['A', 'B']);
    expect([named('A', { ...CONTEXT, ...names }), named('B', {})]).toEqual(['A (Snare top)', 'B']);
  });

  it('of a microphone whose polarity it is, without its letter', () => {
    const labelled = { ...CONTEXT, ...names };
    expect(polarityText(true, labelled)).toBe('Invert B (Snare bottom)');
    expect(polarityText(false, labelled)).toBe('Leave Snare bottom’s polarity alone');
    expect(polarityText(false, { ...labelled, invertB: true })).toMatch(
      /^Mute Snare bottom, press its polarity switch, unmute, then/,
    );
  });

  it('of microphones are in what a drum says', () => {
    const said = drumAnswer(drum(1), { sampleRate: RATE, hitsNeeded: 4 }, 20, false, names);
    expect(said).toBe('inverted, Snare bottom 12 cm further');
  });

  it('are in what the reading is about', () => {
    expect(whichDrumText({ code: 'chosen', drum: 2 }, names)).toBe('snare, your choice');
    expect(whichDrumText({ code: 'chosen', drum: 1 }, names)).toBe('drum 1, your choice');
    expect(whichDrumText({ code: 'picked', drum: 1 }, names)).toBe('drum 1, the meter’s pick');
    expect(usedText(kit(), names)).toBe('9 of all 31 hits (snare, the meter’s pick)');
    expect(usedText(kit(), { drumNames: new Map([[1, 'kick']]) })).toBe('9 of all 31 hits (drum 2, the meter’s pick)');
    expect(usedText(kit({ drumChosen: true }), names)).toBe('9 of all 31 hits (snare, your choice)');
  });
});

describe('what was used', () => {
  it('names the drum where several are heard', () => {
    expect(usedText(kit())).toBe('9 of all 31 hits (drum 2, the meter’s pick)');
    expect(usedText(kit({ drumChosen: true }))).toBe('9 of all 31 hits (drum 2, your choice)');
    expect(usedText(kit({ drum: null, hitsUsed: 0 }))).toBe('0 of all 31 hits');
  });

  it('is plain where there is one, and old hits were not refused', () => {
    expect(usedText(measured('same', 3))).toBe('6 of 6 hits');
    const perHit = hits(['old', 'old', 'used', 'used', 'clipped', 'used', 'used']);
    expect(usedText(measured('same', 3, { hits: 7, hitsUsed: 4, perHit, drum: 1, drums: [drum(1)] }))).toBe(
      '4 of 5 hits',
    );
    expect(usedText(reading({ hits: 1, perHit: hits(['clipped']) }))).toBe('0 of 1 hit');
  });

  it('says what is counted where more hits were heard than count', () => {
    // 10 of 11, beside 18 heard of this drum
    const some = kit({ hitsUsed: 10, hitsPooled: 11, agreement: 10 / 11, drums: [drum(2, { hits: 18 }), drum(1)] });
    expect(agreeingText(agreeingOf(answerOf(some)))).toBe('10 of the last 11 hits');
    expect(reasonSentence(some)).toBe('10 of the last 11 hits agree on polarity and delay: the reading is steady.');
    expect(whySentences(some, CONTEXT)[1]).toMatch(/^10 of the last 11 hits on this drum agree: /);
    // the hits of other drums don't count as this one's
    expect(agreeingText(agreeingOf(answerOf(kit({ drums: [drum(2, { hits: 9 }), drum(1)] }))))).toBe('9 of 9 hits');
    expect(agreeingText(agreeingOf(answerOf(measured('same', 3))))).toBe('6 of 6 hits');
    expect(agreeingText(agreeingOf(answerOf(measured('same', 3, { hits: 8 }))))).toBe('6 of the last 6 hits');
  });

  it('is in how sure it is, in every state', () => {
    expect(advise(kit(), CONTEXT).sureness).toMatch(
      /^9 of the last 9 hits \(drum 2, the meter’s pick\) agree, hit-to-hit spread ±/,
    );
    expect(advise(kit({ drumChosen: true }), CONTEXT).sureness).toMatch(
      /^9 of the last 9 hits \(drum 2, your choice\) agree/,
    );
    const unclear = kit({ state: 'unclear', reason: 'hits-disagree', polarity: null, delaySamples: null });
    expect(advise(unclear, CONTEXT).sureness).toBe('no timing: the hits don’t agree (drum 2, the meter’s pick)');
    // one drum: not a word of it
    for (const one of [measured('same', 3), measured('same', 3, { drum: 1, drums: [drum(1)] }), reading()]) {
      expect(whichDrumText(whichShown(one))).toBe('');
      expect(advise(one, CONTEXT).sureness).not.toMatch(/loudest|chosen/);
    }
  });
});
