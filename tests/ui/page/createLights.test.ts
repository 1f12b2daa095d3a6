import { type Accessor, createRoot, createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import type { Lights } from '../../../src/state/settings/settings';
import { createLights, isDark } from '../../../src/ui/page/createLights';

test('as the system has them unless a person says otherwise', () => {
  expect([isDark('auto', true), isDark('auto', false)]).toEqual([true, false]);
  expect([isDark('up', true), isDark('down', false)]).toEqual([false, true]);
});

test('paper and ink follow the setting and the system, and are told; nothing is followed once it is gone', () => {
  const system = Object.assign(new EventTarget(), { matches: false });
  const forced = Object.assign(new EventTarget(), { matches: false });
  const back = new EventTarget();
  let darkens = false;
  const paper: { paper?: string; turned?: string } = {};
  const [lights, setLights] = createSignal<Lights>('auto');
  let version: Accessor<number> = () => 0;
  const dispose = createRoot((end) => {
    version = createLights({ lights, system, forced, back, darkens: () => darkens, paper });
    return end;
  });
  expect(paper.paper).toBe('light');
  const begun = version();
  setLights('down');
  expect([paper.paper, version() > begun]).toEqual(['dark', true]);
  setLights('auto');
  expect(paper.paper).toBe('light');
  const before = version();
  system.matches = true;
  system.dispatchEvent(new Event('change'));
  expect([paper.paper, version() > before]).toEqual(['dark', true]);

  // forced colours come and go: the plots have to be told
  const coloured = version();
  forced.dispatchEvent(new Event('change'));
  expect(version()).toBeGreaterThan(coloured);
  // a browser that darkens pages gets our own dark page, from when it is looked at
  system.matches = false;
  system.dispatchEvent(new Event('change'));
  expect(paper.paper).toBe('light');
  darkens = true;
  back.dispatchEvent(new Event('focus'));
  expect(paper.paper).toBe('dark');
  expect(paper.turned).toBe('false');
  // a light one is the dark one turned round
  setLights('up');
  expect([paper.paper, paper.turned]).toEqual(['dark', 'true']);
  darkens = false;
  back.dispatchEvent(new Event('focus'));
  expect([paper.paper, paper.turned]).toEqual(['light', 'false']);
  setLights('auto');
  system.matches = true;
  system.dispatchEvent(new Event('change'));
  expect(paper.paper).toBe('dark');
  dispose();
  system.matches = false;
  system.dispatchEvent(new Event('change'));
  setLights('up');
  expect(paper.paper).toBe('dark');
});
