import { createRoot } from 'solid-js';
import { expect, test } from 'vitest';
import { createLeaveGuard } from '../../../src/ui/page/createLeaveGuard';
import { onComeBack } from '../../../src/ui/page/onComeBack';
import { eventOf } from './event';

test('the browser asks only while something would be lost, and no more once it is gone', () => {
  const page = new EventTarget();
  let unsaved = false;
  const dispose = createRoot((end) => {
    createLeaveGuard(() => unsaved, page);
    return end;
  });
  const asked = (): boolean => !page.dispatchEvent(eventOf('beforeunload'));
  expect(asked()).toBe(false);
  unsaved = true;
  expect(asked()).toBe(true);
  dispose();
  expect(asked()).toBe(false);
});

test('coming back is told, going isn’t', () => {
  const page = Object.assign(new EventTarget(), { visibilityState: 'visible' as DocumentVisibilityState });
  let times = 0;
  const dispose = createRoot((end) => {
    onComeBack(() => times++, page);
    return end;
  });
  const turn = (to: DocumentVisibilityState): void => {
    page.visibilityState = to;
    page.dispatchEvent(new Event('visibilitychange'));
  };
  turn('hidden');
  expect(times).toBe(0);
  turn('visible');
  expect(times).toBe(1);
  dispose();
  turn('visible');
  expect(times).toBe(1);
});
