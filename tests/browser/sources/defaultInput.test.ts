/** Whose sound arrives: the system’s default that moves, and devices with more than two channels, with a sound server as stand-in. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { askForInput, openInterface } from '../../support/page/interface';
import { answerWhen, problemSentence, readAnswer } from '../../support/page/screen';
import { type SoundServer, soundServerMissing, withSoundServer } from '../../support/page/soundServer';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE, hits, later } from '../../support/sound/signals';

const missing = soundServerMissing();

/** A pair, 10 s of it: B `lag` samples after A, each with a noise of its own. */
function pair(lag: number, gain: number, seed: number): [Float32Array, Float32Array] {
  const a = hits(10, 0.6, seed);
  const b = later(a, lag, gain);
  const noise = hits(10, 20, seed + 1);
  for (let i = 0; i < b.length; i++) b[i] = (b[i] as number) + (noise[i] as number);
  return [a, b];
}

function addPair(server: SoundServer, name: string, label: string, lag: number, seed: number): void {
  server.addInput({ name, label, sampleRate: CAPTURE_RATE });
  server.play(name, pair(lag, -0.7, seed));
}

async function withInputs(body: (server: SoundServer, page: Page) => Promise<void>): Promise<void> {
  await withSoundServer(async (server) => {
    addPair(server, 'one', 'Interface one', 9, 1);
    await withPage({ soundEnv: server.env }, ({ page }) => body(server, page));
  });
}

test('the only device is opened by its own name; unplugged, it is lost, however the system goes on', async ({
  skip,
}) => {
  if (missing) skip(missing);
  await withInputs(async (server, page) => {
    await openInterface(page);
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    expect(await page.locator('header').textContent()).toContain('Interface one');
    // the system goes on with this one when the other is gone
    addPair(server, 'two', 'Interface two', 40, 5);
    server.unplug('one');
    await problemSentence(page, 'input-lost');
    const until = Date.now() + 8000;
    while (Date.now() < until) {
      const answer = await readAnswer(page);
      expect([answer?.run, answer?.problem]).toEqual(['stopped', 'input-lost']);
      await page.waitForTimeout(250);
    }
  });
});

test('a default that the system doesn’t name is unplugged: another input is never measured in its place', async ({
  skip,
}) => {
  if (missing) skip(missing);
  await withSoundServer(async (server) => {
    addPair(server, 'one', 'Interface one', 9, 1);
    addPair(server, 'two', 'Interface two', 40, 5);
    server.makeDefault('one');
    await withPage({ soundEnv: server.env }, async ({ page }) => {
      await openInterface(page, 'two-overheads');
      const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
      expect(Math.abs(before.delaySamples as number)).toBeLessThan(20);
      server.unplug('one');
      const text = await problemSentence(page, 'input-changed');
      expect(text).toMatch(/Interface one/);
      const until = Date.now() + 8000;
      while (Date.now() < until) {
        const answer = await readAnswer(page);
        expect([answer?.run, answer?.state]).not.toEqual(['running', 'measured']);
        // what was read is void: nothing of it can be taken
        expect(answer?.state).not.toBe('measured');
        await page.waitForTimeout(250);
      }
      await page.locator('[data-problem="input-changed"] .strong').click();
      await page.locator('.identify').waitFor();
    });
  });
});

for (const [named, channelMap, arrives] of [
  ['by place, they arrive among the first two', 'front-left,front-right,rear-left,rear-right', true],
  ['by number, nothing arrives', 'aux0,aux1,aux2,aux3', false],
] as const) {
  test(`of four channels, the third and the fourth: where the system names them ${named}`, async ({ skip }) => {
    if (missing) skip(missing);
    await withSoundServer(async (server) => {
      server.addInput({ name: 'four', label: 'Four channels', channels: 4, channelMap, sampleRate: CAPTURE_RATE });
      const silence = new Float32Array(10 * CAPTURE_RATE);
      const noise = hits(10, 20, 9).map((v) => 500 * v);
      server.play('four', [silence, silence, noise, noise]);
      await withPage({ soundEnv: server.env }, async ({ page }) => {
        await askForInput(page);
        await page.locator('.identify').waitFor();
        if (!arrives) await problemSentence(page, 'no-data');
        // a tenth of each: 20 dB less
        else
          await page
            .locator('.input-level', { hasText: /−[3-5]\d/ })
            .first()
            .waitFor({ timeout: 20_000 });
      });
    });
  });
}

test('a mix of the same channels is refused on the spoken check, with the way out', async ({ skip }) => {
  if (missing) skip(missing);
  await withSoundServer(async (server) => {
    server.addInput({ name: 'mix', label: 'Mixed', sampleRate: CAPTURE_RATE });
    const noise = hits(10, 20, 11).map((v, i) => v * (i % 44_100 < 22_050 ? 500 : 20));
    server.play('mix', [noise, noise.map((v) => 0.5 * v)]);
    await withPage({ soundEnv: server.env }, async ({ page }) => {
      await askForInput(page);
      await page.locator('.identify').waitFor();
      const text = await problemSentence(page, 'mixed-channels');
      expect(text).toMatch(/set the interface to two channels/);
      expect(await page.locator('[data-command="skip"]').isEnabled()).toBe(true);
    });
  });
});
