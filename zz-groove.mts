import { Likelihood } from './src/dsp/delay/likelihood';
import { takePairs, playPair } from './tests/bench/engine/takes';
let last: string[] = [];
const choose = (Likelihood.prototype as any).choose;
(Likelihood.prototype as any).choose = function (store: any, pool: any) {
  choose.call(this, store, pool);
  const rows = [];
  for (let c = 0; c < this.candidates; c++) rows.push([this.score[c], this.at[c], this.way[c]]);
  rows.sort((a: any, b: any) => b[0] - a[0]);
  last.push(`n ${pool.drumHits} p ${this.probability.toFixed(2)} ` + rows.slice(0, 5).map((r: any) => `${r[1].toFixed(1)}${r[2] > 0 ? '+' : '-'}:${r[0].toFixed(1)}`).join(' '));
};
for (const pair of takePairs('kit-b-groove')) { if (pair.drum !== 'snare') continue; last = []; const p = playPair(pair); console.log(pair.a, pair.b, 'truth', pair.delaySamples, pair.polarity, p.end, p.drums.slice(0, 200)); console.log(last.filter((l) => /^n (8|9|1\d)/.test(l)).slice(-8).join('\n')); }
