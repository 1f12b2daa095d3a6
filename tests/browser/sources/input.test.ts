/** What can go wrong with an input, in a real browser: one sentence each, and nothing uncaught. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { askForInput, openInterface } from '../../support/page/interface';
import { answerWhen, press, problemSentence, startOver } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { captureWav, hits, later } from '../../support/sound/signals';

/** A pair that is easy to read: B 9 samples (7 cm) later, inverted. */
function pairWav(): string {
  const a = hits(10, 0.6, 1);
  const b = later(a, 9, -0.7);
  const floor = hits(10, 20, 2);
  for (let i = 0; i < b.length; i++) b[i] += floor[i];
  return captureWav('pair', a, b);
}

/** One signal on both channels, as a mono device gives it. */
function twiceWav(): string {
  const a = hits(10, 0.6, 3);
  return captureWav('twice', a, a);
}

/** A sentence for people: what is wrong, then what to do. */
function expectSentence(text: string): void {
  expect(text).toMatch(/^[A-Z].{30,}\.$/);
}

test('the fake device’s pair is read live, with its delay and polarity', async () => {
  await withPage({ captureWav: pairWav() }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    const answer = await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    expect(answer.sampleRate).toBe(44_100);
    expect(answer.polarity).toBe('inverted');
    expect(answer.delaySamples).toBeCloseTo(9, 0);
  });
});

test('permission refused: the sentence, and connecting again works as before', async () => {
  await withPage({ permission: 'refused' }, async ({ page, context }) => {
    await askForInput(page);
    const text = await problemSentence(page, 'permission-refused');
    expectSentence(text);
    expect(text).toMatch(/allow/i);
    await context.grantPermissions(['microphone']);
    await page.locator('[data-command="open-interface"]:enabled').click();
    await page.locator('.identify').waitFor();
  });
});

test('no device: the sentence', async ({ skip }) => {
  if (process.platform !== 'linux') skip('only Linux can hide its inputs from one browser');
  await withPage({ noDevice: true }, async ({ page }) => {
    await askForInput(page);
    const text = await problemSentence(page, 'no-device');
    expectSentence(text);
    expect(text).toMatch(/plug/i);
  });
});

test('input lost while running: the sentence, the last reading stays', async () => {
  await withPage({ captureWav: pairWav() }, async ({ page, context }) => {
    await openInterface(page);
    const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await context.clearPermissions();
    const text = await problemSentence(page, 'input-lost');
    expectSentence(text);
    const after = await answerWhen(page, 'the stop', (a) => a.run === 'stopped');
    expect(after.polarity).toBe(before.polarity);
    expect(after.delaySamples).toBeCloseTo(before.delaySamples as number, 0);

    await context.grantPermissions(['microphone']);
    await page.locator('[data-problem="input-lost"] .strong').click();
    // the browser doesn't name its stand-in's default: it may be another input now, so it is identified again
    await page.locator('main.identify').waitFor();
    await press(page, 'skip');
    await answerWhen(page, 'a reading after it came back', (a) => a.run === 'running' && a.state === 'measured');
  });
});

test('a mono device (two bit-identical channels): the sentence, and never a measured reading', async () => {
  await withPage({ captureWav: twiceWav() }, async ({ page }) => {
    await openInterface(page);
    const states = new Set<string>();
    await answerWhen(page, 'the problem', (a) => a.problem !== null, { look: (a) => states.add(a.state) });
    const text = await problemSentence(page, 'one-channel');
    expectSentence(text);
    expect(text).toMatch(/two channels/);
    await answerWhen(page, 'six hits', (a) => a.hits >= 6 || a.state === 'same-signal', {
      look: (a) => states.add(a.state),
    });
    expect([...states]).not.toContain('measured');
  });
});

