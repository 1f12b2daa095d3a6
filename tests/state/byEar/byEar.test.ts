/** The blind round in hand: nothing tells the answer before it is given. */
import { createRoot, createSignal } from 'solid-js';
import { expect, it } from 'vitest';
import type { DemoScene } from '../../../src/audio/link';
import { createByEar } from '../../../src/state/byEar/byEar';

const scene = (id: string, fields: Partial<DemoScene> = {}): DemoScene => ({
  id,
  title: id,
  a: 'above',
  b: 'below',
  kind: 'top-bottom',
  file: `${id}.wav`,
  sampleRate: 44100,
  pathCm: 2,
  delaySamples: 3,
  polarity: 'inverted',
  temperatureC: 20,
  note: '',
  ...fields,
});

it('a round is played to its end; names tell nothing before the answer, and the other version only comes with it', () => {
  createRoot((dispose) => {
    const [scenes] = createSignal([
      scene('one'),
      scene('two', { polarity: 'same' }),
      scene('nothing known', { polarity: null, delaySamples: null }),
      scene('overheads', { kind: 'two-overheads' }),
    ]);
    const byEar = createByEar(scenes, () => 12);
    const asked = new Set<string>();
    for (let i = 0; i < 10; i++) {
      const question = byEar.question();
      if (question === null) throw new Error('over too soon');
      asked.add(question.pair.id);
      expect(byEar.scene()?.id).toBe(question.pair.id);
      const blind = byEar.versions().map(({ name }) => name);
      expect(blind).toEqual(question.kind === 'polarity' ? ['The pair'] : ['X', 'Y']);
      byEar.next();
      expect(byEar.at()).toBe(i);
      byEar.answer(
        i < 7
          ? question.truth
          : question.truth === 'x'
            ? 'y'
            : question.truth === 'y'
              ? 'x'
              : question.truth === 'same'
                ? 'inverted'
                : 'same',
      );
      // once said it stands
      byEar.answer(question.truth);
      expect(byEar.answers()).toHaveLength(i + 1);
      const told = byEar.versions();
      expect(told.map(({ id }) => id)).toEqual(['x', 'y']);
      const rightOne = told[question.truth === 'y' ? 1 : 0]?.name;
      expect(rightOne).toMatch(
        question.kind === 'alignment' ? /lined up/ : question.truth === 'inverted' ? /B inverted/ : /B not inverted/,
      );
      byEar.next();
    }
    expect(byEar.question()).toBeNull();
    expect(byEar.rightSoFar()).toBe(7);
    expect([...asked].sort()).toEqual(['one', 'two']);
    expect([byEar.begin(0), byEar.begin(1.5), byEar.begin(10000)]).toEqual([false, false, false]);
    expect(byEar.answers()).toHaveLength(10);
    expect(byEar.begin(13)).toBe(true);
    expect([byEar.at(), byEar.answers().length]).toEqual([0, 0]);
    dispose();
  });
});
