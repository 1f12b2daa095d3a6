/** What the built page shows, read from its marks for tests, and the few presses that every test needs. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';

/** The answer as painted; null where the screen has no value. */
export interface Answer {
  run: string;
  state: string;
  reason: string;
  polarity: string | null;
  delaySamples: number | null;
  pathCm: number | null;
  action: string;
  moveCm: number | null;
  fuller: string | null;
  fullerDb: number | null;
  hits: number;
  hitsUsed: number;
  sampleRate: number | null;
  invertB: boolean;
  swapped: boolean;
  held: boolean;
  /** stream seconds of the painted reading */
  readingSeconds: number | null;
  /** the sentence in large type */
  text: string;
  sureness: string;
  /** code and sentence of the problem that is up */
  problem: string | null;
  problemText: string;
}

/** A page of whichever driver. */
export interface Evaluates {
  evaluate<T>(read: () => T): Promise<Awaited<T>>;
}

/** @returns null while the meter's sheet is not up */
export async function readAnswer(page: Evaluates): Promise<Answer | null> {
  const raw = await page.evaluate(() => {
    const answer = document.querySelector<HTMLElement>('#answer');
    const problem = document.querySelector<HTMLElement>('[data-problem]');
    return {
      data: answer ? { ...answer.dataset } : null,
      text: document.querySelector('#advice')?.textContent ?? '',
      sureness: document.querySelector('#sureness')?.textContent ?? '',
      problem: problem?.dataset.problem ?? null,
      problemText: problem?.querySelector('p')?.textContent ?? '',
    };
  });
  if (!raw.data) return null;
  const data = raw.data as Record<string, string | undefined>;
  const number = (name: string): number | null => (data[name] ? Number(data[name]) : null);
  return {
    run: data.run ?? '',
    state: data.state ?? '',
    reason: data.reason ?? '',
    polarity: data.polarity || null,
    delaySamples: number('delaySamples'),
    pathCm: number('pathCm'),
    action: data.action ?? '',
    moveCm: number('moveCm'),
    fuller: data.fuller || null,
    fullerDb: number('fullerDb'),
    hits: number('hits') ?? 0,
    hitsUsed: number('hitsUsed') ?? 0,
    sampleRate: number('sampleRate'),
    invertB: data.invertB === 'true',
    swapped: data.swapped === 'true',
    held: data.held === 'true',
    readingSeconds: number('readingSeconds'),
    text: raw.text.trim(),
    sureness: raw.sureness.trim(),
    problem: raw.problem,
    problemText: raw.problemText.trim(),
  };
}

/**
 * Reads the screen until `when` holds.
 * @param what what is waited for, in words, for the failure
 * @param look called with every answer on the way, the last one included
 */
export async function answerWhen(
  page: Evaluates,
  what: string,
  when: (answer: Answer) => boolean,
  { timeoutMs = 45_000, look }: { timeoutMs?: number; look?: (answer: Answer) => void } = {},
): Promise<Answer> {
  const end = Date.now() + timeoutMs;
  for (;;) {
    const answer = await readAnswer(page);
    if (answer) {
      look?.(answer);
      if (when(answer)) return answer;
      // nothing more will come; one that is on its way out is looked at again
      const stuck = answer.problem === 'worklet-fault' && (await readAnswer(page))?.problem === 'worklet-fault';
      if (stuck) throw new Error(`waiting for ${what}: ${answer.problemText}`);
    }
    if (Date.now() > end) throw new Error(`waited ${timeoutMs} ms for ${what}; last seen: ${JSON.stringify(answer)}`);
    await sleep(60);
  }
}

export async function press(page: Page, command: string): Promise<void> {
  await page.locator(`[data-command="${command}"]:visible`).first().click();
}

/** Opens folded lists of the kit page: pairs, mics, together, about. */
export async function unfold(page: Page, ...lists: string[]): Promise<void> {
  for (const list of lists) {
    const fold = page.locator(`#${list}`);
    await fold.waitFor();
    if ((await fold.getAttribute('open')) === null) await fold.locator('> summary').click();
  }
}

/** Forgets all hits by the press and its question; there must be hits to forget. */
export async function startOver(page: Page): Promise<void> {
  await press(page, 'start-over');
  await press(page, 'forget-yes');
}

/** Waits for the problem note with this code. @returns its sentence */
export async function problemSentence(page: Page, code: string, timeoutMs = 30_000): Promise<string> {
  const note = page.locator(`[data-problem="${code}"]`);
  await note.waitFor({ timeout: timeoutMs });
  return ((await note.locator('p').first().textContent()) ?? '').trim();
}

/** From the first screen into a demo scene. */
export async function playScene(page: Page, sceneId: string): Promise<void> {
  await page.locator('#scene').selectOption(sceneId);
  await press(page, 'play-demo');
  await page.locator('#answer').waitFor();
}
