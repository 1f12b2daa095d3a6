/** Real Chromium on the built page: launching, the fake capture device, and what went wrong on the page. */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { findBrowser } from './findBrowser';

export interface PageOptions {
  /** absolute path of a WAV that the fake device plays in a loop; bit-exact from 44.1 kHz stereo s16 or float32 only */
  captureWav?: string;
  /** `granted` (unless told): as after the prompt, and context.clearPermissions() takes it back · `refused`: denied */
  permission?: 'granted' | 'refused';
  /** true: no capture device at all (Linux without a sound server) */
  noDevice?: boolean;
  /** the inputs are those of a sound server of the test's own: its environment */
  soundEnv?: Record<string, string>;
  viewport?: { width: number; height: number };
  /** true: a screen that is touched */
  touch?: boolean;
  reducedMotion?: 'reduce' | 'no-preference';
  /** runs on the page before anything of its own */
  initScript?: string;
  /** true: a program of the test's own may run, which the page's content policy would refuse */
  anyProgram?: boolean;
  /** true: the page may keep itself for when there is no network; all other tests read what the server gives */
  keptOffline?: boolean;
}

export interface OpenPage {
  browser: Browser;
  context: BrowserContext;
  page: Page;
  /** console errors, uncaught errors and failed requests, in order */
  errors: string[];
}

/** Flags that keep a throw-away browser quiet; no sandbox only for root, where it cannot start. */
export function quietFlags(): string[] {
  const flags = [
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--autoplay-policy=user-gesture-required',
  ];
  if (process.getuid?.() === 0) flags.push('--no-sandbox');
  return flags;
}

function captureFlags(options: PageOptions): string[] {
  const flags: string[] = [];
  if (options.soundEnv) return flags;
  if (!options.noDevice) flags.push('--use-fake-device-for-media-stream');
  if (options.captureWav) flags.push(`--use-file-for-fake-audio-capture=${options.captureWav}`);
  return flags;
}

export async function launchBrowser(options: PageOptions = {}): Promise<Browser> {
  const found = findBrowser();
  if ('problem' in found) throw new Error(found.problem);
  const env = { ...process.env, ...options.soundEnv } as Record<string, string>;
  if (options.noDevice) {
    // nowhere to find a sound server or a sound card
    env.PULSE_SERVER = 'unix:/nonexistent/pulse';
    env.ALSA_CONFIG_PATH = '/dev/null';
  }
  return chromium.launch({
    executablePath: found.path,
    headless: true,
    chromiumSandbox: process.getuid?.() !== 0,
    args: [...quietFlags(), ...captureFlags(options)],
    env,
    timeout: 60_000,
  });
}

/** Opens the page at `url` in a fresh browser and collects whatever goes wrong on it. The caller closes the browser. */
export async function launchPage(url: string, options: PageOptions = {}): Promise<OpenPage> {
  const browser = await launchBrowser(options);
  try {
    const context = await browser.newContext({
      viewport: options.viewport ?? { width: 1280, height: 800 },
      reducedMotion: options.reducedMotion ?? 'no-preference',
      hasTouch: options.touch ?? false,
      bypassCSP: options.anyProgram ?? false,
      serviceWorkers: options.keptOffline ? 'allow' : 'block',
    });
    if (options.permission !== 'refused') await context.grantPermissions(['microphone']);
    const page = await context.newPage();
    if (options.initScript) await page.addInitScript(options.initScript);
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(`uncaught: ${error.stack ?? error.message}`));
    page.on('crash', () => errors.push('the page crashed'));
    page.on('requestfailed', (request) => errors.push(`request failed: ${request.url()}`));
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(`console: ${message.text()}`);
    });
    await page.goto(url, { waitUntil: 'load' });
    return { browser, context, page, errors };
  } catch (error) {
    await browser.close();
    throw error;
  }
}
