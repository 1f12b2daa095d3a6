import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS } from '../../src/advice/plan/pairKinds';
import { parseOptions, UsageError } from '../../src/cli/options';
import type { CommandResult } from '../../src/cli/result';
import { runMeasure } from '../../src/cli/run';
import { chunk, format, riff } from '../files/wavBytes';
import { struckPair } from '../support/sound/struckPair';
import { BETWEEN, twoDrums } from '../support/sound/twoDrums';

const folder = mkdtempSync(join(tmpdir(), 'measure-'));
const at = (name: string): string => join(folder, name);

function write(name: string, channels: Float32Array[], sampleRate: number): void {
  const frames = channels[0]?.length ?? 0;
  const samples = new Int16Array(frames * channels.length);
  channels.forEach((samplesOf, c) => {
    for (let i = 0; i < frames; i++) samples[i * channels.length + c] = Math.round(samplesOf[i] * 32767);
  });
  const head = format({ coding: 1, channels: channels.length, sampleRate, bits: 16 });
  writeFileSync(at(name), riff([head, chunk('data', samples)]));
}

beforeAll(() => {
  const { a, b } = struckPair({ sampleRate: 44100, hits: 6, delaySamples: 12, polarity: 'inverted' });
  write('pair.wav', [a, b], 44100);
  const two = struckPair({ sampleRate: 44100, hits: 2, delaySamples: 12, polarity: 'inverted' });
  write('two hits.wav', [two.a, two.b], 44100);
  const kit = twoDrums(44100, 6);
  write('kit.wav', [kit.a, kit.b], 44100);
  const overheads = twoDrums(44100, 6, BETWEEN);
  write('overheads.wav', [overheads.a, overheads.b], 44100);
  write('three.wav', [new Float32Array(a.length), b, a], 44100);
  write('a.wav', [a], 44100);
  write('b.wav', [b], 44100);
  write('b48.wav', [b], 48000);
  write('short.wav', [b.subarray(0, 44100)], 44100);
  write('slow.wav', [a, b], 4000);
  write('ten frames.wav', [a.subarray(0, 10), b.subarray(0, 10)], 44100);
  writeFileSync(at('text.wav'), 'not a recording at all');
  writeFileSync(at('nothing.wav'), '');
  writeFileSync(
    at('adpcm.wav'),
    riff([format({ coding: 17, channels: 2, sampleRate: 44100, bits: 4 }), chunk('data', new Int16Array(9))]),
  );
  mkdirSync(at('folder.wav'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function json(...args: string[]): CommandResult {
  const { stdout, stderr, status } = runMeasure([...args, '--json']);
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout) as CommandResult;
}

describe('what is read', () => {
  it('channels 1 and 2 unless told', () => {
    const result = json(at('pair.wav'));
    expect(result).toMatchObject({
      file: at('pair.wav'),
      bFile: null,
      sampleRate: 44100,
      channels: 2,
      a: 1,
      b: 2,
      truncated: false,
    });
    expect(result.durationSeconds).toBeCloseTo(3.8, 3);
    expect(result).toMatchObject({ state: 'measured', polarity: 'inverted' });
    expect(result.delaySamples).toBeCloseTo(12, 0);
  });

  it('any channels, in any order', () => {
    const result = json(at('three.wav'), '--a', '3', '--b=2');
    expect(result).toMatchObject({ channels: 3, a: 3, b: 2, polarity: 'inverted' });
    const swapped = json(at('three.wav'), '--a=2', '--b', '3');
    expect(swapped.delaySamples).toBeCloseTo(-(result.delaySamples as number), 4);
  });

  it('B from a second file, its first channel unless told', () => {
    const { file: _, bFile: __, channels: ___, b: ____, ...pair } = json(at('pair.wav'));
    expect(json(at('a.wav'), '--b-file', at('b.wav'))).toMatchObject({
      ...pair,
      channels: 1,
      a: 1,
      b: 1,
      bFile: at('b.wav'),
    });
    expect(json(at('a.wav'), '--b-file', at('three.wav'), '--b', '2')).toMatchObject({ ...pair, b: 2 });
  });

  it('an input offset is corrected, and named', () => {
    const result = json(at('pair.wav'));
    expect(result.offsetSamples).toBe(0);
    const less = json(at('pair.wav'), '--offset', '-5.5');
    expect(less).toMatchObject({ offsetSamples: -5.5, state: 'measured', polarity: 'inverted' });
    expect((less.delaySamples as number) - (result.delaySamples as number)).toBeCloseTo(5.5, 0);
    expect(runMeasure([at('pair.wav'), '--offset=2']).stdout).toMatch(
      /offset +\+2\.00 samples of converter offset corrected in B’s delay/,
    );
    for (const [text, sentence] of [
      ['much', /--offset needs a number of samples/],
      ['883', /--offset takes at most ±882 samples \(20 ms\) at 44100 Hz/],
    ] as const)
      expect(runMeasure([at('pair.wav'), '--offset', text])).toMatchObject({
        status: 2,
        stderr: expect.stringMatching(sentence),
      });
  });

  it('a file of a few samples: nothing heard, and that is no error', () => {
    expect(json(at('ten frames.wav'))).toMatchObject({ hits: 0, polarity: null, delaySamples: null });
  });
});

describe('the report', () => {
  it('is short, has the numbers and no JSON', () => {
    const { stdout, status } = runMeasure([at('pair.wav'), '--kind', 'top-bottom']);
    expect(status).toBe(0);
    expect(stdout).toMatch(/Invert B/);
    expect(stdout).toMatch(/\+12\.\d+ samples · \+0\.27\d ms · \+9\.\d cm \(B hears the drum later\)/);
    expect(stdout).toMatch(/6 heard, 6 used/);
    expect(stdout).not.toMatch(/NaN|null|undefined|[{}]/);
    expect(stdout.split('\n').length).toBeLessThan(28);
    // B is late by 0.27 ms and inverted: a null at 0 Hz, which is no notch to hear
    expect(stdout).toMatch(/notches +3\.\d kHz · /);
    const { notchesHz } = json(at('pair.wav'), '--kind', 'top-bottom');
    expect(notchesHz[0]).toBe(0);
    for (const line of stdout.split('\n').slice(3)) expect(line.length).toBeLessThan(120);
  });

  it('has what else could be done, with what it gains', () => {
    const { plan } = json(at('pair.wav'), '--kind', 'top-bottom');
    const { stdout } = runMeasure([at('pair.wav'), '--kind', 'top-bottom']);
    const lines = stdout.replace(/\n {12}/g, ' ').match(/^or .*$/gm) ?? [];
    expect(lines).toHaveLength(plan.length - 1);
    expect(lines.join()).toMatch(/Leave it: ±0 dB in the drum’s low octave and ±0 dB overall/);
    for (const line of lines)
      expect(line).toMatch(/: (±0|[+−][\d.]+) dB in the drum’s low octave and (±0|[+−][\d.]+) dB overall$/);
  });

  it('has the notes and the cautions under the advice, wrapped', () => {
    const { advice } = json(at('pair.wav'), '--kind', 'low-end-driver');
    expect(advice.cautions.join(' ')).toMatch(/phantom/);
    const { stdout } = runMeasure([at('pair.wav'), '--kind', 'low-end-driver']);
    const flat = stdout.replace(/\n {12}/g, ' ');
    for (const caution of advice.cautions) expect(flat).toContain(`\ncaution     ${caution}\n`);
    const gap = json(at('pair.wav'), '--kind', 'top-bottom').advice.notes;
    expect(gap.join(' ')).toMatch(/Moving a stand won’t make up the /);
    const other = runMeasure([at('pair.wav'), '--kind', 'top-bottom']).stdout.replace(/\n {12}/g, ' ');
    for (const note of gap) expect(other).toContain(`\nnote        ${note}\n`);
  });

  it('has a line for each drum where several are heard, and none where one is', () => {
    const stdout = runMeasure([at('kit.wav'), '--temperature', '0']).stdout.replace(/\n {12}/g, ' ');
    // 30 samples at 44.1 kHz, at 0 °C 331.3 m/s: 22.5 cm
    expect(stdout).toMatch(
      /^drum +Drum \d \(around 5\d\d Hz in A\), measured here \(the meter’s pick\): inverted, A 15 cm further · \d of 6 hits used$/m,
    );
    expect(stdout).toMatch(/^drum +Drum \d \(around 1\d\d Hz in A\): same, B 23 cm further · \d of 6 hits used$/m);
    expect(runMeasure([at('pair.wav')]).stdout).not.toMatch(/^drum/m);
  });

  it('asks which drum is meant where nothing tells, with each one’s answer', () => {
    const stdout = runMeasure([at('overheads.wav'), '--drum-name', 'Snare']).stdout.replace(/\n {12}/g, ' ');
    expect(stdout).toMatch(/^advice +Which drum\? Each one heard has its own answer: choose one\.$/m);
    expect(stdout).toMatch(/^note +Several drums are heard, and neither mic is clearly at one of them\.$/m);
    expect(stdout).toMatch(
      /^state +can’t tell · Several drums are heard, and neither mic is clearly at one of them: choose one, or have just one drum hit\.$/m,
    );
    // 40 samples of 44.1 kHz at 20 °C, 343.2 m/s: 31 cm; 35: 27 cm
    expect(stdout).toMatch(/^drum +Drum \d \(around [^)]*\): same, B 31 cm further · \d of 6 hits used$/m);
    expect(stdout).toMatch(/^drum +Drum \d \(around [^)]*\): same, A 27 cm further · \d of 6 hits used$/m);
    // no single one is given: neither as the meter's pick, nor by a name, nor below the list
    expect(stdout).not.toMatch(/measured here|Snare|^polarity|^delay|^or |^notches/m);
    const { state, reasonCode, drum, drums, delaySamples, polarity, plan, fuller, advice } = json(at('overheads.wav'));
    expect([state, reasonCode, drum, delaySamples, polarity, plan, fuller]).toEqual([
      'unclear',
      'which-drum',
      null,
      null,
      null,
      [],
      null,
    ]);
    expect(drums.map((one) => [one.state, one.reasonCode, one.polarity])).toEqual([
      ['measured', 'agreed', 'same'],
      ['measured', 'agreed', 'same'],
    ]);
    expect(advice.action).toBe('cannot-tell');
    expect(json(at('kit.wav')).reasonCode).toBe('agreed');
  });

  it('calls the drum that is read as it was told', () => {
    const stdout = runMeasure([at('kit.wav'), '--drum-name', 'Snare']).stdout.replace(/\n {12}/g, ' ');
    expect(stdout).toMatch(/^drum +Snare, measured here \(the meter’s pick\): inverted/m);
    expect(stdout).toMatch(/^drum +Drum \d \(around 1\d\d Hz in A\): same/m);
    for (const name of [' ', 'x'.repeat(41)]) {
      const { status, stderr } = runMeasure([at('kit.wav'), '--drum-name', name]);
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/--drum-name needs a name of 1 to 40 letters, not “/),
      ]);
    }
  });

  it('writes a band as the advice does', () => {
    const { stdout } = runMeasure([at('pair.wav')]);
    expect(stdout).toMatch(/^low 30–150 Hz /m);
    expect(stdout).toMatch(/^attack 3–10 kHz /m);
    expect(stdout).not.toMatch(/\d Hz–\d+ Hz/);
  });

  it('asks nobody to go on striking: the recording is over', () => {
    const only = /Only 2 usable hits in this recording; 4 are needed\./;
    const two = json(at('two hits.wav'));
    expect(two.advice.action).toBe('hit-more');
    expect(two.advice.text).toMatch(only);
    expect(two.reason).toMatch(only);
    expect(runMeasure([at('two hits.wav')]).stdout).not.toMatch(/keep|strik|struck|yet/);
  });

  it('has a dash where there is no value', () => {
    const { stdout } = runMeasure([at('ten frames.wav')]);
    expect(stdout).toMatch(/low octave +–/);
    expect(stdout).not.toMatch(/NaN|null|undefined/);
  });

  it('--help lists every option and kind', () => {
    const { stdout, status } = runMeasure(['--help']);
    expect(status).toBe(0);
    for (const word of ['--a ', '--b ', '--b-file', '--kind', '--temperature', '--hits', '--json', ...PAIR_KIND_IDS]) {
      expect(stdout).toContain(word);
    }
  });
});

