/** What the browser fetches of the built page, gzip level 9: at first, and when a later part of the page is wanted. */
import { readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { launchBrowser } from '../../support/page/launchPage';
import { answerWhen, playScene, press } from '../../support/page/screen';

/** for the first load */
export const MOST_BYTES = 105_000;

export interface FileWeight {
  file: string;
  bytes: number;
  gzipped: number;
}

export interface PartWeight {
  part: string;
  /** fetched for this part and for none before it, the demo kit's sounds left out */
  files: FileWeight[];
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.wav': 'audio/wav',
  '.svg': 'image/svg+xml',
};

/** icons, the manifest, and the service worker */
export const UNUSED = 'fetched by none of these';

const SCENE = 'snare-top-bottom';
const RECORDING = fileURLToPath(new URL(`../../../samples/kit/${SCENE}.wav`, import.meta.url));

/** What a person does, in an order in which each needs the ones before it at most. */
const STEPS: readonly [part: string, step: (page: Page) => Promise<unknown>][] = [
  ['first load', (page) => page.locator('[data-command="play-demo"]:enabled').waitFor()],
  [
    'meter: a demo scene, a reading',
    async (page) => {
      await playScene(page, SCENE);
      await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    },
  ],
  ['call-out', (page) => over(page, 'call-out', '.call-out', 'back')],
  ['why', (page) => over(page, 'why', '.why-hit', 'back')],
  ['try', (page) => over(page, 'try', '.try-curve', 'back')],
  ['help', (page) => over(page, 'help', 'dialog[open]', 'close-help')],
  [
    'kit sheet and round',
    async (page) => {
      await press(page, 'kit');
      await press(page, 'example-kit');
      await page.locator('#kit-name').waitFor();
    },
  ],
  [
    'hand-over',
    async (page) => {
      await press(page, 'hand-over');
      await page.locator('.ho-page').waitFor();
    },
  ],
  [
    'live inputs',
    async (page) => {
      await press(page, 'kit');
      await press(page, 'kit');
      await press(page, 'sources');
      await press(page, 'acknowledge');
      await press(page, 'connect');
      await press(page, 'open-interface');
      await page.locator('main.identify').waitFor();
    },
  ],
  [
    'a recording',
    async (page) => {
      await press(page, 'leave');
      await page.locator('#recording-files').first().setInputFiles(RECORDING);
      await press(page, 'analyse');
      await answerWhen(page, 'the end', (a) => a.run === 'ended');
    },
  ],
  [
    'teaching bench',
    async (page) => {
      await press(page, 'sources');
      await press(page, 'open-bench');
      await page.locator('main.bench').waitFor();
    },
  ],
];

async function over(page: Page, command: string, there: string, close: string): Promise<void> {
  await press(page, command);
  await page.locator(there).first().waitFor();
  await press(page, close);
}

/** @param dir the built page */
export async function partWeights(dir: string): Promise<PartWeight[]> {
  const asked = new Set<string>();
  const server = await serve(dir, asked);
  const browser = await launchBrowser();
  try {
    const context = await browser.newContext({
      viewport: { width: 1280, height: 800 },
      // which fetches everything, after the first load
      serviceWorkers: 'block',
    });
    await context.grantPermissions(['microphone']);
    const page = await context.newPage();
    await page.goto(server.url);
    const parts: PartWeight[] = [];
    const known = new Set<string>();
    for (const [part, step] of STEPS) {
      await step(page);
      await page.waitForLoadState('networkidle');
      const files = [...asked].filter((file) => !known.has(file) && !file.endsWith('.wav'));
      for (const file of files) known.add(file);
      parts.push({ part, files: files.map((file) => weightOf(dir, file)).sort((a, b) => b.gzipped - a.gzipped) });
    }
    const never = filesOf(dir).filter((file) => !known.has(file));
    if (never.length > 0) parts.push({ part: UNUSED, files: never.map((f) => weightOf(dir, f)) });
    return parts;
  } finally {
    await browser.close();
    server.close();
  }
}

/** Notes what is asked for: the browser’s own list leaves out what runs on the audio thread. */
async function serve(dir: string, asked: Set<string>): Promise<{ url: string; close(): void }> {
  const server = createServer((request, response) => {
    const file = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1) || 'index.html';
    try {
      const bytes = readFileSync(join(dir, file));
      asked.add(file);
      response.setHeader('content-type', TYPES[extname(file)] ?? 'application/octet-stream').end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

function weightOf(dir: string, file: string): FileWeight {
  const bytes = readFileSync(join(dir, file));
  return { file, bytes: bytes.length, gzipped: gzipSync(bytes, { level: 9 }).length };
}

/** Everything but the demo kit's sounds. */
function filesOf(dir: string): string[] {
  return readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith('.wav'))
    .map((entry) => join(entry.parentPath, entry.name).slice(join(dir, '/').length).replaceAll('\\', '/'));
}

export const gzippedBytes = (files: readonly FileWeight[]): number =>
  files.reduce((sum, file) => sum + file.gzipped, 0);
