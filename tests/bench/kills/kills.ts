/**
 * `npm run bench -- kills [number]`: a tab closed, a renderer crashed, a browser killed at random moments of a round. Every pair that
 * the screen showed as accepted before must be there afterwards.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import type { KitSheet } from '../../../src/sheet/document/model';
import { findBrowser } from '../../support/page/findBrowser';
import { quietFlags } from '../../support/page/launchPage';
import { servePage } from '../../support/page/servePage';
import { seeded } from '../../support/sound/signals';
import { savedKits } from '../faults/kept';
import { pairWav } from '../faults/live/pair';
import { table } from '../table';
import { goOn, type Shown, watchShown } from './killedRound';

const KILLS = 100;
const SEED = 12;
const WAYS = ['tab', 'renderer', 'browser'] as const;
type Way = (typeof WAYS)[number];

interface Kill {
  way: Way;
  /** ms after the newest pair was shown as accepted, or after the page was there */
  afterMs: number;
  afterAccept: boolean;
  /** accepted on the screen by then, in all lives */
  shown: number;
  lost: string[];
}

/** Half of them soon after a pair is accepted, where a save is under way; the others at any moment. */
interface Moment {
  way: Way;
  /** after so many pairs accepted in this life; 0: after the page is there */
  accepts: number;
  delayMs: number;
}

export function momentsOf(count: number, seed: number): Moment[] {
  const random = seeded(seed);
  return Array.from({ length: count }, (_, i): Moment => {
    const way = WAYS[i % WAYS.length] as Way;
    const isSoon = random() < 0.5;
    const accepts = isSoon ? 1 : 0;
    return { way, accepts, delayMs: Math.floor(random() * (isSoon ? 400 : 8000)) };
  });
}

/** The browser's own process, of its profile. Linux. */
const browserPids = (profile: string): number[] =>
  readdirSync('/proc')
    .map(Number)
    .filter((pid) => {
      if (!(pid > 1)) return false;
      try {
        const line = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
        return line.includes(`--user-data-dir=${profile}`) && !line.includes('--type=');
      } catch {
        return false;
      }
    });

class Lives {
  private context: BrowserContext | null = null;
  private readonly profile = mkdtempSync(join(tmpdir(), 'killed-round-'));

  constructor(private readonly url: string) {}

  async page(onShown: (one: Shown) => void = () => undefined): Promise<Page> {
    this.context ??= await this.launch();
    const page = await this.context.newPage();
    await page.addInitScript('globalThis.__name ??= (named) => named;');
    await watchShown(page, onShown);
    await page.goto(this.url, { waitUntil: 'load' });
    return page;
  }

  async kill(way: Way, page: Page): Promise<void> {
    if (way === 'tab') await page.close({ runBeforeUnload: false });
    else if (way === 'renderer') {
      const session = await page.context().newCDPSession(page);
      const crashed = page.waitForEvent('crash', { timeout: 5000 }).catch(() => undefined);
      session.send('Page.crash').catch(() => undefined);
      await crashed;
      await page.close().catch(() => undefined);
    } else {
      for (const pid of browserPids(this.profile)) process.kill(pid, 'SIGKILL');
      await this.context?.close().catch(() => undefined);
      this.context = null;
      // its children end when they notice
      await sleep(500);
    }
  }

  async end(): Promise<void> {
    await this.context?.close().catch(() => undefined);
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 300 });
  }

  private launch(): Promise<BrowserContext> {
    const found = findBrowser();
    if ('problem' in found) throw new Error(found.problem);
    return chromium.launchPersistentContext(this.profile, {
      executablePath: found.path,
      headless: true,
      chromiumSandbox: process.getuid?.() !== 0,
      args: [
        ...quietFlags(),
        '--use-fake-device-for-media-stream',
        '--use-fake-ui-for-media-stream',
        `--use-file-for-fake-audio-capture=${pairWav()}`,
      ],
      permissions: ['microphone'],
      serviceWorkers: 'block',
      viewport: { width: 1280, height: 800 },
      timeout: 60_000,
    });
  }
}

