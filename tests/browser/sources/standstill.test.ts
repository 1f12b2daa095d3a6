/** Nothing arrives, in a real browser: said within about a second, the reading shown as old, and it goes on or can be made to. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { audioServices } from '../../support/page/audioService';
import { askForInput, openInterface } from '../../support/page/interface';
import type { OpenPage } from '../../support/page/launchPage';
import { answerWhen, press, problemSentence, readAnswer } from '../../support/page/screen';
import { stallingServer } from '../../support/page/stallingServer';
import { withPage } from '../../support/page/withPage';
import { captureWav, hits, later } from '../../support/sound/signals';

function pairWav(): string {
  const a = hits(10, 0.6, 1);
  return captureWav('standstill', a, later(a, 9, -0.7));
}

/** Keeps what the page makes of the audio, so that a test can stand for the browser or the system. */
const KEEP_AUDIO = `
  globalThis.kept = { contexts: [], sources: [] };
  globalThis.AudioContext = class extends AudioContext {
    constructor(options) {
      super(options);
      kept.contexts.push(this);
    }
    createMediaStreamSource(stream) {
      const source = super.createMediaStreamSource(stream);
      kept.sources.push(source);
      return source;
    }
  };
`;

interface Kept {
  kept: { contexts: AudioContext[]; sources: AudioNode[] };
}
const suspend = (page: Page) => page.evaluate(() => (globalThis as unknown as Kept).kept.contexts.at(-1)?.suspend());
const resume = (page: Page) => page.evaluate(() => (globalThis as unknown as Kept).kept.contexts.at(-1)?.resume());

/** What the page says of itself as an old reading; empty: it isn't. */
const oldFlag = async (page: Page): Promise<string> =>
  ((await page.locator('#answer [data-flag="old"]').textContent({ timeout: 5000 })) ?? '').trim();
const OLD = /^Old reading, from \d\d:\d\d:\d\d: nothing arrives since$/;

async function expectMs(what: string, leastMs: number, mostMs: number, act: () => Promise<unknown>): Promise<void> {
  const from = Date.now();
  await act();
  const ms = Date.now() - from;
  expect(ms, what).toBeGreaterThanOrEqual(leastMs);
  expect(ms, what).toBeLessThanOrEqual(mostMs);
}

test('a paused context: old reading, nothing accepted in a round, and all goes on with the audio', async () => {
  await withPage({ captureWav: pairWav(), initScript: KEEP_AUDIO }, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await press(page, 'open-sheet');
    await page.locator('[data-start="three"]').click();
    await press(page, 'begin-round');
    await askForInput(page, { named: true });
    await press(page, 'skip');
    const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    const pair = await page.locator('.round').getAttribute('data-pair');

    await suspend(page);
    await expectMs('until it is said', 0, 2000, () => problemSentence(page, 'no-data', 2000));
    expect(await oldFlag(page)).toMatch(OLD);
    const old = await answerWhen(page, 'the old reading', (a) => a.run === 'waiting');
    expect([old.polarity, old.readingSeconds !== null]).toEqual([before.polarity, true]);

    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    for (const key of ['Enter', 'u', 'b', 'a']) {
      await page.keyboard.press(key);
      await page.locator('.round-said', { hasText: 'nothing is noted or accepted' }).waitFor({ timeout: 5000 });
      expect(await page.locator('.round').getAttribute('data-pair')).toBe(pair);
    }
    // the note may be closed: what stays says it still, and other presses put it up again
    await press(page, 'dismiss');
    await page.locator('[data-aside="no-data"] [data-command="recover"]').waitFor();
    await page.keyboard.press('x');
    await problemSentence(page, 'no-data');
    expect((await readAnswer(page))?.swapped).toBe(false);
    await page.keyboard.press('c');
    await page.locator('.call-out[data-old="true"] [data-flag="old"]').waitFor();
    await page.keyboard.press('Escape');

    await resume(page);
    await answerWhen(page, 'going on', (a) => a.run === 'running' && a.problem === null);
    expect(await page.locator('#answer [data-flag="old"]').count()).toBe(0);
    expect((await page.locator('.round-said').textContent())?.trim()).toBe('');
    await page.locator('[data-command="accept"]:enabled').waitFor();
    await press(page, 'accept');
    // B is inverted: it is asked whether that is on purpose
    await press(page, 'leave-accept');
    await page.locator(`.round:not([data-pair="${pair}"])`).waitFor();
  });
});

test('an input without channels, though the audio runs: said within about a second, and trying again works', async () => {
  await withPage({ captureWav: pairWav(), initScript: KEEP_AUDIO }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    await page.evaluate(() => (globalThis as unknown as Kept).kept.sources.at(-1)?.disconnect());
    await expectMs('until it is said', 500, 2500, () => problemSentence(page, 'no-data', 2500));
    expect(await oldFlag(page)).toMatch(OLD);
    await press(page, 'dismiss');
    await page.locator('[data-aside="no-data"] [data-command="recover"]').click();
    await answerWhen(page, 'a reading again', (a) => a.run === 'running' && a.state === 'measured');
    expect(await page.locator('[data-aside]').count()).toBe(0);
  });
});

