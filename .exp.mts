import { readFileSync, readdirSync } from 'node:fs';
import { readWav } from './src/files/readWav';
import { BandGauge } from './src/dsp/input/bandGauge';
import { InputJudge } from './src/audio/live/inputJudge';
import { MixCheck, mixRatioDb } from './src/audio/live/mixCheck';
export type W = {windows:number;zeroSeconds:number;a:number[];b:number[];product:number[];floorA:number[];floorB:number[]};
export function gauge(a: Float32Array, b: Float32Array, rate: number): W[] {
  const g = new BandGauge(rate, 128); const out: W[] = []; const x=new Float64Array(128),y=new Float64Array(128); let n=0;
  for (let i=0;i+128<=a.length;i+=128){ for(let k=0;k<128;k++){x[k]=a[i+k];y[k]=b[i+k];} g.run(x,y,128); if(g.windows!==n){n=g.windows; out.push({windows:n,zeroSeconds:g.longestZero/rate,a:[...g.a],b:[...g.b],product:[...g.product],floorA:[...g.floorA],floorB:[...g.floorB]});}}
  return out;
}
const dirs=['../shared/real','public','samples','public/kit','samples/out'];
const files:string[]=[]; for(const d of dirs){ try{ for(const f of readdirSync(d)) if(f.endsWith('.wav')) files.push(d+'/'+f);}catch{} }
export const all: {f:string;w:W[];rate:number}[]=[];
for(const f of files){ const wav=readWav(new Uint8Array(readFileSync(f))); if(wav.channels<2) continue; const a=new Float32Array(wav.frames),b=new Float32Array(wav.frames); wav.readInto(0,0,a);wav.readInto(1,0,b); const t=performance.now(); const w=gauge(a,b,wav.sampleRate); const ms=performance.now()-t;
  let best=0; let mixes=0; for(const x of w){ let c=1; let n=0; for(let k=0;k<6;k++){ if(Math.min(x.a[k],x.b[k])<10**-6.6) continue; n++; c=Math.min(c,x.product[k]**2/(x.a[k]*x.b[k])); } if(n>=5) best=Math.max(best,c); if(typeof mixRatioDb(x)==='number') mixes++; }
  const j=new InputJudge(); let n=0; let stops=0; for(let r=0;r<20;r++) for(const x of w) if(j.push({...x,windows:++n},false)) stops++;
  console.log(f.padEnd(50), (wav.frames/wav.sampleRate).toFixed(1)+'s', 'worst-band coherence at best', best.toFixed(5), 'mix windows', mixes, 'stops when looped 20×', stops, (ms/(wav.frames/wav.sampleRate)).toFixed(1)+'ms/s', 'zeros', Math.max(...w.map(x=>x.zeroSeconds)).toFixed(3));
  all.push({f,w,rate:wav.sampleRate}); }
let pairs=0,found=0,foundBreak=0; 
for(const p of all) for(const q of all) if(p!==q){ pairs++; for (const brk of [false,true]) { const j=new InputJudge(); let n=0; let hit=false; let early=false; for(let r=0;r<3;r++) for(const x of p.w) if(j.push({...x,windows:++n},false)) early=true; if(brk) j.push({...p.w[0],zeroSeconds:0.3,windows:++n},false); for(let r=0;r<3;r++) for(const x of q.w) if(j.push({...x,windows:++n},false)) hit=true; if(early) console.log('early',p.f); if(hit) brk?foundBreak++:found++; } }
console.log({pairs,found,foundBreak});
