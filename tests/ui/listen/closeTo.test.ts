import { expect, test } from 'vitest';
import { closeTo } from '../../../src/ui/listen/closeTo';

test('a dialog is closed while it is on the page, and the focus goes on to what comes next', () => {
  const done: string[] = [];
  const note = (what: string) => () => void done.push(what);
  closeTo({ close: note('close') }, note('then'), { focus: note('focus') });
  expect(done).toEqual(['close', 'then', 'focus']);
});
