/**
 * Versions of the example kit's pairs as they come out of the path in real Chromium, matched: their loudness, by two measures
 * that aren't the page's. (1) BS.1770 by its printed coefficients on the spectrum, no gate. (2) ffmpeg's ebur128, where
 * it is installed: integrated, with its gates, over the loop repeated.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import type { DemoScene } from '../../../src/audio/link';
import { pairSound } from '../../../src/audio/listen/stretchOf';
import { readWav } from '../../../src/files/readWav';
import { writeWav } from '../../../src/files/writeWav';
import { Matching } from '../../../src/listen/matching';
import type { ToListen } from '../../../src/listen/messages';
import { chooseLoop, type Loop, type Stretch } from '../../../src/listen/stretch';
import { type Mix, mixOf, type PairSound, PUTS, type Put, type Start, type Version } from '../../../src/listen/version';
import { renderPath } from '../../support/page/renderedPath';
import { withPage } from '../../support/page/withPage';
import { printedLkfs } from '../../support/sound/printedLoudness';

const KIT = new URL('../../../samples/kit/', import.meta.url);
const { scenes } = JSON.parse(readFileSync(new URL('kit.json', KIT), 'utf8')) as { scenes: DemoScene[] };

function soundOf(scene: DemoScene): PairSound {
  const wav = readWav(new Uint8Array(readFileSync(new URL(scene.file, KIT))));
  const [a, b] = [new Float32Array(wav.frames), new Float32Array(wav.frames)];
  wav.readInto(0, 0, a);
  wav.readInto(1, 0, b);
  const heard = { sampleRate: wav.sampleRate, a, b, swapped: false, offsetSamples: 0, isNewest: false };
  return pairSound(heard, { exact: [] });
}

/** A loop whose length the transform takes: cut or filled with silence, faded as it was. */
function transformable(loop: Loop): Loop {
  const length = 2 ** Math.floor(Math.log2(loop.a.length) + 0.5);
  const sized = (x: Float32Array): Float32Array => {
    const out = new Float32Array(length);
    out.set(x.subarray(0, Math.min(length, x.length)));
    return out;
  };
  return { ...loop, a: sized(loop.a), b: sized(loop.b) };
}

const versionsOf = (scene: DemoScene): Version[] => {
  const late = scene.delaySamples ?? 20;
  const one = (id: string, invertB: boolean, delayBSamples: number, trimBDb: number): Version => ({
    id,
    name: id,
    invertB,
    delayBSamples,
    trimBDb,
  });
  return [
    one('now', false, 0, 0),
    one('inverted', true, 0, 0),
    one('aligned', scene.polarity === 'inverted', -late, 0),
    one('tried', false, 17.37, -6),
  ];
};

const ffmpeg = spawnSync('ffmpeg', ['-version']).status === 0;

/** Integrated loudness, LUFS, of two ears repeated to 12 s; it is told to a tenth. */
function ebur128(folder: string, sampleRate: number, left: Float32Array, right: Float32Array): number {
  const times = Math.ceil((12 * sampleRate) / left.length);
  const repeated = (x: Float32Array): Float32Array => {
    const out = new Float32Array(times * x.length);
    for (let k = 0; k < times; k++) out.set(x, k * x.length);
    return out;
  };
  const file = join(folder, 'ears.wav');
  writeFileSync(file, writeWav([repeated(left), repeated(right)], sampleRate, 'float32'));
  const asked = ['-nostats', '-hide_banner', '-i', file, '-af', 'ebur128', '-f', 'null', '-'];
  const { stderr } = spawnSync('ffmpeg', asked, { encoding: 'utf8' });
  return Number(/Integrated loudness:\s+I:\s+(-?[\d.]+) LUFS/.exec(stderr)?.[1]);
}

/** Its second time round. */
async function steadyEars(page: Page, loop: Loop, mix: Mix): Promise<Float32Array[]> {
  const { sampleRate, a, b } = loop;
  const asks: ToListen[] = [
    { type: 'mix', mix },
    { type: 'level', level: 1 },
    { type: 'play', on: true },
  ];
  const wish = { sampleRate, frames: 2 * a.length, a, b, asks: [{ frame: 0, asks }] };
  const { left, right } = await renderPath(page, inject('pageUrl'), wish);
  return [left, right].map((x) => x.slice(a.length));
}

test.each(['hit', 'bar'] satisfies Stretch[])(
  'versions of every example are within 0.3 dB of each other (%s)',
  async (stretch) => {
    await withPage({}, async ({ page }) => {
      let worst = 0;
      let most = 0;
      let worstGated = 0;
      const folder = mkdtempSync(join(tmpdir(), 'loudness-'));
      // of bars one is enough: they are three times as long
      for (const scene of stretch === 'hit' ? scenes : scenes.slice(0, 1)) {
        const found = chooseLoop(soundOf(scene), stretch);
        if (found === null) continue;
        const loop = transformable(found);
        const versions = versionsOf(scene);
        const matching = new Matching(loop);
        const start: Start = stretch === 'hit' ? 'equal' : 'recorded';
        const table = matching.match(versions, start);
        const levels: number[] = [];
        const gated: number[] = [];
        for (const [i, version] of versions.entries()) {
          // alone, only a trim makes a difference
          for (const put of i === 0 || version.trimBDb !== 0
            ? PUTS
            : PUTS.filter((one) => one === 'both' || one === 'apart')) {
            const { gainDb, shortDb } = (table[i] as Record<Put, { gainDb: number | null; shortDb: number }>)[put];
            if (gainDb === null || shortDb > 0) continue;
            most = Math.max(most, Math.abs(gainDb));
            const mix = mixOf(version, put, matching.levelB(start), 10 ** (gainDb / 20));
            const ears = await steadyEars(page, loop, mix);
            const peak = Math.max(...ears.map((x) => x.reduce((high, one) => Math.max(high, Math.abs(one)), 0)));
            expect(20 * Math.log10(peak), `${scene.id} ${version.id} ${put}: peak`).toBeLessThanOrEqual(-0.999);
            levels.push(printedLkfs(ears, loop.sampleRate));
            if (ffmpeg && put === 'both')
              gated.push(ebur128(folder, loop.sampleRate, ears[0] as Float32Array, ears[1] as Float32Array));
          }
        }
        const spread = Math.max(...levels) - Math.min(...levels);
        worst = Math.max(worst, spread);
        expect(spread, `${scene.id}: LKFS ${levels.map((x) => x.toFixed(2))}`).toBeLessThanOrEqual(0.3);
        if (ffmpeg) worstGated = Math.max(worstGated, Math.max(...gated) - Math.min(...gated));
      }
      rmSync(folder, { recursive: true });
      const by = ffmpeg ? `, A+B by ffmpeg’s gated ebur128 ${worstGated.toFixed(1)} dB` : ', ffmpeg isn’t installed';
      console.log(
        `${stretch}: loudness within ${worst.toFixed(3)} dB${by}; the largest gain used ${most.toFixed(1)} dB`,
      );
    });
  },
  // some hundred renderings: a machine that is busy makes no test fail
  400_000,
);
