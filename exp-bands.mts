import { Engine } from './src/dsp/engine';
import { takeTrack, takeTruth } from './tests/bench/engine/takes';
const [,, A, B] = process.argv as string[];
const a = takeTrack('kit-b-solo', A).x, { x: b, sampleRate } = takeTrack('kit-b-solo', B);
const e: any = new Engine(sampleRate, { maxLagMs: 34 });
for (let i = 0; i < a.length; i += 1024) e.push(a.subarray(i, i + 1024), b.subarray(i, i + 1024));
e.flush();
const t = takeTruth('kit-b-solo');
for (let i = 0; i < e.store.kept; i++) { const s = e.store.at(i); const time = e.store.anchor[s] / sampleRate; const d = t.hits.find((h) => Math.abs(h.seconds - time) < 0.05)?.drum;
 console.log((d ?? '?').padEnd(14), e.store.drum[s], time.toFixed(2), 'far', e.store.far[s], 'tr', ((e.store.trigger[s]-e.store.anchor[s])/sampleRate*1000).toFixed(1), Array.from(e.store.print.subarray(s * 16, s * 16 + 8)).map((x: any) => x.toFixed(0)).join(' '), ' lvl', e.store.levelA[s].toFixed(0)); }
