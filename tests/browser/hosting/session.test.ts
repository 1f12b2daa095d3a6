/** A whole session under the page’s policy: nothing is refused that the page needs, nothing goes to another host; and what isn’t of the page is refused. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { CONTENT_POLICY } from '../../../src/hosting/contentPolicy';
import { readSheet } from '../../../src/sheet/document/file';
import { askForInput } from '../../support/page/interface';
import { whenKept } from '../../support/page/offline';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

const RECORDING = fileURLToPath(new URL('../../../samples/kit/snare-overhead.wav', import.meta.url));

/** The browser’s own word for what a policy refused. */
const LISTEN = `window.refused = [];
window.print = () => { window.printed = true; };
addEventListener('securitypolicyviolation', (e) => refused.push(e.effectiveDirective + ' ' + e.blockedURI + ' ' + e.sample));`;

const refused = (page: Page): Promise<string[]> =>
  page.evaluate(() => (window as unknown as { refused: string[] }).refused);

async function exported(page: Page, command: string): Promise<string> {
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, command)]);
  return readFileSync(await file.path(), 'utf8');
}

test('the server sends the policy that stands in the page, and isolates it', async () => {
  const response = await fetch(inject('pageUrl'));
  const header = response.headers.get('content-security-policy') ?? '';
  expect(header).toBe(`${CONTENT_POLICY}; frame-ancestors 'none'`);
  expect(response.headers.get('cross-origin-opener-policy')).toBe('same-origin');
  expect(response.headers.get('cross-origin-embedder-policy')).toBe('require-corp');
  const html = await response.text();
  const meta = /<head>\s*<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(html)?.[1];
  expect(meta?.replaceAll('&#39;', "'")).toBe(CONTENT_POLICY);
  expect(html).not.toMatch(/data:|<style|style=|<script(?![^>]*src=)|\son\w+=/);
});

test('a whole session: nothing that the page needs is refused, and no other host is asked', async () => {
  await withPage({ keptOffline: true, initScript: LISTEN }, async ({ page, context }) => {
    const hosts = new Set<string>();
    let ofWorker = 0;
    context.on('request', (request) => {
      if (request.url().startsWith('blob:')) return;
      hosts.add(new URL(request.url()).host);
      if (request.serviceWorker()) ofWorker++;
    });
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await whenKept(page);
    await page.reload();
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    expect(await page.locator('.uplot canvas').count()).toBeGreaterThanOrEqual(3);
    await press(page, 'why');
    await page.locator('.why-hit').first().waitFor();
    await page.keyboard.press('Escape');
    await press(page, 'call-out');
    await page.locator('.call-out').waitFor();
    await page.keyboard.press('Escape');
    for (let i = 0; i < 3; i++) await press(page, 'lights');
    await press(page, 'sources');
    await page.locator('#recording-files').first().setInputFiles(RECORDING);
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (a) => a.run === 'ended' && a.state === 'measured');
    await press(page, 'sources');
    await press(page, 'open-sheet');
    await press(page, 'example-kit');
    await page.locator('#kit-name').waitFor();
    const text = await exported(page, 'export-kit');
    expect('sheet' in readSheet(text)).toBe(true);
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    expect(await exported(page, 'export-csv')).toContain('Snare top');
    await press(page, 'print');
    expect(await page.evaluate('window.printed')).toBe(true);
    expect((await page.pdf({ format: 'A4' })).subarray(0, 5).toString()).toBe('%PDF-');
    await press(page, 'kit');
    await press(page, 'close-kit');
    await page
      .locator('#kit-file')
      .setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await page.locator('#kit-name').waitFor();
    await press(page, 'kit');
    await press(page, 'help');
    await page.locator('dialog[open]').waitFor();
    await press(page, 'close-help');
    await askForInput(page);
    await page.locator('main.identify').waitFor();
    await press(page, 'skip');
    await answerWhen(page, 'live samples', (a) => a.run === 'running');

    expect(await refused(page)).toEqual([]);
    expect([...hosts]).toEqual([new URL(inject('pageUrl')).host]);
    // the service worker's were seen too
    expect(ofWorker).toBeGreaterThan(0);
  });
});

test('what isn’t of the page is refused: text as elements or program, inline, other hosts, other addresses of data', async () => {
  await withPage({ initScript: LISTEN }, async ({ page, errors }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    const fates = await page.evaluate(async () => {
      // what runs at once is the test's own, and may do anything
      await new Promise((resolve) => setTimeout(resolve, 50));
      const fate = async (what: () => unknown): Promise<string> => {
        try {
          await what();
          return 'done';
        } catch (thrown) {
          return (thrown as Error).name;
        }
      };
      const add = (tag: string, fields: Record<string, string>): HTMLElement => {
        const it = Object.assign(document.createElement(tag), fields);
        document.head.append(it);
        return it;
      };
      const { trustedTypes } = window as unknown as {
        trustedTypes: { createPolicy(name: string, rules: object): object };
      };
      return {
        elements: await fate(() => document.body.insertAdjacentHTML('beforeend', '<b>text</b>')),
        program: await fate(() => window.setTimeout('window.ran = true')),
        evaluated: await fate(() => new Function('return 1')()),
        policy: await fate(() => trustedTypes.createPolicy('another', {})),
        samePolicy: await fate(() => trustedTypes.createPolicy('crosshead', {})),
        worker: await fate(() => new Worker('./assets/other.js')),
        host: await fate(() => fetch('http://elsewhere.test/')),
        style: await fate(() => add('style', { textContent: 'body { outline: 7px solid red }' })),
        outline: getComputedStyle(document.body).outlineWidth,
        image: await fate(
          () =>
            new Promise((resolve, reject) => {
              const image = add('img', { src: 'data:image/gif;base64,R0lGODlhAQABAAAAACw=' });
              image.addEventListener('load', resolve);
              image.addEventListener('error', () => reject(new TypeError('no image')));
            }),
        ),
      };
    });
    expect(fates).toMatchObject({
      elements: 'TypeError',
      program: 'TypeError',
      evaluated: 'EvalError',
      policy: 'TypeError',
      samePolicy: 'TypeError',
      worker: 'TypeError',
      host: 'TypeError',
      image: 'TypeError',
    });
    expect(fates.outline).not.toBe('7px');
    const by = (await refused(page)).map((text) => text.split(' ')[0]);
    for (const directive of ['require-trusted-types-for', 'trusted-types', 'connect-src', 'style-src-elem', 'img-src'])
      expect(by).toContain(directive);
    errors.splice(0);
  });
});
