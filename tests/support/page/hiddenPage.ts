/**
 * A page that can really be hidden behind another tab. The driver of the other tests keeps its pages visible, so this one talks
 * to the browser itself, over a pipe (Chrome DevTools Protocol: Target, Runtime).
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { setTimeout as sleep } from 'node:timers/promises';
import { findBrowser } from './findBrowser';
import { quietFlags } from './launchPage';

export interface HiddenPage {
  /** of an expression on the page, as JSON carries it; a press by it counts as a person's */
  evaluate<Value>(expression: string): Promise<Value>;
  /** asks again and again until it is true */
  until(what: string, expression: string, timeoutMs?: number): Promise<void>;
  press(command: string): Promise<void>;
  hide(): Promise<void>;
  show(): Promise<void>;
  close(): Promise<void>;
}

/** what the browser answers while a page is on its way */
const NO_PAGE = /default execution context|context was destroyed|navigated/;

interface Answer {
  id?: number;
  result?: Record<string, unknown>;
  error?: { message: string };
}

/** Commands out, answers in, each ended by a zero byte. */
function overPipe(write: Writable, read: Readable) {
  const waiting = new Map<number, (answer: Answer) => void>();
  let ids = 0;
  let rest = '';
  read.setEncoding('utf8');
  read.on('data', (text: string) => {
    const parts = (rest + text).split('\0');
    rest = parts.pop() ?? '';
    for (const part of parts) {
      const answer = JSON.parse(part) as Answer;
      if (answer.id !== undefined) waiting.get(answer.id)?.(answer);
    }
  });
  return async (method: string, params: object = {}, sessionId?: string): Promise<Record<string, unknown>> => {
    const id = ++ids;
    const answered = new Promise<Answer>((resolve) => waiting.set(id, resolve));
    write.write(`${JSON.stringify({ id, method, params, sessionId })}\0`);
    const { result, error } = await answered;
    waiting.delete(id);
    if (error) throw new Error(`${method}: ${error.message}`);
    return result ?? {};
  };
}

/** @param captureWav what the fake capture device plays, in a loop */
export async function openHiddenPage(url: string, captureWav: string): Promise<HiddenPage> {
  const found = findBrowser();
  if ('problem' in found) throw new Error(found.problem);
  const profile = mkdtempSync(join(tmpdir(), 'hidden-page-'));
  const flags = [
    ...quietFlags(),
    '--headless=new',
    '--remote-debugging-pipe',
    `--user-data-dir=${profile}`,
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-audio-capture=${captureWav}`,
    'about:blank',
  ];
  const browser = spawn(found.path, flags, { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] });
  const over = new Promise<void>((resolve) => browser.once('exit', () => resolve()));
  const send = overPipe(browser.stdio[3] as Writable, browser.stdio[4] as Readable);
  const newTab = async (address: string): Promise<string> =>
    (await send('Target.createTarget', { url: address })).targetId as string;
  const tab = await newTab(url);
  const { sessionId } = await send('Target.attachToTarget', { targetId: tab, flatten: true });
  let other: string | null = null;

  const page: HiddenPage = {
    async evaluate<Value>(expression: string) {
      const given = { expression, returnByValue: true, awaitPromise: true, userGesture: true };
      const { result, exceptionDetails } = await send('Runtime.evaluate', given, sessionId as string);
      if (exceptionDetails) throw new Error(`on the page: ${JSON.stringify(exceptionDetails)}`);
      return (result as { value: Value }).value;
    },
    async until(what, expression, timeoutMs = 30_000) {
      const isTrue = (): Promise<boolean> =>
        page.evaluate<boolean>(`Boolean(${expression})`).catch((error: Error) => {
          // between two pages there is nothing to ask
          if (NO_PAGE.test(error.message)) return false;
          throw error;
        });
      for (const end = Date.now() + timeoutMs; !(await isTrue()); ) {
        if (Date.now() > end) throw new Error(`waited ${timeoutMs} ms for ${what}`);
        await sleep(100);
      }
    },
    async press(command) {
      // found and pressed in one go: between two the page may have put another in its place
      await page.until(
        command,
        `((button) => button && (button.click(), true))(document.querySelector('[data-command="${command}"]:enabled'))`,
      );
    },
    async hide() {
      other ??= await newTab('about:blank');
      await send('Target.activateTarget', { targetId: other });
      await page.until('the page to be hidden', 'document.hidden');
    },
    async show() {
      await send('Target.activateTarget', { targetId: tab });
      await page.until('the page to be seen', '!document.hidden');
    },
    async close() {
      await send('Browser.close').catch(() => undefined);
      await over;
      rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    },
  };
  return page;
}
