/** The teaching bench in the page: mics put elsewhere by mouse, by finger and by keys, and a lesson's steps. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

export type Way = 'mouse' | 'touch' | 'keys';
type MicId = 'a' | 'b';

const micOf = (page: Page, mic: MicId): Locator => page.locator(`.bench-mic[data-mic="${mic}"]`);

/** Where the mic's grille is, cm. */
export async function grilleOf(page: Page, mic: MicId): Promise<{ xCm: number; yCm: number }> {
  const element = micOf(page, mic);
  return {
    xCm: Number(await element.getAttribute('data-x-cm')),
    yCm: Number(await element.getAttribute('data-y-cm')),
  };
}

export async function putMic(page: Page, way: Way, mic: MicId, xCm: number, yCm: number): Promise<void> {
  const from = await grilleOf(page, mic);
  const [dx, dy] = [xCm - from.xCm, yCm - from.yCm];
  if (way === 'keys') {
    await micOf(page, mic).focus();
    await stepBy(page, dx, 'ArrowRight', 'ArrowLeft');
    await stepBy(page, dy, 'ArrowUp', 'ArrowDown');
  } else {
    await drag(page, way, mic, dx, dy);
  }
  const now = await grilleOf(page, mic);
  expect(Math.hypot(now.xCm - xCm, now.yCm - yCm), `${mic} at ${xCm}, ${yCm}`).toBeLessThan(0.3);
}

/** Whole centimetres by arrows, millimetres by arrows with Shift. */
export async function stepBy(page: Page, cm: number, forth: string, back: string): Promise<void> {
  const key = cm > 0 ? forth : back;
  const mm = Math.round(Math.abs(cm) * 10);
  for (let i = 0; i < Math.floor(mm / 10); i++) await page.keyboard.press(key);
  for (let i = 0; i < mm % 10; i++) await page.keyboard.press(`Shift+${key}`);
}

async function drag(page: Page, way: 'mouse' | 'touch', mic: MicId, dxCm: number, dyCm: number): Promise<void> {
  const reach = micOf(page, mic).locator('.bench-mic-reach');
  await reach.scrollIntoViewIfNeeded();
  const box = await reach.boundingBox();
  if (!box) throw new Error(`mic ${mic} is not drawn`);
  const perCm = Number(await page.locator('.bench-drawing [data-per-cm]').getAttribute('data-per-cm'));
  const start = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const end = { x: start.x + dxCm * perCm, y: start.y - dyCm * perCm };
  const steps = [0.1, 0.4, 0.8, 1].map((share) => ({
    x: start.x + share * (end.x - start.x),
    y: start.y + share * (end.y - start.y),
  }));
  if (way === 'mouse') {
    await page.mouse.move(start.x, start.y);
    await page.mouse.down();
    for (const { x, y } of steps) await page.mouse.move(x, y);
    await page.mouse.up();
    return;
  }
  // where fingers drag and don't scroll, the browser knows from what it has painted
  await page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)))),
  );
  const session = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints });
  await touch('touchStart', [start]);
  for (const point of steps) await touch('touchMove', [point]);
  await touch('touchEnd', []);
  await session.detach();
}

/** The step in hand isn't done yet: the way on is shut. */
export async function expectOpen(page: Page, step: number): Promise<void> {
  await page.locator(`[data-lesson][data-step="${step}"][data-fate="open"]`).waitFor({ timeout: 5000 });
  expect(await page.locator('[data-command="next-step"]').isDisabled()).toBe(true);
}

/** The step in hand is done: on to the next. */
export async function goOn(page: Page, step: number): Promise<void> {
  await page.locator(`[data-lesson][data-step="${step}"][data-fate="done"]`).waitFor({ timeout: 8000 });
  await page.locator('[data-command="next-step"]').click();
}

export const control = (page: Page, id: string): Locator => page.locator(`[data-control="${id}"]`);
