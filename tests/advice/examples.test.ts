/** What people at a kit ran into, each as it must not be said again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise } from '../../src/advice/advise';
import { PAIR_KIND_IDS, type PairKindId } from '../../src/advice/plan/pairKinds';
import { REASONS, STATES } from '../../src/reading/codes';
import type { Polarity, Reading } from '../../src/reading/reading';
import type { Flat } from '../support/readings/flat';
import { CM_PER_SAMPLE, measured, NO_SUM, reading, sumOf, turnedOver } from './readings';

const about = (kind: PairKindId, r: Reading, more: Partial<AdviceContext> = {}): Advice =>
  advise(r, { kind, temperatureC: 20, invertB: false, ...more });
const said = (a: Advice): string => [a.text, a.callOut, a.sureness, ...a.notes, ...a.cautions].join('\n');
const unclear = (fields: Partial<Flat> = {}): Reading =>
  reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...fields });

it('snare top and overhead: one whole, not an invert with a delay that wants it off again', () => {
  // first pushes the same way, 80 cm apart: the body cancels as it stands, flipped or delayed it is full
  const r = measured('same', 62, sumOf({ polarity: 'same', delaySamples: 62 / CM_PER_SAMPLE, lowHz: 177 }));
  const a = about('close-overhead', r);
  const [todo, ...others] = a.plan;
  expect(todo).toMatchObject({ invertB: false, delayMs: expect.closeTo(1.81, 2), moveCm: null });
  expect(todo?.lowDb).toBeGreaterThanOrEqual(0);
  expect(todo?.allDb).toBeGreaterThanOrEqual(0);
  expect(others.some((one) => one.invertB && one.delayMs === null && (one.lowDb as number) > 0.5)).toBe(true);
  expect(a.text).toMatch(/^Delay A by 1\.8\d ms in the mix: \+/);
  expect(said(a)).not.toMatch(/listen with|if wanted|Invert B/);
  // the sum of now, told beside it, is no second instruction
  const yet = a.notes.filter((note) => note.includes('but with the mics where they are, the drum’s low octave'));
  expect(yet).toHaveLength(1);
  expect(yet[0]).toMatch(/fuller with B inverted\. With the delay, leave both polarities as they are\.$/);
});

it('snare top and overhead with “Invert B here” on: the sum of now is no second instruction either', () => {
  const r = measured('same', 62, sumOf({ polarity: 'same', delaySamples: 62 / CM_PER_SAMPLE, lowHz: 177 }));
  const a = about('close-overhead', turnedOver(r), { invertB: true });
  expect(a.text).toMatch(/^Switch “Invert B here” off, then delay A by 1\.8\d ms in the mix: /);
  const [note] = a.notes.filter((one) => one.includes('fuller with “Invert B here” on'));
  expect(note).toMatch(/\. With the delay, B’s polarity stays as it is wired\.$/);
  // and brought together
  const moved = about('two-overheads', r);
  expect(moved.text).toMatch(/^Bring B /);
  const [other] = moved.notes.filter((one) => one.includes('fuller with B inverted'));
  expect(other).toMatch(/\. With the move, leave both polarities as they are\.$/);
});

it('a delay that takes the first pushes apart says so', () => {
  const apart = (delayMs: number): string[] => {
    const r = measured('same', 62, sumOf({ polarity: 'same', delaySamples: 62 / CM_PER_SAMPLE, lowHz: 177 }));
    return about('close-overhead', r, { chosen: { invertB: false, delayMs, moveCm: null } }).notes;
  };
  expect(apart(1.81).join(' ')).not.toMatch(/apart/);
  expect(apart(1.4)).toContain('With that delay the first pushes are 0.41 ms apart.');
});

it('of two gains that aren’t both known a loss is named', () => {
  const sum = sumOf({ polarity: 'same', delaySamples: 0, all: false });
  expect(about('other', unclear(sum)).text).toMatch(
    /^No timing here; leave B’s polarity: inverting costs \d+ dB in the drum’s low octave \(60–120 Hz\)\.$/,
  );
});

it('an unusual polarity is looked at beside the advice, and never forbids what stands above it', () => {
  const a = about('same-side', measured('inverted', 0.3));
  expect(a.text).toMatch(/^Invert B: /);
  expect(a.notes).toContain(
    'These two usually start the same way, unless a polarity switch is pressed. Stop the drummer, monitors down, and check the cables and the polarity switches first; if they are right, invert B.',
  );
  expect(about('top-bottom', measured('same', 0.3)).notes[0]).toMatch(
    /^These two usually start in opposite directions, unless/,
  );
  expect(about('same-side', measured('inverted', 0.3), { switched: false }).notes[0]).toMatch(
    /^These two usually start the same way\. Stop the drummer/,
  );
  expect(said(a)).not.toMatch(/before you invert/);
});

describe('no answer', () => {
  it('is said of these hits, with what to do, and never of the pair for ever', () => {
    expect(about('other', unclear()).text).toBe(
      'No answer yet, because the hits don’t agree on one delay. Have just one drum hit, always in the same spot, everything else quiet.',
    );
    expect(about('other', unclear({ hits: 11 })).text).toMatch(/^No answer yet, because /);
    expect(about('other', unclear({ hits: 12 })).text).toMatch(/^No answer from these hits, because /);
    expect(about('other', unclear(), { ended: true }).text).toMatch(/^No answer from these hits, because /);
    expect(about('other', unclear({ hits: 12 })).callOut).toBe('No answer from these hits: the hits don’t agree');
  });

  it('of the timing leaves the sum to speak', () => {
    const flip = about('other', unclear(sumOf({ polarity: 'inverted', delaySamples: 0, nearSamples: null })));
    expect(flip.text).toMatch(
      /^No timing here, but invert B: \+13 dB in the drum’s low octave \(60–120 Hz\) and .*, with the mics where they are\.$/,
    );
    expect(flip.notes[0]).toMatch(/^No timing yet, because the hits don’t agree on one delay\. Have just one drum hit/);
    expect(flip.sureness).toBe('no timing: the hits don’t agree');
    const good = about('other', unclear(sumOf({ polarity: 'same', delaySamples: 0, nearSamples: null })));
    expect(good.text).toBe('No timing here; leave B’s polarity: not worth inverting.');
    expect(good.callOut).toBe('No timing here; leave B’s polarity');
    const low = unclear({
      reason: 'lows-only-b',
      ...sumOf({ polarity: 'inverted', delaySamples: 0, nearSamples: null }),
    });
    expect(about('low-end-driver', low).notes[0]).toMatch(/^No timing from these hits, because B hears only the lows/);
  });
});

it('a moving hand: the drummer stops first, and nobody keeps hitting', () => {
  const following = (cm: number | null): Reading =>
    reading({ state: 'following', reason: 'moving', hits: 8, delaySamples: cm === null ? null : cm / CM_PER_SAMPLE });
  const back = about('same-side', following(-3.4));
  expect([back.text, back.callOut]).toEqual([
    'Stop the drummer, set B 3.5 cm back, step away, then four hits.',
    'Stop the drummer, set B 3.5 cm back',
  ]);
  expect(about('same-side', following(3.4)).text).toMatch(/Stop the drummer, set B 3\.5 cm closer, step away/);
  expect(about('same-side', following(0.4)).text).toBe(
    'Close enough, within 1 cm. Stop the drummer, leave it there, step away, then four hits.',
  );
  expect(about('close-room', following(300)).text).toBe(
    'A stand is being moved. Stop the drummer, set it, step away, then four hits.',
  );
  for (const kind of PAIR_KIND_IDS)
    for (const cm of [-3.4, 0.4, 300, null]) {
      const a = about(kind, following(cm));
      expect(said(a)).not.toMatch(/keep (hitting|striking)/i);
      expect(a.cautions[0]).toBe(
        'Ask the drummer to stop before you reach in. Move the stand, step away, then four hits.',
      );
    }
});

it('good is said once, and accuracy as accuracy', () => {
  const a = about('same-side', measured('same', 0.2, { uncertaintySamples: 0.8 / CM_PER_SAMPLE }));
  expect([a.text, a.callOut]).toEqual([
    'Polarity and timing are good: leave it.',
    'Polarity and timing are good: leave it',
  ]);
  expect(a.sureness).toBe('6 of 6 hits agree, hit-to-hit spread ±2 mm; accurate to ±8 mm (90 %)');
});

describe('one octave has one name, and nothing is coined', () => {
  const COINED =
    /own low|low band|low end|witness|in the running|\bwish|arrival gap|No answer will come|before you invert|fine, leave|true to about|listen with/i;
  const polarity = fc.constantFrom<Polarity>('same', 'inverted');
  const readings = fc
    .record({
      state: fc.constantFrom(...STATES, 'measured' as const, 'measured' as const, 'unclear' as const),
      reason: fc.constantFrom(...REASONS),
      hits: fc.nat({ max: 40 }),
      hitsPooled: fc.nat({ max: 16 }),
      cm: fc.double({ min: -150, max: 150, noNaN: true }),
      knownCm: fc.option(fc.double({ min: 0, max: 20, noNaN: true })),
      polarity,
      body: polarity,
      sum: fc.boolean(),
      lowHz: fc.constantFrom(null, 44, 88),
    })
    .map((x) =>
      measured(x.polarity, x.cm, {
        state: x.state,
        reason: x.reason,
        hits: x.hits,
        hitsPooled: x.hitsPooled,
        uncertaintySamples: x.knownCm === null ? null : x.knownCm / CM_PER_SAMPLE,
        ...(x.sum ? sumOf({ polarity: x.body, delaySamples: x.cm / CM_PER_SAMPLE, lowHz: x.lowHz }) : NO_SUM),
      }),
    );

  it('whatever is read', () => {
    fc.assert(
      fc.property(
        readings,
        fc.constantFrom(...PAIR_KIND_IDS),
        fc.boolean(),
        fc.boolean(),
        (r, kind, invertB, ended) => {
          expect(said(about(kind, r, { invertB, ended }))).not.toMatch(COINED);
        },
      ),
      { numRuns: 600 },
    );
  });

  it('the octave is named wherever its figure is', () => {
    const a = about('other', measured('inverted', 0.3, sumOf({ polarity: 'inverted', delaySamples: 0, lowHz: 177 })));
    expect(a.text).toMatch(/dB in the drum’s low octave \(177–354 Hz\) and /);
    expect(a.callOut).not.toMatch(/octave/);
  });
});
