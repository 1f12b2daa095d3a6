import { launchPage } from './tests/support/page/launchPage';
const open = await launchPage('http://127.0.0.1:4199/', {});
console.log(JSON.stringify(await open.page.evaluate(async () => { const st = await navigator.mediaDevices.getUserMedia({audio:true}); return {l:(await navigator.mediaDevices.enumerateDevices()).filter(d=>d.kind==='audioinput').map(d=>[d.deviceId.slice(0,8),d.groupId.slice(0,6),d.label]), s:st.getAudioTracks()[0].getSettings(), label: st.getAudioTracks()[0].label}}),null,1));
await open.browser.close();
