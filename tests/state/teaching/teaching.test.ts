import { describe, expect, it } from 'vitest';
import { createTeaching } from '../../../src/state/teaching/teaching';
import { invert, moveMic, stepMic } from '../../../src/teaching/bench/edits';

const right = { xCm: 1, yCm: 0 };

describe('the curve before', () => {
  it('is that before a whole drag, a whole run of keys, a single press', () => {
    const teaching = createTeaching();
    const first = teaching.bench();
    expect(teaching.before()).toBeNull();
    teaching.drag('drag-1', (now) => moveMic(now, 'b', { xCm: 20, yCm: 20 }));
    teaching.drag('drag-1', (now) => moveMic(now, 'b', { xCm: 25, yCm: 20 }));
    teaching.settle();
    expect(teaching.before()).toBe(first);
    const dragged = teaching.bench();
    for (let i = 0; i < 4; i++) teaching.drag('keys-b', (now) => stepMic(now, 'b', right));
    expect(teaching.before()).toBe(dragged);
    teaching.rest();
    const stepped = teaching.bench();
    teaching.drag('keys-b', (now) => stepMic(now, 'b', right));
    expect(teaching.before()).toBe(stepped);
    const atLast = teaching.bench();
    teaching.change('', (now) => invert(now, 'b'));
    expect(teaching.before()).toBe(atLast);
    const inverted = teaching.bench();
    teaching.change('', (now) => invert(now, 'b'));
    expect(teaching.before()).toBe(inverted);
  });

  it('isn’t touched by a change that changes nothing, nor by watching the hit', () => {
    const teaching = createTeaching();
    teaching.change('', (now) => now);
    teaching.watched();
    expect(teaching.before()).toBeNull();
    expect(teaching.bench().watched).toBe(1);
  });
});

describe('a lesson in hand', () => {
  it('sees a drag when it is let go, and nothing of what it passed through', () => {
    const teaching = createTeaching();
    teaching.begin('polarity-not-delay');
    teaching.change('', (now) => invert(now, 'b'));
    teaching.next();
    const { grille } = teaching.bench().b;
    teaching.drag('drag-1', (now) => moveMic(now, 'b', { xCm: 40, yCm: 40 }));
    expect(teaching.run()?.fates[1]).toBe('open');
    teaching.drag('drag-1', (now) => moveMic(now, 'b', grille));
    teaching.settle();
    expect(teaching.run()?.fates[1]).toBe('open');
    teaching.drag('drag-2', (now) => moveMic(now, 'b', { xCm: 40, yCm: 40 }));
    teaching.settle();
    expect(teaching.run()?.fates[1]).toBe('done');
  });

  it('is kept as gone through, with or without skipped steps, until the page is closed', () => {
    const teaching = createTeaching();
    teaching.begin('polarity-not-delay');
    for (let i = 0; i < 3; i++) teaching.skip();
    expect(teaching.finished().get('polarity-not-delay')).toBe('skipped');
    teaching.leaveLesson();
    expect(teaching.run()).toBeNull();
    expect(teaching.finished().size).toBe(1);
  });

  it('shows only what it needs beside the drawing', () => {
    const teaching = createTeaching();
    expect(teaching.controls()).not.toContain('kind-b');
    teaching.chooseDrum('kick');
    expect(teaching.controls()).toContain('kind-b');
    teaching.begin('two-overheads');
    expect(teaching.controls()).toEqual(['hit']);
  });
});
