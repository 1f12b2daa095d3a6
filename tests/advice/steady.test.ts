import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Advice } from '../../src/advice/advice';
import type { AdviceAction } from '../../src/advice/plan/planTypes';
import { createSteadyAdvice } from '../../src/advice/steady';
import type { Reading } from '../../src/reading/reading';
import type { Flat } from '../support/readings/flat';
import { reading } from './readings';

const ANSWERED = { state: 'measured', reason: 'agreed', polarity: 'same', delaySamples: 3 } as const;

/** a tenth of a second between readings; a hit a second */
function at(hits: number, fields: Partial<Flat> = {}): Reading {
  return reading({ hits, streamSeconds: hits, ...ANSWERED, ...fields });
}

function advice(action: AdviceAction, moveCm: number | null = null, words = ''): Advice {
  const text = `${action} ${moveCm ?? ''}${words}`;
  const figures = { delayLaterMs: null, lowDb: 0, allDb: 0, fine: false, timed: true, chosen: false };
  return { plan: [], action, moveCm, ...figures, text, callOut: text, sureness: words, notes: [], cautions: [] };
}

/** What is shown after each hit of a sequence. */
function shown(sequence: [AdviceAction, number | null][], repeats = 3): string[] {
  const steady = createSteadyAdvice();
  return sequence.map(([action, moveCm], i) => {
    let out = advice('hit-more');
    for (let r = 0; r < repeats; r++) {
      const next = at(i + 1);
      next.streamSeconds = i + r / repeats;
      out = steady.feed(advice(action, moveCm), next);
    }
    return out.moveCm === null ? out.action : `${out.action} ${out.moveCm}`;
  });
}

