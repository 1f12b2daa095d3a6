import { createRoot } from 'solid-js';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { HOLD_MS } from '../../../src/ui/page/createKeyHold';
import { createShortcuts } from '../../../src/ui/page/createShortcuts';
import { eventOf } from './event';

const PLAIN = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, repeat: false };

function bench(open = true) {
  const target = new EventTarget();
  const done: string[] = [];
  const holding: (string | null)[] = [];
  const state = { off: false, keysOn: true };
  const dispose = createRoot((end) => {
    createShortcuts({
      off: () => state.off,
      keysOn: () => state.keysOn,
      act: (command) => void done.push(command),
      holding: (command) => void holding.push(command),
      history: () => (open ? { undo: () => void done.push('undo'), redo: () => void done.push('redo') } : null),
      target,
    });
    return end;
  });
  /** @returns whether the browser's own use of the key was kept from it */
  const press = (key: string, more: Record<string, unknown> = {}): boolean =>
    !target.dispatchEvent(eventOf('keydown', { ...PLAIN, key, ...more }));
  const release = (key: string): void => void target.dispatchEvent(eventOf('keyup', { ...PLAIN, key }));
  return { press, release, done, holding, state, dispose, target };
}

test('a key does what it stands for, and is the page’s alone', () => {
  const { press, done, state } = bench();
  expect([press('h'), press('W'), press('Escape'), press('0')]).toEqual([true, true, false, false]);
  expect(done).toEqual(['hold', 'why', 'back']);
  state.keysOn = false;
  expect([press('h'), press('Escape')]).toEqual([false, false]);
  expect(done).toEqual(['hold', 'why', 'back', 'back']);
});

test('undo and redo, where something is open', () => {
  const { press, done } = bench();
  expect([press('z', { ctrlKey: true }), press('Z', { metaKey: true, shiftKey: true })]).toEqual([true, true]);
  expect(done).toEqual(['undo', 'redo']);
  expect(press('z', { ctrlKey: true, altKey: true })).toBe(false);
  const closed = bench(false);
  expect(closed.press('z', { ctrlKey: true })).toBe(false);
  expect([...done, ...closed.done]).toEqual(['undo', 'redo']);
});

test('what lies over the page has the keys; and nothing is heard once it is gone', () => {
  const { press, done, state, dispose } = bench();
  state.off = true;
  expect(press('h')).toBe(false);
  state.off = false;
  dispose();
  expect(press('h')).toBe(false);
  expect(done).toEqual([]);
});

describe('a key that must be held', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test('does its work once, after six tenths of a second, and shows meanwhile that it is held', () => {
    expect(HOLD_MS).toBeGreaterThanOrEqual(600);
    const { press, release, done, holding } = bench();
    expect(press('f')).toBe(true);
    expect(holding).toEqual(['start-over']);
    // the keyboard repeats it all the while
    for (let ms = 0; ms < HOLD_MS - 10; ms += 30) {
      vi.advanceTimersByTime(30);
      if (ms > 300) press('f', { repeat: true });
    }
    vi.advanceTimersByTime(HOLD_MS);
    press('f', { repeat: true });
    expect([done, holding]).toEqual([['start-over'], ['start-over', null]]);
    release('f');
    vi.advanceTimersByTime(5 * HOLD_MS);
    expect(done).toEqual(['start-over']);
    press('F', { shiftKey: true });
    vi.advanceTimersByTime(HOLD_MS);
    expect(done).toEqual(['start-over', 'start-over']);
  });

  test.each([
    ['it is let go too early', (b: ReturnType<typeof bench>) => b.release('F')],
    ['another key comes in', (b: ReturnType<typeof bench>) => void b.press('h')],
    ['Escape is pressed', (b: ReturnType<typeof bench>) => void b.press('Escape')],
    ['the page loses the keyboard', (b: ReturnType<typeof bench>) => void b.target.dispatchEvent(new Event('blur'))],
    ['the page goes', (b: ReturnType<typeof bench>) => b.dispose()],
  ])('does nothing where %s', (_, stop) => {
    const made = bench();
    made.press('f');
    vi.advanceTimersByTime(HOLD_MS - 20);
    stop(made);
    vi.advanceTimersByTime(5 * HOLD_MS);
    expect(made.done).not.toContain('start-over');
    expect(made.holding).toEqual(['start-over', null]);
  });

  test('isn’t one while someone types', () => {
    const { press, holding } = bench();
    expect(press('f', { target: { tagName: 'INPUT', type: 'text' } })).toBe(false);
    expect(holding).toEqual([]);
  });
});
