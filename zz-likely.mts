import { pairKind } from './src/advice/plan/pairKinds';
import { Engine } from './src/dsp/engine';
import { HeardDrums } from './src/dsp/heardDrums';
import { drawCase } from './tests/cases/drawCase';
import { Judge } from './tests/cases/judge';
import { renderCase } from './tests/cases/renderCase';

let ctx: any = null;
const rows: any[] = [];
const decided = (HeardDrums.prototype as any).decided;
(HeardDrums.prototype as any).decided = function (store: any, d: number, c: any) {
  decided.call(this, store, d, c);
  const { decision: x, pool } = this.each[d];
  if (!ctx || x.sign === 0 || x.following || x.contradiction || x.lowEndA || x.lowEndB || x.moved) return;
  const slots = [...pool.drumSlots.subarray(0, pool.drumHits)] as number[];
  const hitSeconds = slots
    .filter((_: number, i: number) => x.inAnswer[i])
    .map((s: number) => (store.anchor[s] - ctx.engine.startFrame) / ctx.fs);
  const now = (store.anchor[store.newest] - ctx.engine.startFrame) / ctx.fs + 0.1;
  const j = ctx.judge.judge({
    polarity: x.sign > 0 ? 'same' : 'inverted',
    delaySamples: x.delay,
    atSeconds: now,
    hitSeconds,
  });
  const like = ctx.engine.estimator.likelihood;
  rows.push({
    group: ctx.group,
    seed: ctx.seed,
    m: x.method,
    ok: j.right,
    err: j.errorCm,
    pol: j.polarityRight,
    n: pool.drumHits,
    k: x.members,
    p: x.method === 3 ? like.probability : null,
    shows: x.method === 3 ? [...x.inAnswer.slice(0, pool.drumHits)].join('') : '',
    u: (x.uncertainty / ctx.fs) * 34300,
    drum: j.drum,
    no: ctx.no,
  });
};
const [, , from, to] = process.argv;
for (let seed = +from!; seed < +to!; seed++) {
  const made = drawCase(seed);
  const { a, b } = renderCase(made) as any;
  const engine: any = new Engine(made.sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  ctx = { engine, fs: made.sampleRate, judge: new Judge(made), group: made.group, seed, no: made.noAnswer };
  const block = Math.round(0.025 * made.sampleRate);
  for (let i = 0; i < a.length; i += block) engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
  engine.flush();
  ctx = null;
}
for (const r of rows) console.log(JSON.stringify(r));
