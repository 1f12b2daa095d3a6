/**
 * `npm run bench -- take-browser`: whole takes given to the built page in real Chromium by its file chooser. Prints how long it takes from
 * there to the report, and the most memory meanwhile. Memory is the PSS of the tab's process (`/proc/PID/smaps_rollup`, Linux only):
 * page, workers and what the browser itself holds there, shared pages counted by their share; looked at every 100 ms.
 */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import type { TakeReport } from '../../../src/take/model';
import { launchPage } from '../../support/page/launchPage';
import { servePage } from '../../support/page/servePage';
import { table } from '../table';
import { kitTracks, longTake, sparseTake } from './longTake';

const FOLDER = fileURLToPath(new URL('../../../.cache/takes/', import.meta.url));
const MINUTES = 10;
const GIB = 5;
const LOOK_MS = 100;
const MOST_MS = 20 * 60_000;
const TICKS_A_SECOND = 100;

interface TakeRead {
  seconds: number;
  /** PSS of the tab's process, MB: before, and at most */
  beforeMb: number;
  mostMb: number;
  /** s of all cores: the tab's process, the browser's own */
  tabCpu: number;
  browserCpu: number;
  load: number;
  report: TakeReport;
}

/** Text, not a function: it must run in the page as it stands. Keeps the report that comes from a worker. */
export const KEEP_REPORT = `(() => {
  const Real = Worker;
  globalThis.Worker = class extends Real {
    constructor(...given) {
      super(...given);
      this.addEventListener('message', ({ data }) => { if (data.type === 'report') globalThis.keptReport = data.report; });
    }
  };
})()`;

const pssMb = (pid: number): number => {
  const [, kB = '0'] = /^Pss: +(\d+)/m.exec(readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8')) ?? [];
  return Number(kB) / 1000;
};

/** s of user and system time */
function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
    .replace(/^.*\) /, '')
    .split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_A_SECOND;
}

/** Renderers, of which one is the tab's and another may be kept ready; and the browser itself. */
async function processes(browser: Browser): Promise<{ renderers: number[]; main: number }> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = (await session.send('SystemInfo.getProcessInfo')) as {
    processInfo: { type: string; id: number }[];
  };
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
  const main = processInfo.find(({ type }) => type === 'browser')?.id;
  if (renderers.length === 0 || main === undefined) throw new Error('the browser tells no processes');
  return { renderers, main };
}

class Watched {
  readonly beforeMb: number;
  mostMb: number;
  private readonly beforeCpu: number;

  constructor(private readonly pid: number) {
    this.beforeMb = pssMb(pid);
    this.mostMb = this.beforeMb;
    this.beforeCpu = cpuSeconds(pid);
  }

  look(): void {
    this.mostMb = Math.max(this.mostMb, pssMb(this.pid));
  }

  cpu(): number {
    return cpuSeconds(this.pid) - this.beforeCpu;
  }
}

export async function readOnPage(url: string, paths: string[]): Promise<TakeRead> {
  const { browser, page, errors } = await launchPage(url, { initScript: KEEP_REPORT });
  try {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('[data-take="none"]').waitFor();
    const { renderers, main } = await processes(browser);
    const watched = renderers.map((pid) => new Watched(pid));
    const mainBefore = cpuSeconds(main);
    const looking = setInterval(() => {
      for (const one of watched) one.look();
    }, LOOK_MS);
    const begun = performance.now();
    await page.locator('#take-files').setInputFiles(paths);
    await page.locator('[data-take="read"], [data-take="failed"]').waitFor({ timeout: MOST_MS });
    const seconds = (performance.now() - begun) / 1000;
    clearInterval(looking);
    if (errors.length > 0) throw new Error(errors.join('\n'));
    const report = await page.evaluate<TakeReport | undefined>('globalThis.keptReport');
    if (!report) throw new Error((await page.locator('[data-take]').textContent()) ?? '');
    // the tab's is the one that worked
    const [tab] = watched.sort((p, q) => q.cpu() - p.cpu()) as [Watched];
    return {
      seconds,
      beforeMb: tab.beforeMb,
      mostMb: tab.mostMb,
      tabCpu: tab.cpu(),
      browserCpu: cpuSeconds(main) - mainBefore,
      load: loadavg()[0] as number,
      report,
    };
  } finally {
    await browser.close();
  }
}

const row = (name: string, read: TakeRead): (string | number)[] => [
  name,
  read.seconds.toFixed(1),
  read.tabCpu.toFixed(1),
  read.browserCpu.toFixed(1),
  read.load.toFixed(1),
  read.beforeMb.toFixed(0),
  read.mostMb.toFixed(0),
  read.report.hits.length,
  read.report.drums.length,
  (read.report.durationSeconds - (read.report.hits.at(-1)?.timeSeconds ?? 0)).toFixed(1),
];

export async function takeBrowserTable(): Promise<string> {
  mkdirSync(FOLDER, { recursive: true });
  const served = await servePage();
  const only = process.env.CROSSHEAD_TAKES?.split(',');
  const wanted = (what: string): boolean => !only || only.includes(what);
  try {
    const rows: (string | number)[][] = [];
    if (wanted('wav')) {
      const paths = await longTake(FOLDER, MINUTES);
      const read = await readOnPage(served.url, paths);
      rows.push(row(`${paths.length} WAV files of ${MINUTES} min`, read));
    }
    if (wanted('rf64')) {
      const { tracks, sampleRate } = kitTracks();
      const file = await sparseTake(
        join(FOLDER, 'whole kit.wav'),
        GIB,
        tracks.map(({ sound }) => sound),
        sampleRate,
      );
      if (file) {
        const read = await readOnPage(served.url, [file.path]);
        const minutes = (file.seconds / 60).toFixed(0);
        rows.push(row(`${basename(file.path)}: RF64 of ${GIB} GiB, ${tracks.length} channels, ${minutes} min`, read));
        rmSync(file.path);
      } else console.log(`no file of ${GIB} GiB with holes fits here`);
    }
    return table(
      `Whole takes of 48 kHz and 24 bits on the built page in Chromium, ${cpus().length} cores`,
      [
        'take',
        's',
        'CPU s, tab',
        'CPU s, browser',
        'load',
        'MB before',
        'MB at most',
        'hits',
        'drums',
        'last hit, s before the end',
      ],
      rows,
    );
  } finally {
    await served.close();
  }
}
