import { describe, expect, it } from 'vitest';
import { benchOptions } from './options';

const read = (...words: string[]) => benchOptions(words, ['real', 'noise', 'engine'], ['real', 'noise']);

describe('the bench’s command line', () => {
  it('with nothing, or parts alone, runs once with the engine’s own tuning', () => {
    expect(read()).toEqual({ parts: [], runs: [{ heading: null, changes: {} }], minutes: 60, range: {}, own: false });
    expect(read('engine', 'real')).toEqual({
      parts: ['engine', 'real'],
      runs: [{ heading: null, changes: {} }],
      minutes: 60,
      range: {},
      own: false,
    });
  });

  it('--set changes values and switches', () => {
    const changes = { 'delay.pick.share': 0.6, 'parts.stack': false };
    expect(read('real', '--set', 'delay.pick.share=0.6', '--set', 'parts.stack=false')).toEqual({
      parts: ['real'],
      runs: [{ heading: 'With delay.pick.share = 0.6, parts.stack = false', changes }],
      minutes: 60,
      range: {},
      own: false,
    });
  });

  it('--minutes is how long what runs in real time takes', () => {
    expect(read('real', '--minutes', '2')).toMatchObject({ parts: ['real'], minutes: 2 });
  });

  it('--from and --cases are the seeds of the simulated kit', () => {
    expect(read('real', '--from', '12000', '--cases', '264').range).toEqual({ from: 12000, cases: 264 });
    expect(read('--cases', '33').range).toEqual({ cases: 33 });
  });

  it('--own leaves the usual methods out', () => {
    expect(read('real', '--own')).toMatchObject({ parts: ['real'], own: true });
  });

  it('--sweep runs once for each value, on top of what is set', () => {
    const { parts, runs } = read('--sweep', 'delay.pick.share=0.6,0.75,1e-3', 'noise', '--set', 'delay.hitsNeeded=5');
    expect(parts).toEqual(['noise']);
    expect(runs.map(({ changes }) => changes)).toEqual(
      [0.6, 0.75, 0.001].map((share) => ({ 'delay.hitsNeeded': 5, 'delay.pick.share': share })),
    );
    expect(new Set(runs.map(({ heading }) => heading)).size).toBe(3);
    expect(read('real', '--sweep', 'parts.stack=true,false').runs).toHaveLength(2);
  });

  it.each([
    [['loud'], 'No such part: loud. There are: real, noise, engine.'],
    [['real', '--set', 'delay.pick.shore=1'], 'delay.pick.shore is no value'],
    [['real', '--set', 'parts.stack=0'], 'must be a boolean'],
    [['real', '--set', 'delay.pick.share=true'], `can't be "true"`],
    [['real', '--set', 'delay.pick.share='], 'Expected PATH=VALUE'],
    [['real', '--minutes'], '--minutes takes'],
    [['real', '--minutes', '0.5'], '--minutes takes'],
    [['real', '--cases'], '--cases takes'],
    [['real', '--cases', '0'], '--cases takes'],
    [['real', '--from'], '--from takes a seed, 10000 to 29999.'],
    [['real', '--from', '9999'], '--from takes a seed'],
    [['real', '--from', '30000'], '--from takes a seed'],
    [['real', '--set'], 'Expected PATH=VALUE but had nothing'],
    [['real', '--sweep', 'delay.pick.share=0.5,,0.6'], "can't be"],
    [['real', '--sweep', 'a=1', '--sweep', 'b=2'], 'One --sweep'],
    [['engine', '--set', 'delay.pick.share=0.6'], 'Values can be tried on: real, noise.'],
    [['--set', 'delay.pick.share=0.6'], 'Name the parts.'],
  ])('refuses %j', (words, message) => {
    expect(() => read(...words)).toThrow(message);
  });
});
