/** Why: the hits behind a reading as pictures, refused ones with their reason; and the drums that a person may choose from. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../src/files/writeWav';
import { answerWhen, playScene, press, startOver } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { HIGH, LOW, twoDrums } from '../support/sound/twoDrums';

const RATE = 48000;
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  const results = (await page.evaluate('axe.run(document)')) as AxeResults;
  expect(results.passes.length).toBeGreaterThan(5);
  return results.violations
    .filter((found) => found.impact === 'serious' || found.impact === 'critical')
    .flatMap((found) => found.nodes.map((node) => `${found.id} (${found.help}): ${node.html.slice(0, 160)}`));
}

interface Card {
  serial: number;
  fate: string;
  text: string;
  pressed: boolean;
  refused: boolean;
  /** points of A's and B's outline */
  points: [number, number];
  /** x of the lines where A and B begin; NaN: none */
  starts: [number, number];
  pushes: [string, string];
}

const cards = (page: Page): Promise<Card[]> =>
  page.locator('.why-hit').evaluateAll((all) =>
    all.map((card) => {
      const paths = (name: string): string[] => [...card.querySelectorAll(name)].map((p) => p.getAttribute('d') ?? '');
      const count = (d: string | undefined): number => (d ?? '').split(/[ML]/).length - 1;
      const x = (name: string): number => Number.parseFloat((paths(name)[0] ?? '').slice(1));
      const push = (name: string): string => card.querySelector<SVGElement>(name)?.dataset.push ?? '';
      return {
        serial: Number((card as HTMLElement).dataset.serial),
        fate: (card as HTMLElement).dataset.fate ?? '',
        text: card.textContent ?? '',
        pressed: card.getAttribute('aria-pressed') === 'true',
        refused: card.classList.contains('refused'),
        points: [count(paths('.why-a .why-wave')[0]), count(paths('.why-b .why-wave')[0])] as [number, number],
        starts: [x('.why-start-a'), x('.why-start-b')] as [number, number],
        pushes: [push('.why-a'), push('.why-b')] as [string, string],
      };
    }),
  );

/** Waits until every hit that is read has its picture. */
async function cardsWhen(page: Page, when: (all: Card[]) => boolean): Promise<Card[]> {
  for (let i = 0; i < 100; i++) {
    const all = await cards(page);
    if (all.length > 0 && when(all)) return all;
    await page.waitForTimeout(100);
  }
  throw new Error(`pictures did not come: ${JSON.stringify(await cards(page))}`);
}
const drawn = (all: Card[]): boolean => all.every((card) => card.fate === 'pending' || card.points[0] > 0);

/** Two drums, one of the hits driven into clipping in B. */
function kitWav(): Buffer {
  const { a, b } = twoDrums(RATE, 7);
  const clipped = b.subarray(Math.round(2 * RATE), Math.round(2.35 * RATE));
  for (let i = 0; i < clipped.length; i++) clipped[i] = Math.max(-1, Math.min(1, 30 * (clipped[i] as number)));
  return Buffer.from(writeWav([a, b], RATE, 's24'));
}

async function analyseKit(page: Page): Promise<void> {
  const file = { name: 'kit.wav', mimeType: 'audio/wav', buffer: kitWav() };
  await page.locator('#recording-files').first().setInputFiles([file]);
  await press(page, 'analyse');
  await answerWhen(page, 'the end', (a) => a.run === 'ended');
}

test('a demo scene by key: pictures of all hits, in words too, aligned where both begin, and as recorded', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    const answer = await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hits >= 5);
    await page.locator('[data-command="why"]').focus();
    await page.keyboard.press('w');
    await page.locator('.why').waitFor();
    expect(await page.locator('#why-used').textContent()).toMatch(/\d+ of \d+ hits/);
    const sentences = await page.locator('#why-sentences li').allTextContents();
    expect(sentences.length).toBeGreaterThanOrEqual(4);
    expect(sentences.join(' ')).toContain(`polarity ${answer.polarity}`);
    const all = await cardsWhen(page, drawn);
    const used = all.filter((card) => card.fate === 'used');
    expect(used.length).toBeGreaterThanOrEqual(4);
    expect(all.map((card) => card.serial)).toEqual([...all.map((card) => card.serial)].sort((x, y) => y - x));
    for (const card of used) {
      expect(card.text).toMatch(
        /^Hit \d+: used at \d+\.\d\d s\. A: first push (up|down)\. B: first push (up|down)\. \S/,
      );
      expect(card.text).toContain(`A: first push ${card.pushes[0]}. B: first push ${card.pushes[1]}`);
      // this scene: top and bottom head move together
      expect(card.pushes[0]).not.toBe(card.pushes[1]);
      // in a picture of 200, 8 ms wide: the scene's 0.07 ms and what one hit scatters
      expect(Math.abs(card.starts[0] - card.starts[1])).toBeLessThan(1.5);
    }
    // held: nothing moves any more, and the pictures can still be looked at otherwise
    await page.keyboard.press('h');
    await answerWhen(page, 'hold', (a) => a.held);
    await page.getByLabel('As recorded').check();
    await page.locator('.why-large[data-aligned="false"]').waitFor();
    await page.getByLabel('Zoom in on the first push').check();
    await page.waitForTimeout(400);
    const ticks = await page.locator('.why-large .why-ms').allTextContents();
    expect(ticks).toContain('0.5');
    // one that is chosen by key is the large one
    const third = page.locator('.why-hit').nth(2);
    await third.focus();
    await page.keyboard.press('Enter');
    const serial = await third.getAttribute('data-serial');
    await page.locator(`.why-large[data-serial="${serial}"] .why-a .why-wave`).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.locator('.why').waitFor({ state: 'detached' });
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.command)).toBe('why');
  });
});

