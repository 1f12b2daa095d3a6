import { all, gauge } from './.exp.mts';
import { InputJudge } from './src/audio/live/inputJudge';
import { seeded } from './tests/support/sound/signals';
const floors = all.map(({f,w})=>{ const q=w.filter(x=>x.zeroSeconds<0.008); const v:number[]=[]; for(const key of ['floorA','floorB'] as const) for(let k=0;k<6;k++){ const s=q.map(x=>x[key][k]).filter(x=>x>0).sort((x,y)=>x-y); v.push(10*Math.log10(s[Math.floor(s.length*0.05)]??1e-15)); } return {f,v,hits:q}; });
for(const {f,v} of floors) console.log(f.slice(15,50).padEnd(36), v.map(x=>x.toFixed(0)).join(' '));
const r=seeded(1); const gauss=()=>Math.sqrt(-2*Math.log(r()+1e-12))*Math.cos(2*Math.PI*r());
const SIG=[1.8,1.4,1.1,0.9,0.7,0.5];
const rate:any={};
for (const share of [0,0.3,0.5,0.7]) for (const brk of [false,true]) { let n=0,found=0,early=0; for(const p of floors) for(const q of floors) if(p!==q){ n++; const j=new InputJudge(); let c=0; const push=(x:typeof p)=>{ const d=x.v.map((m,i)=>m+SIG[i%6]*gauss()); let hit=r()<share? x.hits[Math.floor(r()*x.hits.length)]:null; const A=d.slice(0,6).map((m,k)=>10**(m/10)+(hit?.floorA[k]??0)), B=d.slice(6).map((m,k)=>10**(m/10)+(hit?.floorB[k]??0)); return j.push({windows:++c,zeroSeconds:0,a:A,b:B,product:[],floorA:A,floorB:B},false); };
 for(let i=0;i<60;i++) if(push(p)) early++; if(brk) j.push({windows:++c,zeroSeconds:0.3,a:[],b:[],product:[],floorA:[],floorB:[]},false); let hit=false; for(let i=0;i<40;i++) if(push(q)) hit=true; if(hit) found++; }
 rate[`${share} ${brk}`]=`${found}/${n} early ${early}`; }
console.log(rate);
