import { describe, expect, it } from 'vitest';
import {
  invert,
  moveMic,
  setBody,
  setHit,
  setKind,
  setLevels,
  setMixDelay,
  setPhantom,
  watch,
} from '../../src/teaching/bench/edits';
import { figuresOf } from '../../src/teaching/bench/figures';
import type { Bench, MicId } from '../../src/teaching/bench/model';
import { LESSON_IDS, type LessonId, lookAt } from '../../src/teaching/lessons/lesson';
import { LESSONS } from '../../src/teaching/lessons/lessons';
import { beginLesson, isOver, leftBy, lookForDone, nextStep, skipStep } from '../../src/teaching/progress';
import { LESSON_WORDS } from '../../src/teaching/words/lessonWords';

type Act = (bench: Bench) => Bench;
const move =
  (mic: MicId, xCm: number, yCm: number): Act =>
  (bench) =>
    moveMic(bench, mic, { xCm, yCm });
const all =
  (...acts: Act[]): Act =>
  (bench) =>
    acts.reduce((now, act) => act(now), bench);
const to =
  (hit: 'snare' | 'floor-tom'): Act =>
  (bench) =>
    setHit(bench, hit);

/** What somebody does who works through it, step by step. */
const WORKED: Readonly<Record<LessonId, readonly Act[]>> = {
  'polarity-not-delay': [
    (bench) => invert(bench, 'b'),
    move('b', 12, 22),
    all((bench) => invert(bench, 'b'), move('b', 8.3, 17)),
  ],
  'hidden-capsule': [move('b', 9.3, 17), (bench) => setBody(bench, 'b', 2), move('b', 11, 18.9)],
  'top-and-bottom': [
    watch,
    (bench) => invert(bench, 'a'),
    all(move('a', -18, 26), move('b', 12, -16)),
    move('b', 18, 26),
    (bench) => invert(bench, 'a'),
  ],
  'inside-outside-speaker': [
    move('b', 60, 2),
    (bench) => setPhantom(bench, 'b', false),
    (bench) => setKind(bench, 'b', 'speaker'),
    (bench) => invert(bench, 'b'),
  ],
  'both-sides-of-the-kick': [
    watch,
    (bench) => invert(bench, 'b'),
    (bench) => setMixDelay(bench, 'a', figuresOf(bench).delayMs),
  ],
  'two-overheads': [move('b', 28, 158), to('floor-tom'), all(to('snare'), move('a', -84, 170), move('b', 28, 170))],
  'three-to-one': [
    (bench) => setLevels(bench, 'distance'),
    move('b', 10, 18.3),
    (bench) => invert(bench, 'b'),
    move('b', 42, 30),
  ],
  'when-not-to': [
    (bench) => setMixDelay(bench, 'a', figuresOf(bench).delayMs),
    to('floor-tom'),
    all(to('snare'), (bench) => setMixDelay(bench, 'a', 0)),
    move('b', 40, 190),
  ],
};

describe.each(LESSON_IDS)('%s', (id) => {
  const { start, steps } = LESSONS[id];

  it('begins with its first step not done', () => {
    expect(steps[0]?.done(lookAt(start), lookAt(start), lookAt(start))).toBe(false);
  });

  it('is gone through by doing what it says, and no step is done before', () => {
    let bench = start;
    let run = beginLesson(id);
    expect(WORKED[id]).toHaveLength(steps.length);
    for (const [i, act] of WORKED[id].entries()) {
      run = lookForDone(run, bench);
      expect(run.fates[i], `before step ${i + 1}`).toBe('open');
      // nobody gets on by asking for it
      expect(nextStep(run, bench)).toBe(run);
      bench = act(bench);
      run = lookForDone(run, bench);
      expect(run.fates[i], `after step ${i + 1}`).toBe('done');
      run = nextStep(run, bench);
    }
    expect(isOver(run)).toBe(true);
    expect(new Set(run.fates)).toEqual(new Set(['done']));
  });

  it('skipped up to any of its steps, is gone through from there by doing what it says', () => {
    for (let first = 1; first < steps.length; first++) {
      let bench = start;
      let run = beginLesson(id);
      while (run.at < first) {
        bench = leftBy(run, bench);
        run = skipStep(run, bench);
      }
      for (const [i, act] of WORKED[id].entries()) {
        if (i < first) continue;
        expect(run.fates[i], `skipped up to ${first + 1}, before step ${i + 1}`).toBe('open');
        bench = act(bench);
        run = lookForDone(run, bench);
        expect(run.fates[i], `skipped up to ${first + 1}, after step ${i + 1}`).toBe('done');
        run = nextStep(run, bench);
      }
    }
  });

  it('has words for each of its steps, and a source for each fact', () => {
    const words = LESSON_WORDS[id];
    expect(Object.keys(words.steps)).toEqual(steps.map((step) => step.id));
    expect(words.facts.length).toBeGreaterThan(0);
    for (const fact of words.facts) expect(fact.source).not.toBe('');
  });
});

describe('a step', () => {
  it('that is skipped says so, and isn’t done by what follows', () => {
    let run = beginLesson('polarity-not-delay');
    run = skipStep(run, LESSONS['polarity-not-delay'].start);
    expect(run.fates).toEqual(['skipped', 'open', 'open']);
    expect(run.at).toBe(1);
  });

  it('that is done stays done, and can’t be skipped any more', () => {
    const { start } = LESSONS['polarity-not-delay'];
    const done = lookForDone(beginLesson('polarity-not-delay'), invert(start, 'b'));
    expect(lookForDone(done, start).fates[0]).toBe('done');
    expect(skipStep(done, start)).toBe(done);
  });

  it('of polarity isn’t done by a move, nor one of distance by a switch', () => {
    const { start, steps } = LESSONS['polarity-not-delay'];
    const from = lookAt(start);
    const moved = lookAt(moveMic(start, 'b', { xCm: 10, yCm: 20 }));
    const turned = lookAt(invert(start, 'b'));
    expect([steps[0]?.done(moved, from, from), steps[1]?.done(turned, from, from)]).toEqual([false, false]);
  });
});
