/** Steps that could be passed without doing anything, or not passed any more. */
import { describe, expect, it } from 'vitest';
import { DRUMS } from '../../src/teaching/bench/drums';
import { invert, moveMic, setBody, setHit, setKind, setLevels, setPhantom } from '../../src/teaching/bench/edits';
import { figuresOf } from '../../src/teaching/bench/figures';
import type { Bench, MicId } from '../../src/teaching/bench/model';
import type { LessonId } from '../../src/teaching/lessons/lesson';
import { LESSONS } from '../../src/teaching/lessons/lessons';
import { beginLesson, lookForDone, skipStep } from '../../src/teaching/progress';

type Act = (bench: Bench) => Bench;
const move =
  (mic: MicId, xCm: number, yCm: number): Act =>
  (bench) =>
    moveMic(bench, mic, { xCm, yCm });
const to =
  (hit: 'snare' | 'floor-tom'): Act =>
  (bench) =>
    setHit(bench, hit);
const invertB: Act = (bench) => invert(bench, 'b');
const bodyB =
  (cm: number): Act =>
  (bench) =>
    setBody(bench, 'b', cm);
const speakerB: Act = (bench) => setKind(setPhantom(bench, 'b', false), 'b', 'speaker');

/** Whether the step is done after each of the changes; the steps before it are skipped. */
function fatesOf(lesson: LessonId, id: string, begin: Act, acts: readonly Act[]): string[] {
  let bench = begin(LESSONS[lesson].start);
  let run = beginLesson(lesson);
  const at = LESSONS[lesson].steps.findIndex((step) => step.id === id);
  expect(at, id).toBeGreaterThanOrEqual(0);
  while (run.at < at) run = skipStep(run, bench);
  return acts.map((act) => {
    bench = act(bench);
    run = lookForDone(run, bench);
    return run.fates[run.at] ?? '';
  });
}
const asItIs: Act = (bench) => bench;

describe('who did something else first still gets through', () => {
  it('B inverted after it was nudged', () => {
    expect(fatesOf('polarity-not-delay', 'invert', asItIs, [move('b', 18, 32), invertB])).toEqual(['open', 'done']);
  });

  it('B inverted at three to one after it was nudged', () => {
    const three: Act = (bench) => move('b', 10, 18.3)(setLevels(bench, 'distance'));
    expect(fatesOf('three-to-one', 'invert', three, [move('b', 10, 18.5), invertB])).toEqual(['open', 'done']);
  });

  it('another mic put in B’s place after B was nudged, in small steps too', () => {
    const acts = [move('b', 10, 18), bodyB(4), bodyB(3), bodyB(2.5)];
    expect(fatesOf('hidden-capsule', 'another-mic', asItIs, acts)).toEqual(['open', 'open', 'open', 'done']);
  });

  it('this one aligned after yet another mic was put there, by a move only', () => {
    const aligned = move('b', 9.3, 17);
    const acts = [bodyB(4.5), bodyB(2), move('b', 11, 18.9)];
    expect(fatesOf('hidden-capsule', 'again', (bench) => bodyB(2.5)(aligned(bench)), acts)).toEqual([
      'open',
      'open',
      'done',
    ]);
  });

  it('overheads that hang as high as they can', () => {
    const top = DRUMS.kit.rooms[0]?.topCm ?? 0;
    const hang =
      (yCm: number): Act =>
      (bench) =>
        move('b', 28, yCm)(move('a', -84, yCm)(bench));
    const acts = [hang(top - 9), hang(top - 10)];
    expect(fatesOf('two-overheads', 'other-height', hang(top), acts)).toEqual(['open', 'done']);
  });

  it('an overhead that stands in the far corner, or near it: 20 cm closer; from anywhere else only further counts', () => {
    const { rightCm = 0, topCm = 0 } = DRUMS.kit.rooms[0] ?? {};
    const closer = move('b', rightCm - 30, topCm - 30);
    for (const from of [move('b', rightCm, topCm), move('b', rightCm - 5, topCm - 5)])
      expect(fatesOf('when-not-to', 'wanted-distance', from, [closer])).toEqual(['done']);
    const acts = [move('b', 20, 120), move('b', rightCm, topCm)];
    expect(fatesOf('when-not-to', 'wanted-distance', closer, acts)).toEqual(['open', 'done']);
  });
});

describe('nobody gets on without doing it', () => {
  it('B isn’t further away because another drum is hit', () => {
    // on the left, 54 cm further from the floor tom than from the snare
    const left = move('b', -60, 168);
    const acts = [to('floor-tom'), to('snare'), move('b', -60, 190)];
    expect(fatesOf('when-not-to', 'wanted-distance', left, acts)).toEqual(['open', 'open', 'done']);
    // nor is it further from the snare than it was from the floor tom: the snare's path is what counts
    const begin: Act = (bench) => to('floor-tom')(left(bench));
    const further = [to('snare'), move('b', -60, 190)];
    expect(fatesOf('when-not-to', 'wanted-distance', begin, further)).toEqual(['open', 'done']);
  });

  it('A three times as far as B isn’t B three times as far as A', () => {
    const swapped: Act = (bench) => move('a', 10, 18.3)(move('b', 3, 10.4)(setLevels(bench, 'distance')));
    const { ratio, pathCm } = figuresOf(swapped(LESSONS['three-to-one'].start));
    expect(Math.abs(ratio - 3)).toBeLessThan(0.1);
    expect(pathCm).toBeLessThan(0);
    expect(fatesOf('three-to-one', 'three', asItIs, [swapped])).toEqual(['open']);
  });

  it('a switch set before B was a speaker doesn’t count: it is to be tried', () => {
    const already: Act = (bench) => speakerB(invertB(bench));
    expect(figuresOf(already(LESSONS['inside-outside-speaker'].start)).polarity).toBe('same');
    const acts = [move('b', 60, 2), invertB, invertB];
    expect(fatesOf('inside-outside-speaker', 'invert', already, acts)).toEqual(['open', 'open', 'done']);
  });
});
