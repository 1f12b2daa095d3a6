/** Finds a Chromium-family browser for the tests, or installs one where that can be done without asking. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';

export type BrowserFound = { path: string; version: string };
export type BrowserMissing = { problem: string };

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
];

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

function usualPlaces(): string[] {
  const inPath = (process.env.PATH ?? '').split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)));
  if (process.platform === 'darwin') {
    const apps = ['Chromium', 'Google Chrome', 'Microsoft Edge'];
    const folders = ['/Applications', join(homedir(), 'Applications')];
    return [...inPath, ...folders.flatMap((folder) => apps.map((app) => `${folder}/${app}.app/Contents/MacOS/${app}`))];
  }
  if (process.platform === 'win32') {
    const folders = [process.env.LOCALAPPDATA, process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)']];
    const programs = [
      'Chromium\\Application\\chrome.exe',
      'Google\\Chrome\\Application\\chrome.exe',
      'Microsoft\\Edge\\Application\\msedge.exe',
    ];
    return folders.flatMap((folder) => (folder ? programs.map((program) => join(folder, program)) : []));
  }
  return inPath;
}

/** A program by that name may be a stub that only tells how to install the browser, so it is asked for its version. */
function probe(path: string): BrowserFound | null {
  if (!isProgram(path)) return null;
  if (process.platform === 'win32') return { path, version: 'version not asked' };
  const asked = spawnSync(path, ['--version', '--no-sandbox'], {
    encoding: 'utf8',
    timeout: 60_000,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return asked.status === 0 ? { path, version: asked.stdout.trim() } : null;
}

function isDebian(): boolean {
  return existsSync('/etc/os-release') && /^ID="?debian"?$/m.test(readFileSync('/etc/os-release', 'utf8'));
}

/** The one command that brings a browser to this machine. */
function installCommand(): string {
  if (process.platform === 'darwin') return 'brew install --cask chromium';
  if (process.platform === 'win32') return 'winget install --id Microsoft.Edge';
  return isDebian()
    ? 'sudo apt-get install -y --no-install-recommends chromium'
    : "install Chromium with your system's package manager";
}

/** CROSSHEAD_BROWSER wins; a path given there that doesn't run is a problem, not a reason to take another. */
export function findBrowser(): BrowserFound | BrowserMissing {
  const chosen = process.env.CROSSHEAD_BROWSER;
  if (chosen) {
    return probe(chosen) ?? { problem: `CROSSHEAD_BROWSER names ${chosen}, which does not run as a browser.` };
  }
  for (const place of usualPlaces()) {
    const found = probe(place);
    if (found) return found;
  }
  return {
    problem: `The tests need a Chromium-family browser and found none. Run this once: ${installCommand()} (or set CROSSHEAD_BROWSER to the program's full path).`,
  };
}

/** As findBrowser, and on Debian as root installs the distribution's own Chromium when there is none. */
export function findOrInstallBrowser(): BrowserFound | BrowserMissing {
  const found = findBrowser();
  if ('path' in found || process.env.CROSSHEAD_BROWSER) return found;
  if (!isDebian() || process.getuid?.() !== 0) return found;
  console.log('No Chromium-family browser here: installing chromium with apt-get.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    const step = spawnSync('apt-get', args, { env, stdio: ['ignore', 'inherit', 'inherit'] });
    if (step.status !== 0) return { problem: `apt-get ${args.join(' ')} failed; its messages are above.` };
  }
  return findBrowser();
}