/** A browser or system that keeps voice processing on, whatever the page asks for. */
async function forceProcessing(page: Page): Promise<void> {
  await page.evaluate(() => {
    const devices = navigator.mediaDevices;
    const real = devices.getUserMedia.bind(devices);
    devices.getUserMedia = (wish) => {
      const audio = typeof wish?.audio === 'object' ? wish.audio : {};
      return real({ audio: { ...audio, echoCancellation: true } });
    };
  });
}

test('voice processing on: the sentence names it, and nothing is measured', async () => {
  await withPage({ captureWav: pairWav() }, async ({ page }) => {
    await forceProcessing(page);
    await openInterface(page);
    const text = await problemSentence(page, 'processing-on');
    expectSentence(text);
    expect(text).toMatch(/echo cancellation/);
    const states = new Set<string>();
    await answerWhen(page, 'six hits', (a) => a.hits >= 6 || a.state === 'same-signal', {
      look: (a) => states.add(a.state),
    });
    expect([...states]).not.toContain('measured');
  });
});

test('each input is identified by speech: the one that moved is named, and B first means swapped', async () => {
  // speech-like noise on channel 2 from 2 s to 4 s, then on channel 1 from 6 s to 8 s; loops after 10 s
  const a = hits(10, 20, 4);
  const b = hits(10, 20, 5);
  const burst = (into: Float32Array, from: number): void => {
    const noise = hits(10, 20, 6);
    for (let i = from * 44_100; i < (from + 2) * 44_100; i++) into[i] += noise[i] * 500;
  };
  burst(b, 2);
  burst(a, 6);
  await withPage({ captureWav: captureWav('speech', a, b) }, async ({ page }) => {
    await askForInput(page);
    await page.locator('.identify[data-step="a"][data-heard="2"]').waitFor({ timeout: 30_000 });
    await press(page, 'confirm');
    await page.locator('.identify[data-step="b"][data-heard="1"]').waitFor({ timeout: 30_000 });
    await press(page, 'confirm');
    const answer = await answerWhen(page, 'the sheet', (shown) => shown.run === 'running');
    expect(answer.swapped).toBe(true);
  });
});

/** Keeps every meter node that the page makes, so that a test can send it something that it can't take. */
async function keepNodes(page: Page, firstConstructorThrows: boolean): Promise<void> {
  await page.evaluate((throwsFirst) => {
    const nodes: AudioWorkletNode[] = [];
    Object.assign(globalThis, { keptNodes: nodes });
    const Real = AudioWorkletNode;
    let mustThrow = throwsFirst;
    globalThis.AudioWorkletNode = class extends Real {
      constructor(context: BaseAudioContext, name: string, options?: AudioWorkletNodeOptions) {
        const broken = mustThrow;
        mustThrow = false;
        super(context, broken ? 'no-such-processor' : name, options);
        nodes.push(this);
      }
    };
  }, firstConstructorThrows);
}

test('a throw on the audio thread becomes a sentence, and starting over works', async () => {
  await withPage({}, async ({ page }) => {
    await keepNodes(page, false);
    await press(page, 'play-demo');
    await answerWhen(page, 'the first hits', (a) => a.hits >= 2);
    await page.evaluate(() => {
      const { keptNodes } = globalThis as unknown as { keptNodes: AudioWorkletNode[] };
      // a reach that no engine can be built for
      keptNodes[0].port.postMessage({ type: 'restart', stamp: 1, maxLagMs: Number.NaN, swapped: false });
    });
    const text = await problemSentence(page, 'worklet-fault');
    expectSentence(text);
    await startOver(page);
    await answerWhen(page, 'a reading after the fault', (a) => a.state === 'measured' && a.problem === null);
  });
});

test('a meter node that can’t be made becomes a sentence, and starting over works', async () => {
  await withPage({}, async ({ page }) => {
    await keepNodes(page, true);
    await press(page, 'play-demo');
    const text = await problemSentence(page, 'worklet-fault');
    expectSentence(text);
    await page.locator('[data-problem] .strong').click();
    await answerWhen(page, 'a reading after the fault', (a) => a.state === 'measured');
  });
});