describe('unusable arguments and files: one sentence and 2', () => {
  const refused: [name: string, args: () => string[], says: RegExp][] = [
    ['no file', () => [], /no file given/],
    ['two files', () => [at('a.wav'), at('b.wav')], /--b-file/],
    ['a missing file', () => [at('gone.wav')], /gone\.wav is not there/],
    ['a folder', () => [at('folder.wav')], /is a folder/],
    ['text', () => [at('text.wav')], /text\.wav: this is not a WAV/],
    ['an empty file', () => [at('nothing.wav')], /empty/],
    ['an unknown coding', () => [at('adpcm.wav')], /IMA ADPCM, coding 17/],
    ['a mono file alone', () => [at('a.wav')], /one channel.*--b-file/],
    ['no such channel', () => [at('pair.wav'), '--b', '3'], /no channel 3 for B.*2 channels/],
    [
      'no such channel in B’s file',
      () => [at('a.wav'), '--b-file', at('b.wav'), '--b', '2'],
      /b\.wav has no channel 2/,
    ],
    ['rates that differ', () => [at('a.wav'), '--b-file', at('b48.wav')], /44100 and 48000 Hz/],
    ['lengths that differ', () => [at('a.wav'), '--b-file', at('short.wav')], /different lengths/],
    ['a missing second file', () => [at('a.wav'), '--b-file', at('gone.wav')], /gone\.wav is not there/],
    ['a rate too low to measure at', () => [at('slow.wav')], /4000 Hz/],
    ['an unknown option', () => [at('pair.wav'), '--bogus'], /no option --bogus/],
    ['a short option', () => [at('pair.wav'), '-j'], /no option -j/],
    ['an unknown kind', () => [at('pair.wav'), '--kind', 'gong'], /“gong”.*top-bottom/],
    ['a kind left out', () => [at('pair.wav'), '--kind'], /--kind needs a value/],
    ['an empty value', () => [at('pair.wav'), '--kind='], /--kind needs a value/],
    ['a channel 0', () => [at('pair.wav'), '--a', '0'], /--a needs a whole number/],
    ['half a channel', () => [at('pair.wav'), '--a', '1.5'], /--a needs a whole number/],
    ['a negative count', () => [at('pair.wav'), '--hits', '-3'], /--hits needs a whole number/],
    ['no temperature', () => [at('pair.wav'), '--temperature', 'warm'], /“warm”/],
    ['a temperature beyond any room', () => [at('pair.wav'), '--temperature', '300'], /-40 to 60/],
    ['a value for --json', () => [at('pair.wav'), '--json=yes'], /--json takes no value/],
  ];
  for (const [name, args, says] of refused) {
    it(name, () => {
      for (const more of name === 'a kind left out' ? [[]] : [[], ['--json']]) {
        const { stdout, stderr, status } = runMeasure([...args(), ...more]);
        expect(stdout).toBe('');
        expect(stderr).toMatch(says);
        expect(stderr).toMatch(/^measure: [^\n]+\.\n$/);
        expect(status).toBe(2);
      }
    });
  }

  it('never throws, whatever the arguments', () => {
    const word = fc.oneof(
      fc.string(),
      fc.constantFrom(
        '--a',
        '--b',
        '--b-file',
        '--kind',
        '--hits',
        '--temperature',
        '--json',
        '--',
        '-5',
        '1',
        'x.wav',
        '--a=',
      ),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 8 }), (args) => {
        try {
          const options = parseOptions(args);
          if (options) expect(options.file).not.toBe('');
        } catch (thrown) {
          expect(thrown).toBeInstanceOf(UsageError);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('takes temperatures and names that look like options', () => {
    expect(parseOptions(['x.wav', '--temperature', '-5.5'])).toMatchObject({ temperatureC: -5.5 });
    expect(parseOptions(['--json', '--', '--odd.wav'])).toMatchObject({ file: '--odd.wav', json: true });
  });
});

describe('the options of a plan', () => {
  const file = fileURLToPath(new URL('../../samples/kit/snare-top-bottom.wav', import.meta.url));
  const options = (...args: string[]): string[] => runMeasure([file, ...args]).stdout.match(/^(or|pair) .*$/gm) ?? [];

  it('with the kind are those of the page; without it no move is among them, and it says why', () => {
    expect(options('--kind', 'top-bottom').map((line) => line.slice(12).split(':')[0])).toEqual([
      'Invert B, 2.5 cm closer',
      'Invert B, delay A by 0.07 ms in the mix',
      'Leave it',
    ]);
    const unknown = options();
    expect(unknown.join()).not.toMatch(/closer/);
    expect(unknown.at(-1)).toMatch(/no move is listed: add --kind/);
  });
});

describe('as a process', () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const measure = (...args: string[]): { stdout: string; stderr: string; status: number | null } =>
    spawnSync('npm', ['run', '-s', 'measure', '--', ...args], {
      cwd: root,
      encoding: 'utf8',
      shell: process.platform === 'win32',
    });

  it('prints one JSON object and nothing else', () => {
    const { stdout, stderr, status } = measure(at('pair.wav'), '--json');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect((JSON.parse(stdout) as CommandResult).state).toBe('measured');
  });

  it('ends with 2 and one sentence', () => {
    const { stdout, stderr, status } = measure(at('gone.wav'));
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^measure: .*is not there[^\n]*\n$/);
    expect(status).toBe(2);
  });
});