test('where a microphone hears only the lows, nothing claims to be aligned, and no hits agree on an arrival', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'kick-low-end-driver');
    await answerWhen(page, 'no arrival', (a) => a.reason.startsWith('lows-only') && a.hits >= 6);
    await press(page, 'why');
    await cardsWhen(page, drawn);
    expect(await page.getByLabel('As recorded').isChecked()).toBe(true);
    expect(await page.getByLabel('B lined up with A').count()).toBe(0);
    expect(await page.locator('.why-large').getAttribute('data-aligned')).toBe('false');
    const sentences = (await page.locator('#why-sentences li').allTextContents()).join(' ');
    expect(sentences).toMatch(/\d+ hits on \S+ drum.* count for the sum only/);
    expect(sentences).not.toMatch(/agree with each other/);
  });
});

test('after a recording: refused hits with their reasons, both drums’ answers, and the one that is chosen', async () => {
  await withPage({}, async ({ page }) => {
    await analyseKit(page);
    const radios = page.locator('.sheet .drum');
    expect(await radios.count()).toBe(3);
    const first = await answerWhen(page, 'an answer', (a) => a.state === 'measured');
    expect(first.delaySamples).toBeCloseTo(HIGH.delaySamples, 0);
    expect(first.polarity).toBe('inverted');
    expect(first.sureness).toContain('the meter’s pick)');
    expect(await page.locator('#used').textContent()).toMatch(/^\d+ of all 14 hits \(drum \d, the meter’s pick\)$/);
    expect(await axeFindings(page)).toEqual([]);

    await press(page, 'why');
    const all = await cardsWhen(page, drawn);
    expect(all.length).toBe(14);
    const fates = new Set(all.map((card) => card.fate));
    expect([...fates].sort()).toEqual(['clipped', 'other-drum', 'used']);
    for (const card of all) {
      expect(card.refused).toBe(card.fate !== 'used');
      if (card.fate === 'other-drum') expect(card.text).toMatch(/another drum \(\d\)/);
      if (card.fate === 'clipped') expect(card.text).toContain('clipped in B');
    }
    const left = await page.locator('#why-sentences li').last().textContent();
    expect(left).toMatch(/^Left out: \d on another drum, 1 clipped\.$/);
    expect(await axeFindings(page)).toEqual([]);

    // the low drum is chosen here: its own answer, from its own hits, aligned by its own delay
    await page.locator('.why .drum', { hasText: ': same,' }).locator('input').check();
    const low = await answerWhen(page, 'the low drum', (a) => a.polarity === 'same');
    expect(low.delaySamples).toBeCloseTo(LOW.delaySamples, 0);
    expect(low.sureness).toContain('your choice)');
    const turned = await cardsWhen(
      page,
      (now) => drawn(now) && now.some((card) => card.fate === 'used' && Math.abs(card.starts[0] - card.starts[1]) < 1),
    );
    expect(turned.filter((card) => card.fate === 'used').map((card) => card.serial)).not.toContain(
      all.find((card) => card.fate === 'used')?.serial,
    );
    expect(await page.locator('#why-used').textContent()).toMatch(/\(drum \d, your choice\)$/);
    const beside = await page.locator('#why-beside li').allTextContents();
    expect(beside.length).toBeGreaterThan(1);
    await page.keyboard.press('Escape');
    // what stands beside the answer isn't only here
    expect(await page.locator('.answer-text .notes li').allTextContents()).toEqual(beside.slice(1));
    // by key: on through the list, and at its end the loudest again
    await page.keyboard.press('d');
    await answerWhen(page, 'the loudest', (a) => a.polarity === 'inverted');
    expect(await page.locator('.sheet .drum[data-drum="picked"] input').isChecked()).toBe(true);
    await page.keyboard.press('d');
    await page.keyboard.press('d');
    await answerWhen(page, 'the low drum again', (a) => a.polarity === 'same');
    // starting over forgets the choice
    await startOver(page);
    const again = await answerWhen(page, 'the end', (a) => a.run === 'ended' && a.state === 'measured');
    expect(again.polarity).toBe('inverted');
  });
});

test.for([
  [1440, 900],
  [1024, 768],
  [768, 1024],
  [390, 844],
] as const)('fits %i × %i: no sideways scrolling, the way back in sight, dark too', async ([width, height]) => {
  await withPage({ viewport: { width, height } }, async ({ page }) => {
    await page.emulateMedia({ colorScheme: 'dark' });
    await analyseKit(page);
    const overflow = (): Promise<number> =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await overflow()).toBe(0);
    await press(page, 'why');
    await cardsWhen(page, drawn);
    expect(await overflow()).toBe(0);
    const inside = await page.locator('.why').evaluate((panel) => panel.scrollWidth - panel.clientWidth);
    expect(inside).toBe(0);
    const back = await page.locator('.why [data-command="back"]').boundingBox();
    expect(back?.x).toBeGreaterThanOrEqual(0);
    expect((back?.x ?? 0) + (back?.width ?? 0)).toBeLessThanOrEqual(width);
    expect(await axeFindings(page)).toEqual([]);
  });
});
