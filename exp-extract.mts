/* features of every candidate of every drum at n = 4, 6, 8, 12, 16 hits → JSON lines */
import { writeFileSync, appendFileSync } from 'node:fs';
import { HeardDrums } from './src/dsp/heardDrums';
import { HitReach } from './src/dsp/hit/hitReach';
import { OnsetPicker, Onsets } from './src/dsp/hit/onsets';
import { Engine } from './src/dsp/engine';
import { DelayEstimator } from './src/dsp/delay/delayEstimator';
import { answerOf } from './src/reading/reading';
import { drawCase } from './tests/cases/drawCase';
import { renderCase } from './tests/cases/renderCase';
import { Judge } from './tests/cases/judge';
import { pairKind } from './src/advice/plan/pairKinds';
import { realRecordings } from './tests/support/sound/realRecordings';
import { realCase, VARIANTS } from './tests/bench/cases/realCases';
import { takePairs, takeTrack, takeTruth } from './tests/bench/engine/takes';

const [, , what, fromS, toS, out] = process.argv as string[];
let hooks: { sampleRate: number } = { sampleRate: 48000 };
const onsets = new WeakMap<object, Map<number, { a: [number, number, number][]; b: [number, number, number][]; serial: number }>>();
let picker: OnsetPicker | null = null, pickedFor = 0, reachMs = 11;
const oa = new Onsets(), ob = new Onsets();
const look = HitReach.prototype.look;
HitReach.prototype.look = function (this: any, slot: number, trigger: number) {
  look.call(this, slot, trigger);
  const ms = (this.maxLagSamples / hooks.sampleRate) * 1000;
  const key = `${hooks.sampleRate} ${ms}`;
  this.op ??= new OnsetPicker(hooks.sampleRate, ms);
  const at = this.found ? Math.min(this.a.frame, this.b.frame) : trigger;
  // each channel by its own: from the earlier arrival on
  this.op.pick(this.rings.pickA, this.b.found ? this.b.frame : trigger, oa);
  this.op.pick(this.rings.pickB, this.a.found ? this.a.frame : trigger, ob);
  this.lastOnsets = { a: list(oa), b: list(ob), trigger };
};
const list = (o: Onsets) => Array.from({ length: o.count }, (_, i) => [o.frame[i]!, o.sign[i]!, o.share[i]!] as [number, number, number]);
const write = HitReach.prototype.write;
HitReach.prototype.write = function (this: any, store: any, slot: number) { write.call(this, store, slot); (store.ons ??= [])[slot] = this.lastOnsets; };

