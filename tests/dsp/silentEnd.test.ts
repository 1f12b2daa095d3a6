/** What a recording says when its last seconds are silent, in one channel or in both. */
import { describe, expect, it } from 'vitest';
import { measureChannels } from '../../src/cli/measure';
import { Engine } from '../../src/dsp/engine';
import { type Flat, flat } from '../support/readings/flat';
import { silentEnd } from '../support/sound/silentEnd';

const SECONDS = 3;
const CASES = [
  ['kick-inside-outside', 'a', 'a-silent'],
  ['kick-inside-outside', 'b', 'b-silent'],
  ['snare-top-bottom', 'a', 'a-silent'],
  ['snare-overhead', 'b', 'b-silent'],
] as const;

/** As it is before the end, once it is told that this is the end, and when it goes on after all. */
function run(a: Float32Array, b: Float32Array, sampleRate: number): { before: Flat; ended: Flat; after: Flat } {
  const engine = new Engine(sampleRate);
  engine.push(a, b);
  const before = flat(engine.reading());
  engine.flush();
  const ended = flat(engine.reading());
  const more = new Float32Array(128);
  engine.push(more, more);
  return { before, ended, after: flat(engine.reading()) };
}

describe('a hi-hat goes on in one channel, the other is silent', () => {
  it.each(CASES)(
    '%s, %s silent: live a fault, at the end of a recording the answer that holds',
    (scene, silent, reason) => {
      const { a, b, sampleRate } = silentEnd(scene, silent, SECONDS);
      const { before, ended, after } = run(a, b, sampleRate);
      const whole = silentEnd(scene, silent, 0);
      const { ended: alone } = run(whole.a, whole.b, sampleRate);
      expect([before.state, before.reason]).toEqual(['no-signal', reason]);
      expect(alone.state).toBe('measured');
      expect([ended.state, ended.reason]).toEqual(['measured', 'agreed']);
      expect(ended.polarity).toBe(alone.polarity);
      expect(Math.abs((ended.delaySamples ?? Number.NaN) - (alone.delaySamples ?? Number.NaN))).toBeLessThan(0.5);
      expect([after.state, after.reason]).toEqual(['no-signal', reason]);
    },
  );

  it.each(CASES)('%s, %s silent: the measuring command says what was read', (scene, silent) => {
    const { a, b, sampleRate } = silentEnd(scene, silent, SECONDS);
    const measured = measureChannels(a, b, sampleRate);
    expect(measured.state).toBe('measured');
    expect(measured.delaySamples).not.toBeNull();
    expect(measured.advice.text).not.toMatch(/silent|cable/);
  });

  it('a drum that was heard by both, and gives no answer, isn’t silence either', () => {
    const { a, b, sampleRate } = silentEnd('kick-low-end-driver', 'b', SECONDS);
    expect(run(a, b, sampleRate).ended).toMatchObject({ state: 'unclear', reason: 'lows-only-b' });
  });
});

describe('both end silent', () => {
  it.each(['kick-inside-outside', 'snare-top-bottom', 'kit-overheads'])('%s keeps its answer', (scene) => {
    const { a, b, sampleRate } = silentEnd(scene, 'both', SECONDS);
    expect(run(a, b, sampleRate).ended.state).toBe('measured');
    expect(measureChannels(a, b, sampleRate).state).toBe('measured');
  });
});

describe('a channel that is silent all along', () => {
  it.each(['a', 'b'] as const)('%s: no signal, also at the end', (silent) => {
    const { a, b, sampleRate } = silentEnd('snare-top-bottom', 'both', SECONDS);
    const none = new Float32Array(a.length);
    const { ended } = silent === 'a' ? run(none, b, sampleRate) : run(a, none, sampleRate);
    expect([ended.state, ended.reason]).toEqual(['no-signal', `${silent}-silent`]);
  });

  it('but for its noise: no signal', () => {
    const { a, b, sampleRate } = silentEnd('snare-dead-input', 'both', SECONDS);
    expect(run(a, b, sampleRate).ended).toMatchObject({ state: 'no-signal', reason: 'b-silent' });
  });
});
