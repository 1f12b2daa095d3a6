import { withSoundServer } from './tests/support/page/soundServer';
import { launchPage } from './tests/support/page/launchPage';
import { seeded } from './tests/support/sound/signals';
const noise=(g:number,seed:number,lp=0)=>{const r=seeded(seed);const o=new Float32Array(96000);let y=0;for(let i=0;i<o.length;i++){const x=g*(r()+r()+r()-1.5);y=lp*y+(1-lp)*x;o[i]=y;}return o;};
const rec = `(async()=>{
const code="registerProcessor('rec',class extends AudioWorkletProcessor{constructor(){super();this.b=[];this.n=0;}process(i){const x=i[0];if(x.length){const z=new Float32Array(x[0].length*2);z.set(x[0]);z.set(x[1]||x[0],x[0].length);this.port.postMessage(z);}return true}})";
const st = await navigator.mediaDevices.getUserMedia({audio:{deviceId:globalThis.devId?{exact:globalThis.devId}:undefined,channelCount:{ideal:2},echoCancellation:false,noiseSuppression:false,autoGainControl:false}});
const t=st.getAudioTracks()[0]; const ctx=new AudioContext({sampleRate:t.getSettings().sampleRate,sinkId:{type:'none'}});
await ctx.audioWorklet.addModule('data:text/javascript,'+encodeURIComponent(code));
const n=new AudioWorkletNode(ctx,'rec',{numberOfInputs:1,numberOfOutputs:0,channelCount:2,channelCountMode:'explicit',channelInterpretation:'discrete'});
globalThis.A=[];globalThis.B=[];n.port.onmessage=e=>{const h=e.data.length/2;for(let i=0;i<h;i++){A.push(e.data[i]);B.push(e.data[h+i]);}};
ctx.createMediaStreamSource(st).connect(n);await ctx.resume();globalThis.t=t;globalThis.ctx=ctx;
})()`;
await withSoundServer(async (s) => {
  s.addInput({ name: 'one', label: 'Interface one', sampleRate: 44100 });
  s.addInput({ name: 'two', label: 'Interface two', sampleRate: 44100 });
  s.addInput({ name: 'four', label: 'Four named', channels: 4, channelMap: 'front-left,front-right,rear-left,rear-right' });
  s.addInput({ name: 'aux', label: 'Four aux', channels: 4, channelMap: 'aux0,aux1,aux2,aux3' });
  s.addInput({ name: 'eight', label: 'Eight aux', channels: 8, channelMap: 'aux0,aux1,aux2,aux3,aux4,aux5,aux6,aux7' });
  s.addInput({ name: 'auxtwo', label: 'Two aux', channels: 2, channelMap: 'aux0,aux1' });
  s.addInput({ name: 'four8', label: 'Eight named', channels: 8, channelMap: 'front-left,front-right,rear-left,rear-right,front-center,lfe,side-left,side-right' });
  s.makeDefault('one');
  s.play('one', [noise(0.01,1), noise(0.01,2)]);
  s.play('two', [noise(0.1,3), noise(0.1,4)]);
  const open = await launchPage('http://127.0.0.1:4199/', { soundEnv: s.env });
  const page = open.page;
  const report = async (what:string)=>{ console.log(what, JSON.stringify(await page.evaluate(()=>{
    const {A,B}=globalThis as any; const w=441; const out:any[]=[]; let zr=0; const runs:any[]=[];
    for(let i=0;i<A.length;i++){ if(A[i]===0&&B[i]===0) zr++; else { if(zr>=8) runs.push([i-zr,zr]); zr=0; } } if(zr>8) runs.push([A.length-zr,zr]);
    let last=-1; const steps:any[]=[]; for(let k=0;k+w<=A.length;k+=w){let p=0;for(let i=k;i<k+w;i++)p+=A[i]*A[i]; const d=Math.round(10*Math.log10(p/w+1e-20)); if(Math.abs(d-last)>3){steps.push([k,d]);last=d;}}
    return {n:A.length,runs:runs.slice(0,20),steps:steps.slice(0,20),muted:(globalThis as any).t.muted};}))); await page.evaluate(()=>{(globalThis as any).A.length=0;(globalThis as any).B.length=0;}); };
  await page.evaluate(rec); await page.waitForTimeout(1500); await report('start');
  s.makeDefault('two'); await page.waitForTimeout(1500); console.log(s.listeners()); await report('set-default');
  s.makeDefault('one'); await page.waitForTimeout(1500); await report('set-default back');
  s.unplug('one'); await page.waitForTimeout(1500); console.log(s.listeners()); await report('unplugged');
  // four channels
  const n=48000; const sine=(f:number)=>Float32Array.from({length:n},(_,i)=>0.4*Math.sin(2*Math.PI*f*i/48000));
  for (const name of ['four','aux','eight','auxtwo','four8']) {
    const ch=name==='eight'||name==='four8'?8:name==='auxtwo'?2:4;
    s.play(name, [300,500,700,900,1100,1300,1500,1700].slice(0,ch).map(sine));
    await page.waitForTimeout(300);
    const lab=({four:'Four named',aux:'Four aux',eight:'Eight aux',auxtwo:'Two aux',four8:'Eight named'} as any)[name];
    const r = await page.evaluate(`(async()=>{ t.stop(); await ctx.close(); const d=(await navigator.mediaDevices.enumerateDevices()).find(x=>x.label===${JSON.stringify(lab)}); globalThis.devId=d.deviceId; await ${rec}; await new Promise(r=>setTimeout(r,2000));
      const sr=t.getSettings().sampleRate; const amp=(X,f)=>{let re=0,im=0;const o=X.length-Math.round(sr*0.5);for(let i=o;i<X.length;i++){re+=X[i]*Math.cos(2*Math.PI*f*i/sr);im+=X[i]*Math.sin(2*Math.PI*f*i/sr);}return Math.round(1000*Math.hypot(re,im)*2/(X.length-o))/1000;};
      const out={settings:t.getSettings().channelCount, caps: t.getCapabilities().channelCount, rate:sr, A:[300,500,700,900,1100,1300,1500,1700].map(f=>amp(A,f)),B:[300,500,700,900,1100,1300,1500,1700].map(f=>amp(B,f))}; return out;})()`);
    console.log(name, JSON.stringify(r));
  }
  await open.browser.close();
});
