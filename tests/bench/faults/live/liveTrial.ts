/** A live fault: a right reading first, then the fault, what is told of it, and back to a right reading as a person would. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { askForInput } from '../../../support/page/interface';
import { readAnswer } from '../../../support/page/screen';
import type { SoundServer } from '../../../support/page/soundServer';
import { openPage } from '../bench';
import type { Bench, Fault, Kind, Outcome, Told } from '../faultTypes';
import { lostOf, openKit } from '../kept';
import { has, newWords, pressIfThere, shownInstead, until, visibleText } from '../screen';
import { certainReadings, labScript, nextPhase, type PageFault, threadFault } from './lab';
import type { ThreadFault } from './labThread';
import { isTrue, PAIR, type Truth } from './pair';

export interface Live {
  page: Page;
  context: BrowserContext;
  server: SoundServer | null;
}

export interface LiveFault {
  sub: string;
  name: string;
  how: string;
  told: Told;
  recovers: string;
  /** ms until it must be told; 3 s unless said */
  withinMs?: number;
  /** how long the fault is watched at least, ms */
  lastsMs?: number;
  /** there before the input is opened */
  before?: PageFault;
  may?: boolean;
  noDevice?: boolean;
  /** the sound server's inputs, made ready before the page is opened */
  prepare?(server: SoundServer): void | Promise<void>;
  /** what begins it once there is a reading */
  strike?: ThreadFault | ((live: Live) => Promise<unknown>);
  /** what ends it; a fault of the thread is taken away anyway */
  mend?(live: Live): Promise<unknown>;
  /** what a certain reading may be while it lasts; the pair's, unless said */
  truth?: readonly Truth[];
  /** and after it */
  after?: readonly Truth[];
  /** true: nobody presses anything, it goes on by itself */
  byItself?: boolean;
  /** ms until there is a right reading again */
  backMs?: number;
  /** it ends in no reading, and that is all that can be had: being told is what counts */
  noReading?: boolean;
  /** through an example in place of an input */
  example?: boolean;
  heavy?: boolean;
}

const READING_MS = 25_000;
const BACK_MS = 25_000;

export const liveFaults = (kind: Kind, all: readonly LiveFault[]): Fault[] =>
  all.map((one) => ({
    kind,
    sub: one.sub,
    name: one.name,
    how: one.how,
    told: one.told,
    recovers: one.recovers,
    heavy: one.heavy ?? false,
    run: (bench) => tryLive(one, bench),
  }));

async function tryLive(fault: LiveFault, bench: Bench): Promise<Outcome> {
  const sound = fault.prepare ? await bench.sound() : null;
  if (fault.prepare && !sound) throw new Error('no sound server');
  const browser = sound?.browser ?? (await (fault.noDevice ? bench.noDevice() : bench.fakeDevice()));
  if (sound) await fault.prepare?.(sound.server);
  const { context, page } = await openPage(browser, bench.url, {
    script: labScript(fault.before),
    may: fault.may ?? true,
    anyProgram: true,
  });
  const live: Live = { page, context, server: sound?.server ?? null };
  try {
    await openKit(page);
    await page.keyboard.press('e');
    await page.locator('[data-command="connect"]:visible').first().waitFor();
    return await watched(fault, live);
  } finally {
    await context.close().catch(() => undefined);
    for (const { name } of sound ? inputsOf(sound.server) : []) sound?.server.unplug(name);
  }
}

const inputsOf = (server: SoundServer): { name: string }[] =>
  server
    .pactl('list', 'short', 'sources')
    .split('\n')
    .map((row) => ({ name: row.split('\t')[1] ?? '' }))
    .filter(({ name }) => name !== '' && !name.endsWith('.monitor'));

