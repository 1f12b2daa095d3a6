/** Recordings in the built page: the same answer as the measuring command, and files that can't be used. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readWav } from '../../../src/files/readWav';
import { writeWav } from '../../../src/files/writeWav';
import { type Answer, answerWhen, playScene, press, problemSentence } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { silentEnd } from '../../support/sound/silentEnd';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const kit = (file: string): string => `${root}samples/kit/${file}`;

interface Measured {
  state: string;
  polarity: string | null;
  delaySamples: number | null;
  pathCm: number | null;
  fuller: string | null;
  fullerDb: number | null;
  hits: number;
  hitsUsed: number;
}

/** What `npm run -s measure -- FILE --json` says. */
function measured(file: string): Measured {
  const command = ['--import', 'tsx', `${root}src/cli/main.ts`, file, '--json'];
  return JSON.parse(execFileSync(process.execPath, command, { cwd: root, encoding: 'utf8' })) as Measured;
}

async function choose(page: Page, files: Parameters<ReturnType<Page['locator']>['setInputFiles']>[0]): Promise<void> {
  await page.locator('#recording-files').first().setInputFiles(files);
}

function expectEqual(shown: Answer, command: Measured): void {
  expect(shown.state).toBe(command.state);
  expect(shown.polarity).toBe(command.polarity);
  expect(shown.fuller).toBe(command.fuller);
  expect(shown.hits).toBe(command.hits);
  expect(shown.hitsUsed).toBe(command.hitsUsed);
  for (const name of ['delaySamples', 'pathCm', 'fullerDb'] as const) {
    const want = command[name];
    if (want === null) expect(shown[name]).toBeNull();
    else expect(shown[name], name).toBeCloseTo(want, 3);
  }
}

test('a stereo recording analysed in the page reads as in the measuring command', async () => {
  await withPage({}, async ({ page }) => {
    await choose(page, kit('snare-overhead.wav'));
    await press(page, 'analyse');
    const shown = await answerWhen(page, 'the end of the analysis', (a) => a.run === 'ended');
    expect(shown.state).toBe('measured');
    expectEqual(shown, measured(kit('snare-overhead.wav')));
  });
});

test('two mono recordings analysed in the page read as the stereo one, swapped files turn the delay', async () => {
  const stereo = readWav(new Uint8Array(readFileSync(kit('kick-both-sides.wav'))));
  const mono = [0, 1].map((channel) => {
    const samples = new Float32Array(stereo.frames);
    stereo.readInto(channel, 0, samples);
    const bytes = writeWav([samples], stereo.sampleRate, 's16');
    return { name: `take-${channel + 1}.wav`, mimeType: 'audio/wav', buffer: Buffer.from(bytes) };
  });
  const command = measured(kit('kick-both-sides.wav'));
  await withPage({}, async ({ page }) => {
    await choose(page, mono);
    await press(page, 'analyse');
    expectEqual(await answerWhen(page, 'the end of the analysis', (a) => a.run === 'ended'), command);
  });
  await withPage({}, async ({ page }) => {
    await choose(page, mono);
    await press(page, 'swap-files');
    await press(page, 'analyse');
    const swapped = await answerWhen(page, 'the end of the analysis', (a) => a.run === 'ended');
    expect(swapped.polarity).toBe(command.polarity);
    expect(swapped.delaySamples).toBeCloseTo(-(command.delaySamples as number), 1);
  });
});

test('a recording that ends on a hi-hat, with A silent, keeps its answer', async () => {
  const { a, b, sampleRate } = silentEnd('kick-inside-outside', 'a', 3);
  const buffer = Buffer.from(writeWav([a, b], sampleRate, 's16'));
  await withPage({}, async ({ page }) => {
    await choose(page, { name: 'take.wav', mimeType: 'audio/wav', buffer });
    await press(page, 'analyse');
    const shown = await answerWhen(page, 'the end of the analysis', (r) => r.run === 'ended');
    expect(shown.state).toBe('measured');
    expect(shown.polarity).toBe('same');
  });
});

test('a recording played through the meter at speed comes to the same answer', async () => {
  await withPage({}, async ({ page }) => {
    await choose(page, kit('snare-top-bottom.wav'));
    await press(page, 'play');
    const shown = await answerWhen(page, 'the end of the recording', (a) => a.run === 'ended');
    const command = measured(kit('snare-top-bottom.wav'));
    expect(shown.state).toBe(command.state);
    expect(shown.polarity).toBe(command.polarity);
    expect(shown.delaySamples).toBeCloseTo(command.delaySamples as number, 1);
  });
});

/** Drops files as a person does, onto the whole page. */
async function drop(page: Page, files: { name: string; text: string }[]): Promise<void> {
  const data = await page.evaluateHandle((list) => {
    const transfer = new DataTransfer();
    for (const { name, text } of list) transfer.items.add(new File([text], name, { type: 'audio/wav' }));
    return transfer;
  }, files);
  for (const type of ['dragenter', 'dragover', 'drop']) await page.dispatchEvent('body', type, { dataTransfer: data });
}

test('a broken file dropped while a scene is read: one sentence, and the reading goes on', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await drop(page, [{ name: 'notes.wav', text: 'these are words, not samples' }]);
    await press(page, 'analyse');
    const text = await problemSentence(page, 'not-audio');
    expect(text).toMatch(/^notes\.wav.{10,}\.$/);

    await press(page, 'back-to-reading');
    const after = await answerWhen(page, 'the scene going on', (a) => a.run === 'running' && a.hits > before.hits);
    expect(after.polarity).toBe(before.polarity);
    expect(after.delaySamples).toBeCloseTo(before.delaySamples as number, 0);
  });
});

const header = Buffer.from(writeWav([new Float32Array(0)], 48_000, 's16'));
const UNUSABLE = [
  { what: 'no audio file', files: [{ name: 'a.wav', buffer: Buffer.from('RIFF') }], code: 'not-audio' },
  { what: 'an empty file', files: [{ name: 'b.wav', buffer: Buffer.alloc(0) }], code: /^(empty-file|not-audio)$/ },
  { what: 'a WAV without samples', files: [{ name: 'c.wav', buffer: header }], code: 'empty-file' },
  {
    what: 'one mono file alone',
    files: [{ name: 'd.wav', buffer: Buffer.from(writeWav([new Float32Array(4800)], 48_000, 's16')) }],
    code: 'unsupported-file',
  },
  {
    what: 'two rates',
    files: [44_100, 48_000].map((rate) => ({
      name: `${rate}.wav`,
      buffer: Buffer.from(writeWav([new Float32Array(4800)], rate, 's16')),
    })),
    code: 'files-differ',
  },
];

test.for(UNUSABLE)('$what: one sentence and the first page works on', async ({ files, code }) => {
  await withPage({}, async ({ page }) => {
    await choose(
      page,
      files.map((file) => ({ ...file, mimeType: 'audio/wav' })),
    );
    await press(page, 'analyse');
    const note = page.locator('[data-problem]');
    await note.waitFor();
    expect(await note.getAttribute('data-problem')).toMatch(code);
    expect(((await note.locator('p').first().textContent()) ?? '').trim()).toMatch(/^.{25,}\.$/);
    // and a good file is taken after it
    await choose(page, kit('snare-two-tops.wav'));
    await press(page, 'analyse');
    const shown = await answerWhen(page, 'the good file', (a) => a.run === 'ended' && a.problem === null);
    expect(shown.state).toBe('measured');
  });
});
