/** The audio thread and the page's thread come late, stand still, or end. */
import type { Page } from 'playwright-core';
import { type LabGlobal, threadFault } from './lab';
import type { LiveFault } from './liveTrial';

export const DROPS = /drops audio/i;
export const NOTHING_ARRIVES = /Nothing arrives|nothing is measured/;
export const METER_ERROR = /The meter hit an error|The meter stopped on an error/;

const busy = (busyMs: number, seconds: number): LiveFault => ({
  sub: 'slow',
  name: `each block takes ${busyMs} ms, for ${seconds} s`,
  how: 'a loop on the audio thread in each block of 2.9 ms',
  told: DROPS,
  withinMs: 1000 * seconds + 4000,
  lastsMs: 1000 * seconds + 2000,
  recovers: 'by itself',
  byItself: true,
  strike: { busyMs, seconds: seconds * (2.9 / busyMs) },
  heavy: true,
});

const stall = (hangMs: number, told: LiveFault['told']): LiveFault => ({
  sub: 'stall',
  name: `stands still for ${hangMs} ms, once`,
  how: 'a loop on the audio thread, in a message',
  told,
  withinMs: 3000,
  lastsMs: hangMs + 4000,
  recovers: 'by itself',
  byItself: true,
  strike: { hangMs },
  heavy: true,
});

const blocked = (ms: number): LiveFault => ({
  sub: 'page',
  name: `the page’s thread is blocked for ${ms / 1000} s`,
  how: 'a loop on the page',
  told: 'nothing',
  lastsMs: 3000,
  recovers: 'by itself',
  byItself: true,
  strike: ({ page }) =>
    page.evaluate((forMs) => {
      for (const end = performance.now() + forMs; performance.now() < end; );
    }, ms),
  heavy: true,
});

const context = (page: Page, how: 'suspend' | 'resume' | 'close'): Promise<void> =>
  page.evaluate((name) => void (globalThis as LabGlobal).lab.contexts.at(-1)?.[name](), how);

export const THREAD_TIME: readonly LiveFault[] = [
  busy(4, 4),
  busy(6, 4),
  busy(9, 4),
  busy(12, 4),
  {
    ...busy(6, 0),
    name: 'each block takes 6 ms, for good',
    withinMs: 12_000,
    lastsMs: 12_000,
    strike: { busyMs: 6 },
    recovers: 'by itself, once it keeps up again',
  },
  stall(50, 'may'),
  stall(200, 'may'),
  stall(1000, 'may'),
  stall(5000, NOTHING_ARRIVES),
  {
    sub: 'ends',
    name: 'process() hangs for good',
    how: 'an endless loop in the first node',
    told: NOTHING_ARRIVES,
    recovers: 'Try again',
    strike: { hangsForGood: true },
    mend: async () => undefined,
    heavy: true,
  },
  {
    sub: 'ends',
    name: 'process() ends',
    how: 'it returns false',
    told: NOTHING_ARRIVES,
    recovers: 'Try again',
    strike: { ends: true },
  },
  {
    sub: 'ends',
    name: 'process() throws',
    how: 'a throw in a later block',
    told: METER_ERROR,
    recovers: 'Start over',
    strike: { throws: true },
  },
  {
    sub: 'ends',
    name: 'process() throws in its first block',
    how: 'a throw in the first node',
    told: METER_ERROR,
    recovers: 'Start over',
    before: { thread: { throws: true } },
    withinMs: 5000,
  },
  blocked(1000),
  blocked(5000),
  {
    sub: 'page',
    name: 'no animation frames any more',
    how: 'requestAnimationFrame never calls back',
    told: 'nothing',
    recovers: 'by itself',
    byItself: true,
    strike: ({ page }) => page.evaluate(() => void Object.assign(globalThis, { requestAnimationFrame: () => 0 })),
  },
  {
    sub: 'context',
    name: 'the browser pauses the audio',
    how: 'context.suspend()',
    told: /The browser has paused the audio/,
    recovers: 'Try again',
    strike: ({ page }) => context(page, 'suspend'),
  },
  {
    sub: 'context',
    name: 'paused for 3 s',
    how: 'context.suspend(), resume()',
    told: /The browser has paused the audio/,
    recovers: 'by itself',
    byItself: true,
    strike: ({ page }) => context(page, 'suspend'),
    mend: ({ page }) => context(page, 'resume'),
  },
  {
    sub: 'context',
    name: 'paused for 2 s, on a default that nobody names',
    how: 'context.suspend(), resume()',
    told: /may be another input now/,
    recovers: 'Try again',
    strike: async ({ page }) => {
      await context(page, 'suspend');
      await page.waitForTimeout(2000);
      await context(page, 'resume');
    },
  },
  {
    sub: 'context',
    name: 'the context is closed',
    how: 'context.close()',
    told: NOTHING_ARRIVES,
    recovers: 'Try again',
    strike: ({ page }) => context(page, 'close'),
  },
  {
    sub: 'context',
    name: 'paused and resumed ten times in 2 s',
    how: 'context.suspend(), resume()',
    told: 'may',
    recovers: 'by itself',
    byItself: true,
    strike: async ({ page }) => {
      for (let i = 0; i < 10; i++) {
        await context(page, 'suspend');
        await page.waitForTimeout(100);
        await context(page, 'resume');
        await page.waitForTimeout(100);
      }
    },
  },
  {
    sub: 'slow',
    name: 'three long blocks of 30 ms a second',
    how: 'a stall three times a second, 4 s',
    told: 'may',
    lastsMs: 5000,
    recovers: 'by itself',
    byItself: true,
    strike: async ({ page }) => {
      for (let i = 0; i < 12; i++) {
        await threadFault(page, { hangMs: 30 });
        await page.waitForTimeout(330);
      }
    },
    heavy: true,
  },
];
