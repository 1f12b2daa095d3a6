import { HeardDrums } from './src/dsp/heardDrums';
import { takePairs, playPair } from './tests/bench/engine/takes';
let last = '';
const show = (HeardDrums.prototype as any).show;
(HeardDrums.prototype as any).show = function (store: any) { show.call(this, store);
  const s = this.sorter; last = '';
  for (let d = 0; d < 10; d++) if (s.id[d]) last += ` [id ${s.id[d]} hits ${s.hits[d]} A ${s.levelA(d).toFixed(1)} B ${s.levelB(d).toFixed(1)} first ${this.heardFirst(store, d)} sign ${this.each[d].decision.sign} delay ${this.each[d].decision.delay.toFixed(0)}]`;
  last += ` shown ${this.shownAt} open ${this.open}`; };
for (const take of ['kit-b-groove','kit-b-solo']) for (const pair of takePairs(take)) { if (pair.drum !== 'snare' && !(take==='kit-b-groove' && pair.a==='04 OH Side' && pair.b==='05 Room Front')) continue; const p = playPair(pair); console.log(take,pair.a, pair.b, p.end, p.drums.slice(0, 300)); console.log(last); }
