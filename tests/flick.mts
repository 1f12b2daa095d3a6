import { readdirSync } from 'node:fs';
import { advise } from '../src/advice/advise.ts';
import { createSteadyAdvice } from '../src/advice/steady.ts';
import { parseOptions } from '../src/cli/options.ts';
import { openTake } from '../src/cli/takes.ts';
import { Engine } from '../src/dsp/engine.ts';
import { answerOf } from '../src/reading/reading.ts';

const verbose = process.argv[2];
const dirs = ['/work/shared/real', '/work/main/samples/kit'];
for (const dir of dirs)
  for (const f of readdirSync(dir).filter((x) => x.endsWith('.wav'))) {
    if (verbose && !f.includes(verbose)) continue;
    const t: any = openTake(parseOptions([`${dir}/${f}`]) as any);
    const sr = t.sampleRate,
      n = Math.round(sr / 10);
    const total = dir.includes('real') ? t.frames : sr * 20;
    const all: [Float32Array, Float32Array] = [new Float32Array(t.frames), new Float32Array(t.frames)];
    t.source(0, all[0], all[1]);
    const e = new Engine(sr, {});
    const steady = createSteadyAdvice();
    const seen = new Map<string, number>();
    let last = '';
    let back = 0;
    const log: string[] = [];
    for (let at = 0; at < total; at += n) {
      const a = new Float32Array(n),
        b = new Float32Array(n);
      for (let i = 0; i < n; i++) {
        const k = (at + i) % t.frames;
        a[i] = all[0][k]!;
        b[i] = all[1][k]!;
      }
      e.push(a, b);
      const r = e.reading();
      const s = answerOf(r);
      const adv = steady.feed(
        advise(r, { kind: 'other', temperatureC: 20, invertB: false, standing: steady.standing }),
        r,
      );
      if (verbose)
        console.log(
          (at / sr).toFixed(1),
          adv.fine,
          s.state,
          s.delaySamples?.toFixed(2),
          s.uncertaintySamples?.toFixed(2),
          r.sum.fullerDb,
        );
      if (adv.text !== last) {
        const isBack = seen.has(adv.text);
        if (isBack) back++;
        log.push(
          `${(at / sr).toFixed(1)} ${isBack ? 'BACK' : '    '} [${s.state}/${s.reason} d=${s.delaySamples?.toFixed(1)} drum ${r.drum} hits ${r.hits}] ${adv.text}`,
        );
        seen.set(adv.text, at);
        last = adv.text;
      }
    }
    console.log(f, 'sentences', log.length, 'back', back);
    if (verbose || back) console.log(log.map((x) => '     ' + x).join('\n'));
  }
