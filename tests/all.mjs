// `npm test`: browser, types, lint, unit tests, build, browser tests. The last line is "N passed, N failed[, N skipped]".
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { tsImport } from 'tsx/esm/api';

const root = fileURLToPath(new URL('..', import.meta.url));
const cache = join(root, '.cache');
const env = { ...process.env, PATH: join(root, 'node_modules/.bin') + delimiter + process.env.PATH };
// CI=true alone makes some tools colour a log file
if (!process.stdout.isTTY) env.NO_COLOR = '1';
const total = { passed: 0, failed: 0, skipped: 0 };

/** Runs one command with its output passed through; true when it ended with 0. A hung step is ended after `minutes`. */
function run(title, command, args, extraEnv = {}, minutes = 45) {
  console.log(`\n== ${title}`);
  const done = spawnSync(command, args, {
    cwd: root,
    env: { ...env, ...extraEnv },
    stdio: ['ignore', 'inherit', 'inherit'],
    timeout: minutes * 60_000,
    killSignal: 'SIGKILL',
    shell: process.platform === 'win32',
  });
  if (done.error) console.log(`${title}: ${done.error.message}`);
  return done.status === 0;
}

/** A check that counts as one test. */
function check(title, command, args) {
  const ok = run(title, command, args);
  total[ok ? 'passed' : 'failed'] += 1;
  console.log(`${title}: ${ok ? 'passed' : 'failed'}`);
}

/** Runs vitest and adds its counts; a file that does not load, or a run without a report, is one failure. */
function vitest(title, name, args, extraEnv) {
  const report = join(cache, `${name}-tests.json`);
  mkdirSync(cache, { recursive: true });
  rmSync(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const ok = run(title, 'vitest', ['run', ...args, ...reporters], extraEnv);
  const counts = { passed: 0, failed: 0, skipped: 0 };
  try {
    for (const file of JSON.parse(readFileSync(report, 'utf8')).testResults) {
      const fates = file.assertionResults.map((test) => test.status);
      for (const fate of fates) counts[fate === 'passed' || fate === 'failed' ? fate : 'skipped'] += 1;
      if (file.status === 'failed' && !fates.includes('failed')) counts.failed += 1;
    }
  } catch (error) {
    console.log(`${title}: no report (${error.message})`);
  }
  // an unhandled rejection, a crash or "no test files" shows in the exit status only
  if (!ok && counts.failed === 0) counts.failed = 1;
  for (const fate of Object.keys(total)) total[fate] += counts[fate];
  console.log(`${title}: ${sentence(counts)}`);
}

function sentence({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}

console.log('== Browser');
const { findOrInstallBrowser } = await tsImport('./support/page/findBrowser.ts', import.meta.url);
const browser = findOrInstallBrowser();
if ('problem' in browser) {
  console.log(browser.problem);
  process.exit(1);
}
console.log(`${browser.path} (${browser.version})`);
const { installSoundServer } = await tsImport('./support/page/soundServer.ts', import.meta.url);
const noSoundServer = installSoundServer();
if (noSoundServer) console.log(`The tests with a sound server are skipped: ${noSoundServer}.`);
const { installFirefox } = await tsImport('./support/page/firefoxProgram.ts', import.meta.url);
const noFirefox = installFirefox();
if (noFirefox) console.log(`The tests in Firefox are skipped: ${noFirefox}.`);

check('Types', 'tsc', ['-b', 'tsconfig.json']);
check('Lint', 'biome', ['check', '.']);
vitest('Unit tests', 'unit', []);
if (run('Build', 'vite', ['build', '--outDir', '.cache/page', '--emptyOutDir'])) {
  vitest('Browser tests', 'browser', ['--config', 'tests/browser/vitest.config.ts'], {
    CROSSHEAD_BROWSER: browser.path,
    CROSSHEAD_PAGE: '.cache/page',
  });
} else {
  total.failed += 1;
  console.log('Build: failed, so the browser tests did not run');
}

console.log(`\n${sentence(total)}`);
process.exitCode = total.failed > 0 ? 1 : 0;
