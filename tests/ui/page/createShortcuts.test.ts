import { createRoot } from 'solid-js';
import { expect, test } from 'vitest';
import { createShortcuts } from '../../../src/ui/page/createShortcuts';
import { eventOf } from './event';

const PLAIN = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, repeat: false };

function bench(open = true) {
  const target = new EventTarget();
  const done: string[] = [];
  const state = { off: false, keysOn: true };
  const dispose = createRoot((end) => {
    createShortcuts({
      off: () => state.off,
      keysOn: () => state.keysOn,
      act: (command) => void done.push(command),
      history: () => (open ? { undo: () => void done.push('undo'), redo: () => void done.push('redo') } : null),
      target,
    });
    return end;
  });
  /** @returns whether the browser's own use of the key was kept from it */
  const press = (key: string, more: Record<string, unknown> = {}): boolean =>
    !target.dispatchEvent(eventOf('keydown', { ...PLAIN, key, ...more }));
  return { press, done, state, dispose };
}

test('a key does what it stands for, and is the page’s alone', () => {
  const { press, done, state } = bench();
  expect([press('h'), press('W'), press('Escape'), press('x')]).toEqual([true, true, false, false]);
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