test('a default that nobody names may be another input once it is back: nothing is measured until it is identified again', async () => {
  await withPage({ captureWav: pairWav(), initScript: KEEP_AUDIO }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    await suspend(page);
    await problemSentence(page, 'no-data', 3000);
    await resume(page);
    await problemSentence(page, 'input-changed', 5000);
    await sleep(3000);
    // what was read may be another microphone's
    const stopped = await readAnswer(page);
    expect([stopped?.run, stopped?.state, stopped?.text]).toEqual(['stopped', '', 'No reading: maybe another input.']);
    await press(page, 'recover');
    await page.locator('.identify').waitFor();
    await press(page, 'skip');
    await answerWhen(page, 'a reading again', (a) => a.state === 'measured' && a.hitsUsed >= 4 && a.problem === null);
  });
});

test('a sound system that hangs: said within about a second, and it goes on when it does', async ({ skip }) => {
  if (process.platform !== 'linux') skip('only Linux tells which process it is');
  await withPage({ captureWav: pairWav() }, async ({ page }) => {
    await openInterface(page, 'two-overheads', { named: true });
    const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    const services = audioServices();
    expect(services.length).toBe(1);
    const tell = (signal: 'SIGSTOP' | 'SIGCONT'): void => {
      for (const pid of services) process.kill(pid, signal);
    };
    try {
      tell('SIGSTOP');
      await expectMs('until it is said', 500, 2500, () => problemSentence(page, 'no-data', 3000));
      expect(await oldFlag(page)).toMatch(OLD);
      await sleep(3000);
      const old = await readAnswer(page);
      expect([old?.run, old?.state, old?.polarity]).toEqual(['waiting', 'measured', before.polarity]);
    } finally {
      tell('SIGCONT');
    }
    await answerWhen(page, 'going on', (a) => a.run === 'running' && a.problem === null);
    await answerWhen(page, 'a reading again', (a) => a.state === 'measured' && a.hits > before.hits);
  });
});

/** The first meter node of the page ends, or hangs, four seconds after its context began. */
const failing = (how: string): string => `
  const addModule = AudioWorklet.prototype.addModule;
  let isFirst = true;
  AudioWorklet.prototype.addModule = async function (url) {
    if (isFirst) {
      isFirst = false;
      const text = \`
        const register = globalThis.registerProcessor;
        globalThis.registerProcessor = (name, Meter) => register(name, class extends Meter {
          process(...given) {
            if (currentTime > 4) { ${how} }
            return super.process(...given);
          }
        });
      \`;
      await addModule.call(this, URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
    }
    return addModule.call(this, url);
  };
`;

for (const [name, how] of [
  ['ends', 'return false'],
  // for good, it would take one of two cores, and the next node really drops audio
  ['hangs for 15 s', 'if (!this.hung) for (const end = (this.hung = Date.now() + 15000); Date.now() < end; );'],
] as const) {
  test(`a processor that ${name}: said within about a second, and trying again works`, async () => {
    await withPage({ initScript: failing(how), anyProgram: true }, async ({ page }) => {
      await press(page, 'play-demo');
      await answerWhen(page, 'hits', (a) => a.hits >= 2);
      await problemSentence(page, 'no-data', 8000);
      expect(await oldFlag(page)).toMatch(OLD);
      await press(page, 'recover');
      await answerWhen(page, 'a reading', (a) => a.run === 'running' && a.state === 'measured');
    });
  });
}

test('an example whose audio is paused waits, and plays on', async () => {
  await withPage({ initScript: KEEP_AUDIO }, async ({ page }) => {
    await press(page, 'play-demo');
    await answerWhen(page, 'the first hits', (a) => a.hits >= 2);
    await suspend(page);
    await problemSentence(page, 'no-data', 2000);
    await answerWhen(page, 'the wait', (a) => a.run === 'waiting');
    await resume(page);
    const before = await answerWhen(page, 'going on', (a) => a.run === 'running' && a.problem === null);
    await answerWhen(page, 'more hits', (a) => a.hits > before.hits);
  });
});

const PROGRAM = 'meterProcessor';

test('the meter’s program never arrives: said after five seconds, and starting over works once it does', async () => {
  const server = await stallingServer(inject('pageUrl'));
  const body = async ({ page }: OpenPage): Promise<void> => {
    server.stall(PROGRAM);
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await expectMs('until it is said', 4500, 9000, async () => {
      await press(page, 'play-demo');
      await problemSentence(page, 'worklet-fault', 10_000);
    });
    server.stall(null);
    await press(page, 'recover');
    await page.locator('#answer[data-state="measured"]').waitFor({ timeout: 30_000 });
    expect(await page.locator('[data-problem], [data-aside]').count()).toBe(0);
  };
  await withPage({}, body, server.url).finally(() => server.close());
});

test('the same while a lost input is opened again: the reading stays old, and Start over brings it back', async () => {
  const server = await stallingServer(inject('pageUrl'));
  const body = async ({ page, context }: OpenPage): Promise<void> => {
    await openInterface(page, 'two-overheads');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    await context.clearPermissions();
    await problemSentence(page, 'input-lost');
    await context.grantPermissions(['microphone']);
    server.stall(PROGRAM);
    await press(page, 'recover');
    await sleep(1000);
    expect(await oldFlag(page)).toMatch(OLD);
    await problemSentence(page, 'worklet-fault', 10_000);
    expect(await oldFlag(page)).toMatch(/^Old reading, from \d\d:\d\d:\d\d: the meter has stopped since$/);
    server.stall(null);
    await press(page, 'start-over');
    await press(page, 'forget-yes');
    await page.locator('#answer[data-run="running"][data-state="measured"]').waitFor({ timeout: 30_000 });
    expect(await page.locator('[data-problem], [data-aside]').count()).toBe(0);
  };
  await withPage({ captureWav: pairWav() }, body, server.url).finally(() => server.close());
});