let rows: any[] = [];
let context: any = null;
const decided = HeardDrums.prototype.decided;
HeardDrums.prototype.decided = function (this: any, store: any, d: number, common: any) {
  decided.call(this, store, d, common);
  const drum = this.each[d];
  const n = drum.pool.drumHits;
  if (![4, 6, 8, 12, 16].includes(n) || !context) return;
  const key = `${context.id}|${this.sorter.id[d]}|${n}`;
  if (n < 16 && context.seen.has(key)) return;
  if (n === 16 && (context.sixteen.get(this.sorter.id[d]) ?? 0) >= 3) return;
  if (n === 16) context.sixteen.set(this.sorter.id[d], (context.sixteen.get(this.sorter.id[d]) ?? 0) + 1);
  context.seen.add(key);
  dump(this, store, d, drum, n);
};
function dump(heard: any, store: any, d: number, drum: any, n: number) {
  const fs = hooks.sampleRate;
  const est = context.engine.estimator; const fit = est.together.fit; const stack = est.together.stack;
  const slots = Array.from(drum.pool.drumSlots.subarray(0, n)) as number[];
  const seconds = slots.map((s) => (store.anchor[s] - context.engine.startFrame) / fs);
  const hits = slots.map((s) => {
    const o = store.ons[s] ?? { a: [], b: [] };
    return { t: store.anchor[s] / fs, a: store.arrivalA[s], pa: store.pushA[s], qa: store.qualityA[s], b: store.arrivalB[s], pb: store.pushB[s], qb: store.qualityB[s], nb: store.noiseBound[s], oa: o.a, ob: o.b,
      la: store.levelA[s], lb: store.levelB[s], ld: store.lowDelay[s], ls: store.lowSign[s], lal: store.lowAlone[s], wd: store.waveDelay[s], ws: store.waveSign[s], wr: store.waveRival[s], snr: store.snrDb[s], ta: store.tiltA[s], tb: store.tiltB[s] };
  });
  // candidates: centres of the onset pairs, the fit's, the stack's
  const w = 0.00008 * fs;
  const pairs = hits.map((h) => pairsOf(h, fs));
  const centres: [number, number][] = [];
  const add = (x: number, s: number) => { if (Number.isFinite(x) && s !== 0 && !centres.some(([y, t]) => t === s && Math.abs(x - y) < 0.00002 * fs)) centres.push([x, s]); };
  const scored: [number, number, number][] = [];
  for (const p of pairs) for (const [x, s] of p) {
    let k = 0; for (const q of pairs) if (q.some(([y, t]) => t === s && Math.abs(x - y) <= w)) k++;
    scored.push([k, x, s]);
  }
  scored.sort((p, q) => q[0] - p[0]);
  const kept: [number, number][] = [];
  for (const [k, x, s] of scored) { if (k < 3 || kept.length >= 10) break; if (kept.some(([y, t]) => t === s && Math.abs(x - y) <= w)) continue; kept.push([x, s]); }
  for (const [x, s] of kept) { const near = pairs.flatMap((q) => { const c = q.filter(([y, t]) => t === s && Math.abs(x - y) <= w).map(([y]) => y); return c.length ? [c.reduce((a, b) => (Math.abs(a - x) < Math.abs(b - x) ? a : b))] : []; }).sort((a, b) => a - b); add(near[near.length >> 1]!, s); }
  const groups = centres.length;
  for (let c = 0; c < fit.candidates; c++) { const s = fit.meanHeight(c) > 0 ? 1 : -1; add(fit.medianLag(c, s), s); }
  const wave = drum.pool.waves, low = drum.pool.lows;
  add(wave.delay, wave.sign); add(low.delay, low.sign);
  if (drum.pool.wantsStack) add(stack.delay, stack.sign);
  const cands = centres.map(([x, s], i) => {
    const laid = slots.map((slot) => layAt(fit, slot, x, s, fs));
    const own = med(laid.map((l) => l[0])), other = med(laid.map((l) => l[1]));
    const c = fit.curve.curve, at = Math.round(x) + fit.maxLagSamples; let h = 0; let top = 0;
    for (let k = 0; k < c.length; k++) top = Math.max(top, Math.abs(c[k]));
    for (let k = Math.max(0, at - Math.round(0.0001 * fs)); k <= Math.min(c.length - 1, at + Math.round(0.0001 * fs)); k++) h = Math.max(h, s * c[k]);
    const judged = context.judge.judge({ polarity: s > 0 ? 'same' : 'inverted', delaySamples: x, atSeconds: seconds.at(-1)! + 0.1, hitSeconds: seconds });
    return { x: x / fs, s, i, own, other, laid: laid.map((l) => [+l[0].toFixed(3), +l[1].toFixed(3)]), h: top > 0 ? h / top : 0, top, right: judged.right, err: judged.errorCm, drum: judged.drum };
  });
  const dec = drum.decision;
  const judgedNow = dec.sign !== 0 && !dec.following ? context.judge.judge({ polarity: dec.sign > 0 ? 'same' : 'inverted', delaySamples: dec.delay, atSeconds: seconds.at(-1)! + 0.1, hitSeconds: seconds }) : null;
  rows.push({ id: context.id, group: context.group, fs, drum: heard.sorter.id[d], n, shown: heard.shownAt === d, reach: fit.maxLagSamples / fs, no: context.noAnswer, moving: context.moving, following: dec.following, lowA: dec.lowEndA, lowB: dec.lowEndB, groups,
    stack: drum.pool.wantsStack ? { x: stack.delay / fs, s: stack.sign, m: stack.members, nm: stack.noiseMove / fs } : null, fit: { x: fit.delay / fs, s: fit.sign, agree: fit.agree, ru: fit.runnerUp },
    pairs: pairs.map((p) => p.map(([x, s, i, j]) => [+((x / fs) * 1e6).toFixed(1), s, i, j])), cands: cands.map((c) => ({ ...c, own: +c.own.toFixed(3), other: +c.other.toFixed(3), h: +c.h.toFixed(3) })), hits: hits.map(({ oa, ob, ...h }) => h),
    now: judgedNow && { right: judgedNow.right, err: judgedNow.errorCm, x: dec.delay / fs, s: dec.sign } });
}
const med = (v: number[]) => { const s = [...v].sort((a, b) => a - b); return s.length ? (s[(s.length - 1) >> 1]! + s[s.length >> 1]!) / 2 : NaN; };
function pairsOf(h: any, fs: number): [number, number, number, number][] {
  const out: [number, number, number, number][] = [];
  const add = (x: number, s: number, i: number, j: number) => { if (!out.some(([y, t]) => t === s && Math.abs(x - y) < 2)) out.push([x, s, i, j]); };
  const A = h.oa.length ? h.oa : Number.isFinite(h.a) ? [[h.a, h.pa, 0]] : [];
  const B = h.ob.length ? h.ob : Number.isFinite(h.b) ? [[h.b, h.pb, 0]] : [];
  if (Number.isFinite(h.a) && Number.isFinite(h.b)) add(h.b - h.a, h.pa * h.pb, -1, -1);
  A.forEach(([x, s, i]: any) => B.forEach(([y, t, j]: any) => add(y - x, s * t, i, j)));
  return out;
}
function layAt(fit: any, slot: number, x: number, s: number, fs: number): [number, number] {
  const lag = Math.round(x);
  if (Math.abs(lag) > fit.maxLagSamples) return [0, 0];
  const to = slot * fit.laidKept; const keep = [fit.laidAt[to], fit.laidLag[to], fit.laidHeight[to]];
  fit.lay(slot, lag, to);
  fit.laidAt[to] = keep[0]; fit.laidLag[to] = keep[1]; fit.laidHeight[to] = keep[2];
  const near = fit.near, n15 = Math.round(0.00015 * fs); let own = -1, other = -1;
  for (let k = 0; k <= 2 * near; k++) { const v = s * fit.corr[k]; if (Math.abs(k - near) <= n15) own = Math.max(own, v); other = Math.max(other, -v); }
  return [own, other];
}
function run(id: string, group: string, a: Float32Array, b: Float32Array, sampleRate: number, judge: any, more: any = {}) {
  hooks = { sampleRate };
  const engine: any = new Engine(sampleRate, more.maxLagMs ? { maxLagMs: more.maxLagMs } : {});
  context = { id, group, judge, engine, seen: new Set(), sixteen: new Map(), noAnswer: more.noAnswer ?? null, moving: more.moving ?? false };
  const block = Math.round(0.025 * sampleRate);
  for (let i = 0; i < a.length; i += block) { engine.push(a.subarray(i, i + block), b.subarray(i, i + block)); if (more.hits && engine.store.count > more.hits) break; }
  engine.flush();
  context = null;
}
writeFileSync(out, '');
const flushRows = () => { appendFileSync(out, rows.map((r) => JSON.stringify(r) + '\n').join('')); rows = []; };
if (what === 'cases') for (let seed = +fromS; seed < +toS; seed++) {
  const made = drawCase(seed);
  const { a, b } = renderCase(made) as any;
  run(`case ${seed}`, made.group, a, b, made.sampleRate, new Judge(made), { maxLagMs: pairKind(made.kind).maxLagMs, noAnswer: made.noAnswer, moving: Boolean(made.a.move || made.b.move) });
  flushRows();
}
if (what === 'real') for (const t of realRecordings()) for (const v of VARIANTS) {
  const c = realCase(t, v);
  run(`${t.file} ${v}`, `${t.class} ${v}`, c.a, c.b, c.sampleRate, c.judge, { hits: c.hits, noAnswer: t.class === 'no-answer' ? 'none' : null });
  flushRows();
}
if (what === 'takes') for (const take of ['kit-b-solo', 'kit-b-groove']) {
  const truth = takeTruth(take);
  const pairsSeen = new Set<string>();
  for (const p of takePairs(take)) {
    const key = `${p.a}|${p.b}`; if (pairsSeen.has(key)) continue; pairsSeen.add(key);
    const a = takeTrack(take, p.a).x, { x: b, sampleRate } = takeTrack(take, p.b);
    const judge = { judge(answer: any) {
      const counts = new Map<string, number>();
      for (const t of answer.hitSeconds) for (const dr of new Set(truth.hits.filter((h) => Math.abs(h.seconds - t) < 0.03).map((h) => h.drum))) counts.set(dr, (counts.get(dr) ?? 0) + 1);
      const best = [...counts].sort((x, y) => y[1] - x[1]);
      let found: any = { right: false, errorCm: NaN, drum: best[0]?.[0] ?? null };
      for (const [dr, c] of best) { if (c < 0.75 * best[0]![1]) continue;
        const all = truth.drums.find((x) => x.drum === dr); const rel = all && (all.ownTrack === p.a ? all.others[p.b] : null);
        if (!rel || !rel.firm) continue;
        const err = answer.delaySamples - rel.delaySamples; const right = answer.polarity === rel.polarity && Math.abs(err) <= rel.toleranceSamples;
        if (right) found = { right, errorCm: err, drum: dr }; else if (!found.right) found = { right, errorCm: err, drum: dr, firm: true };
      }
      return found; } };
    run(`${take} ${key}`, take, a, b, sampleRate, judge, { maxLagMs: 34 });
    flushRows();
  }
}
