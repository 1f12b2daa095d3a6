/** Finds Firefox for the tests, or installs it where that can be done without asking. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

const NAMES = ['firefox-esr', 'firefox'];

const versionOf = (program: string): string | null => {
  const asked = spawnSync(program, ['--version'], { encoding: 'utf8', timeout: 60_000 });
  return asked.status === 0 ? asked.stdout.trim() : null;
};

const pathOf = (program: string): string => spawnSync('which', [program], { encoding: 'utf8' }).stdout.trim();

/** CROSSHEAD_FIREFOX wins; else the one in the path. Linux and macOS. @returns null: none */
export function findFirefox(): { path: string; version: string } | null {
  const chosen = process.env.CROSSHEAD_FIREFOX;
  for (const name of chosen ? [chosen] : NAMES) {
    const version = process.platform === 'win32' ? null : versionOf(name);
    if (version !== null) return { path: chosen ?? pathOf(name), version };
  }
  return null;
}

/** As findFirefox, and on Debian as root installs the distribution's own where there is none. @returns why there is none */
export function installFirefox(): string | null {
  const none = 'no Firefox here; install firefox-esr, or set CROSSHEAD_FIREFOX to the program’s full path';
  if (findFirefox()) return null;
  const isDebian = existsSync('/etc/os-release') && /^ID="?debian"?$/m.test(readFileSync('/etc/os-release', 'utf8'));
  if (!isDebian || process.getuid?.() !== 0 || process.env.CROSSHEAD_FIREFOX) return none;
  console.log('No Firefox here: installing firefox-esr with apt-get.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'firefox-esr']]) {
    const step = spawnSync('apt-get', args, { env, stdio: ['ignore', 'inherit', 'inherit'] });
    if (step.status !== 0) return `${none}: apt-get ${args.join(' ')} failed`;
  }
  return findFirefox() ? null : none;
}
