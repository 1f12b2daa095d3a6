import { describe, expect, it } from 'vitest';
import { DelayJump } from '../../../src/audio/live/delayJump';
import { Engine } from '../../../src/dsp/engine';
import type { Reading } from '../../../src/reading/reading';
import { changed } from '../../support/readings/flat';

const empty = new Engine(48_000).reading();
let streamSeconds = 0;

/** Measured, this long, of this drum. */
const at = (delaySamples: number, drum = 1): Reading => {
  streamSeconds += 1;
  return changed(empty, {
    state: 'measured',
    reason: 'agreed',
    polarity: 'same',
    delaySamples,
    drum,
    drums: [],
    streamSeconds,
  });
};

describe('a delay that jumps', () => {
  it('by 5 cm and more while the noise of both channels has changed: another input', () => {
    const jump = new DelayJump();
    expect([jump.push(at(9), false), jump.push(at(9.5), true), jump.push(at(40), true)]).toEqual([false, false, true]);
  });

  it('without that is a stand that was moved, and what the next is compared with', () => {
    const jump = new DelayJump();
    expect([jump.push(at(9), false), jump.push(at(40), false), jump.push(at(41), true)]).toEqual([false, false, false]);
  });

  it('of another drum is that drum’s', () => {
    const jump = new DelayJump();
    expect([jump.push(at(9, 1), false), jump.push(at(40, 2), true), jump.push(at(9, 1), true)]).toEqual([
      false,
      false,
      false,
    ]);
  });

  it('after a start anew is compared with nothing', () => {
    const jump = new DelayJump();
    jump.push(at(9), false);
    streamSeconds = 0;
    expect(jump.push(at(40), true)).toBe(false);
  });

  it('isn’t looked for while nothing is measured', () => {
    const jump = new DelayJump();
    jump.push(at(9), false);
    expect(jump.push({ ...empty, streamSeconds: streamSeconds + 1 }, true)).toBe(false);
  });
});
