import { InputJudge } from './src/audio/live/inputJudge';
import { hourAtTheKit } from './tests/support/readings/noiseWindows';
const P:any=(InputJudge as any).prototype; const orig=P.isChanged; P.isChanged=function(){ const r=orig.call(this); if(r){ const f=(x:any)=>x.bands.map((v:number)=>v.toFixed(1)).join(' '); console.log(f(this.step(0)),'|',f(this.step(1)), 'doubtful', this.windows.map((w:any)=>w.doubtful?1:0).join('')); } return r; };
for (const s of Array.from({length:60},(_,i)=>200+i)) { const j=new InputJudge(); let w=0; for(const n of hourAtTheKit(s)){ w++; if(j.push(n,false)) console.log('stop',s,w, w*0.256); } }