/** @returns what was shown as accepted and isn't any more */
export function lostPairs(shown: readonly Shown[], kits: readonly KitSheet[]): string[] {
  return shown
    .filter(({ kit, pair }) => {
      const there = kits.find(({ id }) => id === kit)?.pairs.find(({ id }) => id === pair);
      return !there || there.acceptedAt === null || there.before === null;
    })
    .map(({ kit, pair }) => `${kit} ${pair}`);
}

async function oneLife(lives: Lives, { way, accepts, delayMs }: Moment, shown: Shown[]): Promise<Kill> {
  let accepted = 0;
  let lastMs = Date.now();
  let over = false;
  let reached: () => void = () => undefined;
  const soon = new Promise<void>((resolve) => {
    reached = resolve;
  });
  const page = await lives.page((one) => {
    if (over) return;
    shown.push(one);
    accepted += 1;
    lastMs = one.atMs;
    if (accepted === accepts) reached();
  });
  const going = goOn(page).catch((thrown: unknown) => String(thrown));
  // a life in which nothing is accepted in a minute is ended as any other
  if (accepts > 0) await Promise.race([soon, sleep(60_000)]);
  await sleep(delayMs);
  const afterMs = Date.now() - lastMs;
  over = true;
  await lives.kill(way, page);
  await going;
  const looked = await lives.page();
  const kits = await savedKits(looked);
  await looked.close();
  return { way, afterMs, afterAccept: accepted > 0, shown: shown.length, lost: lostPairs(shown, kits) };
}

/** @param words how many; 100 unless told */
export async function runKills(words: readonly string[]): Promise<string> {
  const count = words[0] === undefined ? KILLS : Number(words[0]);
  if (!Number.isInteger(count) || count < 1) throw new RangeError('How many kills? A whole number, or none for 100.');
  const served = await servePage();
  const lives = new Lives(served.url);
  const shown: Shown[] = [];
  const kills: Kill[] = [];
  const from = Date.now();
  try {
    for (const moment of momentsOf(count, SEED)) {
      const kill = await oneLife(lives, moment, shown);
      kills.push(kill);
      const where = kill.afterAccept ? 'a pair was accepted' : 'the page was there';
      const fate = kill.lost.length > 0 ? `LOST ${kill.lost.join(', ')}` : 'all there';
      console.log(
        `${String(kills.length).padStart(3)} of ${count}  ${kill.way} killed ${kill.afterMs} ms after ${where}; ${kill.shown} accepted, ${fate}`,
      );
      // told once
      for (const lost of kill.lost) {
        const at = shown.findIndex(({ kit, pair }) => `${kit} ${pair}` === lost);
        if (at >= 0) shown.splice(at, 1);
      }
    }
  } finally {
    await lives.end();
    await served.close();
  }
  return killTable(kills, (Date.now() - from) / 60_000, shown.length);
}

function killTable(kills: readonly Kill[], minutes: number, accepted: number): string {
  const row = (name: string, all: readonly Kill[]): (string | number)[] => [
    name,
    all.length,
    all.filter(({ afterAccept, afterMs }) => afterAccept && afterMs < 400).length,
    all.filter(({ afterAccept, afterMs }) => afterAccept && afterMs < 50).length,
    all.filter(({ lost }) => lost.length > 0).length,
    all.reduce((sum, { lost }) => sum + lost.length, 0),
  ];
  return table(
    `${kills.length} kills at random moments of a round (seed ${SEED}), ${minutes.toFixed(1)} minutes, ${accepted} pairs accepted on the screen`,
    [
      'killed',
      'times',
      'within 400 ms after a pair was accepted',
      'within 50 ms',
      'kills that lost something',
      'pairs lost',
    ],
    [
      ...WAYS.map((way) =>
        row(
          way,
          kills.filter((one) => one.way === way),
        ),
      ),
      row('all', kills),
    ],
  );
}