describe('steady advice', () => {
  it('shows the first advice and the first answer at once', () => {
    expect(
      shown([
        ['hit-more', null],
        ['invert', null],
      ]),
    ).toEqual(['hit-more', 'invert']);
  });

  it('keeps what is recommended, and has the options of the newest reading: one of them says the path beside it', () => {
    const steady = createSteadyAdvice();
    const offering = (moveCm: number): Advice => ({
      ...advice('invert'),
      plan: [null, moveCm].map((cm) => ({ invertB: true, delayMs: null, moveCm: cm, lowDb: 8, allDb: 6, bandsDb: [] })),
    });
    steady.feed(offering(2.5), at(1));
    const second = steady.feed(offering(2), at(2)).plan;
    expect(second.map(({ moveCm }) => moveCm)).toEqual([null, 2]);
    // what says the same is the same: its press stays under the finger
    const third = steady.feed(offering(2), at(3)).plan;
    expect(third).toBe(second);
  });

  it('does not follow an action that flickers from hit to hit', () => {
    const flicker: [AdviceAction, number | null][] = [];
    for (let i = 0; i < 6; i++) flicker.push(['invert', null], ['invert-and-move', 3]);
    expect(new Set(shown(flicker))).toEqual(new Set(['invert']));
    const doubt: [AdviceAction, number | null][] = [];
    for (let i = 0; i < 6; i++) doubt.push(['cannot-tell', null], ['invert', null]);
    expect(new Set(shown(doubt))).toEqual(new Set(['cannot-tell']));
  });

  it('follows an action given at two hits in a row, however many readings a hit lasts', () => {
    const sequence: [AdviceAction, number | null][] = [
      ['leave', null],
      ['invert', null],
      ['invert', null],
    ];
    expect(shown(sequence, 1)).toEqual(['leave', 'leave', 'invert']);
    expect(shown(sequence, 30)).toEqual(['leave', 'leave', 'invert']);
  });

  it('drops what three hits in a row do not confirm', () => {
    expect(
      shown([
        ['invert', null],
        ['cannot-tell', null],
        ['leave', null],
        ['cannot-tell', null],
      ]),
    ).toEqual(['invert', 'invert', 'invert', 'cannot-tell']);
  });

  it('drops an answer that is lost within 1.5 s, even without another hit', () => {
    const steady = createSteadyAdvice();
    steady.feed(advice('invert'), at(5));
    expect(steady.feed(advice('cannot-tell'), at(6, { streamSeconds: 6 })).action).toBe('invert');
    expect(steady.feed(advice('cannot-tell'), at(6, { streamSeconds: 7.4 })).action).toBe('invert');
    expect(steady.feed(advice('cannot-tell'), at(6, { streamSeconds: 7.5 })).action).toBe('cannot-tell');
  });

  it.each([
    ['an input that failed', 'fix-input', { state: 'no-signal', reason: 'b-silent' }],
    ['a microphone on the move', 'hit-more', { state: 'following', reason: 'moving' }],
    ['a microphone that was moved', 'hit-more', { state: 'listening', reason: 'moved' }],
  ] as const)('shows %s at once', (_, action, fields) => {
    const steady = createSteadyAdvice();
    steady.feed(advice('invert'), at(5));
    expect(steady.feed(advice(action), at(5, fields)).action).toBe(action);
  });

  it('comes back from a failed input at once, and starts anew after a restart or a reset', () => {
    const steady = createSteadyAdvice();
    steady.feed(advice('fix-input'), at(5));
    expect(steady.feed(advice('leave'), at(5)).action).toBe('leave');
    expect(steady.feed(advice('cannot-tell'), at(4)).action).toBe('cannot-tell');
    steady.reset();
    expect(steady.feed(advice('invert'), at(4)).action).toBe('invert');
  });

  it('keeps a number that flickers by a step, and follows one that stays or drifts', () => {
    const move = (...cm: number[]): string[] => shown(cm.map((x) => ['move', x]));
    expect(move(3, 3.5, 3, 3.5, 3)).toEqual(['move 3', 'move 3', 'move 3', 'move 3', 'move 3']);
    expect(move(2, 4, 2, 4)).toEqual(['move 2', 'move 2', 'move 2', 'move 2']);
    expect(move(3, 3.5, 3.5)).toEqual(['move 3', 'move 3', 'move 3.5']);
    expect(move(3, 4, 5, 6)).toEqual(['move 3', 'move 3', 'move 5', 'move 5']);
  });

  it('keeps how sure it is up to date while the number stands, with the words of the number that is shown', () => {
    const steady = createSteadyAdvice();
    steady.feed(advice('move', 3, 'four'), at(4));
    const next = steady.feed(advice('move', 3.5, 'five'), at(5));
    expect([next.moveCm, next.text, next.sureness]).toEqual([3, 'move 3four', 'five']);
  });

  it('keeps text and figures together, with how sure it is, notes and cautions of the newest', () => {
    const steady = createSteadyAdvice();
    const first = { ...advice('move', 3, 'four'), lowDb: 4, allDb: 2, notes: ['old'], callOut: 'B: 3 closer' };
    steady.feed(first, at(4));
    const next = { ...advice('move', 3.5, 'five'), lowDb: 6, allDb: 2.5, notes: ['new'], cautions: ['mind'] };
    expect(steady.feed(next, at(5))).toEqual({ ...first, sureness: 'five', notes: ['new'], cautions: ['mind'] });
    // while another action waits nothing of it is shown
    const other = { ...advice('invert', null, 'six'), notes: ['other'] };
    expect(steady.feed(other, at(6))).toEqual({ ...first, sureness: 'five', notes: ['new'], cautions: ['mind'] });
    expect(steady.feed(other, at(7))).toEqual(other);
  });

  it('says what stands, as the rule takes it: the first of the plan that is shown', () => {
    const steady = createSteadyAdvice();
    expect(steady.standing).toBeNull();
    const gains = { lowDb: 1, allDb: 1, bandsDb: [] };
    const plan = [{ invertB: true, delayMs: 2.3, moveCm: null, ...gains }];
    steady.feed({ ...advice('invert-and-delay'), plan }, at(5));
    expect(steady.standing).toEqual({ invertB: true, delayMs: 2.3, moveCm: null, fine: false });
    const leave = [{ invertB: false, delayMs: null, moveCm: null, ...gains }];
    steady.feed({ ...advice('leave'), plan: leave, fine: true }, at(6));
    expect(steady.standing?.delayMs).toBe(2.3);
    steady.feed({ ...advice('leave'), plan: leave, fine: true }, at(7));
    expect(steady.standing).toEqual({ invertB: false, delayMs: null, moveCm: null, fine: true });
    steady.reset();
    expect(steady.standing).toBeNull();
  });

  it('never shows more changes of action than there are hits, nor a text with another number than its own', () => {
    const actions: AdviceAction[] = ['leave', 'invert', 'move', 'cannot-tell', 'hit-more'];
    const step = fc.record({
      action: fc.constantFrom(...actions),
      cm: fc.integer({ min: 2, max: 8 }),
      hit: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 60 }), (steps) => {
        const steady = createSteadyAdvice();
        let hits = 1;
        let changes = 0;
        let last: AdviceAction | null = null;
        for (const { action, cm, hit } of steps) {
          if (hit) hits++;
          const out = steady.feed(advice(action, action === 'move' ? cm / 2 : null), at(hits, { streamSeconds: 1 }));
          if (out.moveCm !== null) expect(out.text).toBe(`move ${out.moveCm}`);
          if (last !== null && out.action !== last && last !== 'hit-more') changes++;
          last = out.action;
        }
        expect(changes).toBeLessThanOrEqual(hits);
      }),
    );
  });
});