async function watched(fault: LiveFault, live: Live): Promise<Outcome> {
  const { page } = live;
  // a fake device by its name: as the default it has none, and is another one for all that is known after each stand-still
  const named = fault.byItself === true && fault.before === undefined && !fault.prepare;
  await askForInput(page, { named }).catch(() => undefined);
  if (fault.strike) {
    if (!(await until(() => isBack(live, [PAIR]), READING_MS)))
      throw new Error(`no reading before the fault: ${await shownInstead(page)}`);
  }
  await nextPhase(page);
  // what is there from the first line on is told from the first line on
  const words = fault.strike ? await newWords(page) : () => visibleText(page);
  if (typeof fault.strike === 'function') await fault.strike(live);
  else if (fault.strike) await threadFault(page, fault.strike);

  const from = Date.now();
  const told = await toldWithin(fault, words);
  const shown = told ? '' : await shownInstead(page);
  const rest = (fault.lastsMs ?? 4000) - (Date.now() - from);
  if (rest > 0) await sleep(rest);
  const alarmed = fault.told === 'nothing' && (await alarm(page));

  await fault.mend?.(live);
  if (typeof fault.strike === 'object') await threadFault(page, null);
  await nextPhase(page);
  const truths = fault.truth ?? [PAIR];
  const after = fault.after ?? [PAIR];
  const recovered = fault.noReading
    ? !(await has(page, '#answer[data-state="measured"][data-run="running"]'))
    : await until(() => (fault.byItself ? isRight(page, after) : isBack(live, after)), fault.backMs ?? BACK_MS, 300);
  const wrong = (await certainReadings(page)).filter((one) => {
    if (one.phase === 0) return !isTrue(one, [PAIR]);
    // what was on its way when it was mended
    return !isTrue(one, one.phase === 1 ? truths : [...truths, ...after]);
  });
  const sayWrong = ({ polarity, delayMs }: Truth): string => `${polarity} ${(delayMs * 34.3).toFixed(1)} cm`;
  return {
    told: told && !alarmed,
    recovered,
    wrong: [...new Set(wrong.map(sayWrong))].slice(0, 5),
    lost: await lostOf(page),
    shown: alarmed || shown || (recovered ? '' : `at the end: ${await shownInstead(page)}`),
  };
}

async function toldWithin(fault: LiveFault, words: () => Promise<string>): Promise<boolean> {
  const { told } = fault;
  if (typeof told === 'string') return true;
  return until(async () => told.test(await words()), fault.withinMs ?? 3000);
}

/** @returns what is told of a fault, where there is nothing to tell */
async function alarm(page: Page): Promise<string | false> {
  const up = (await has(page, '[data-problem], [data-aside]')) || /drops audio/.test(await visibleText(page));
  return up ? shownInstead(page) : false;
}

/** @returns whether the screen shows a right reading, for certain and now */
export async function isRight(page: Page, truths: readonly Truth[]): Promise<boolean> {
  const raw = await readAnswer(page);
  if (raw?.state !== 'measured' || raw.run !== 'running' || raw.problem !== null) return false;
  const delayMs = ((raw.delaySamples as number) / (raw.sampleRate as number)) * 1000;
  return isTrue({ polarity: raw.polarity as Truth['polarity'], delayMs }, truths);
}

/** The same; and if it isn't so, presses what a person would press next. */
async function isBack(live: Live, truths: readonly Truth[]): Promise<boolean> {
  const { page } = live;
  if (await isRight(page, truths)) return true;
  if (await pressIfThere(page, '.identify [data-command="skip"]')) return false;
  // its sentence says that it carries on by itself: whoever tries again begins anew
  if (await has(page, '[data-problem="dropped-audio"]')) return false;
  if (await pressIfThere(page, '[data-command="recover"]')) {
    await sleep(2500);
    return false;
  }
  if (await pressIfThere(page, '[data-command="acknowledge"]')) return false;
  if (await pressIfThere(page, 'main.connect [data-command="open-interface"]')) await sleep(1500);
  else await pressIfThere(page, 'main.start [data-command="connect"]');
  return false;
}
