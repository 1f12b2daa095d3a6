/** The half of the lab that runs on the audio thread. */

/** From when it comes on: what becomes of each block on its way into the meter, and of the thread. All of them together. */
export interface ThreadFault {
  /** s of the stream; for good unless told */
  seconds?: number;
  ends?: true;
  throws?: true;
  /** stands still so long, once, ms */
  hangMs?: number;
  hangsForGood?: true;
  /** each block takes so long, ms */
  busyMs?: number;
  /** of every `every` blocks the first `run` … */
  drop?: { every: number; run: number };
  twice?: { every: number; run: number };
  exchanged?: { every: number; run: number };
  zeros?: { every: number; run: number };
  /** … or hold this instead */
  fill?: { every: number; run: number; value: 'NaN' | 'Infinity' | '1e30' | '1e-40'; channel: 'a' | 'b' | 'both' };
  noChannels?: true;
  oneChannel?: true;
  gainA?: number;
  gainB?: number;
  /** B is A */
  mono?: true;
  swap?: true;
  /** this much of each in the other */
  mix?: number;
  dcA?: number;
  dcB?: number;
  clipAt?: number;
  hum?: number;
  noise?: number;
  /** B comes so much later than it did, samples */
  delayB?: number;
  /** the stream's frame counter jumps by so much */
  jumpFrames?: number;
}

/** runs on the audio thread, before the meter's program */
export const ON_THREAD = `
const register = globalThis.registerProcessor;
let jump = 0;
for (const [name, per] of [['currentFrame', () => 1], ['currentTime', () => 1 / sampleRate]]) {
  let owner = globalThis;
  while (owner && !Object.getOwnPropertyDescriptor(owner, name)) owner = Object.getPrototypeOf(owner);
  const found = owner && Object.getOwnPropertyDescriptor(owner, name);
  if (found?.get) Object.defineProperty(globalThis, name, { configurable: true, get: () => found.get.call(globalThis) + jump * per() });
}
const values = { NaN, Infinity, '1e30': 1e30, '1e-40': 1e-40 };
const busy = (ms) => { for (const end = Date.now() + ms; Date.now() < end; ); };
globalThis.registerProcessor = (name, Meter) => register(name, class extends Meter {
  constructor(options) {
    super(options);
    this.labFault = options.processorOptions?.lab ?? null;
    this.labBlocks = 0;
    this.labRing = new Float32Array(65536);
    this.labAt = 0;
    const own = this.port.onmessage;
    this.port.onmessage = (event) => {
      if (event.data && event.data.lab !== undefined) {
        this.labFault = event.data.lab;
        this.labBlocks = 0;
        this.labFrames = 0;
        jump += this.labFault?.jumpFrames ?? 0;
        if (this.labFault?.hangMs) busy(this.labFault.hangMs);
      } else own?.call(this.port, event);
    };
  }
  process(inputs, outputs, parameters) {
    const fault = this.labFault;
    const [input] = inputs;
    const go = (given) => super.process(given, outputs, parameters);
    if (!fault) return go(inputs);
    if (fault.ends) return false;
    if (fault.throws) throw new Error('thrown by the bench');
    if (fault.hangsForGood) for (;;);
    if (!input || input.length < 2) return go(inputs);
    const n = input[0].length;
    this.labFrames = (this.labFrames ?? 0) + n;
    if (fault.seconds !== undefined && this.labFrames > fault.seconds * sampleRate) {
      this.labFault = null;
      return go(inputs);
    }
    const block = this.labBlocks++;
    const now = (which) => which !== undefined && block % which.every < which.run;
    if (fault.busyMs) busy(fault.busyMs);
    if (fault.noChannels) return go([[]]);
    if (fault.oneChannel) return go([[input[0]]]);
    if (now(fault.drop)) return true;
    let a = Float32Array.from(input[0]);
    let b = Float32Array.from(input[1]);
    if (fault.delayB) for (let i = 0; i < n; i++) {
      this.labRing[this.labAt % 65536] = b[i];
      b[i] = this.labRing[(this.labAt - fault.delayB + 65536) % 65536];
      this.labAt++;
    }
    if (fault.mono) b = Float32Array.from(a);
    if (fault.swap) [a, b] = [b, a];
    for (let i = 0; i < n; i++) {
      const hum = fault.hum ? fault.hum * Math.sin((2 * Math.PI * 50 * (this.labFrames + i)) / sampleRate) : 0;
      const [x, y] = [a[i], b[i]];
      a[i] = (x + (fault.mix ?? 0) * y) * (fault.gainA ?? 1) + (fault.dcA ?? 0) + hum;
      b[i] = (y + (fault.mix ?? 0) * x) * (fault.gainB ?? 1) + (fault.dcB ?? 0) + hum;
      if (fault.noise) {
        a[i] += fault.noise * (Math.random() - 0.5);
        b[i] += fault.noise * (Math.random() - 0.5);
      }
      if (fault.clipAt) {
        a[i] = Math.max(-1, Math.min(1, a[i] / fault.clipAt));
        b[i] = Math.max(-1, Math.min(1, b[i] / fault.clipAt));
      }
    }
    if (now(fault.zeros)) {
      a.fill(0);
      b.fill(0);
    }
    if (now(fault.fill)) {
      if (fault.fill.channel !== 'b') a.fill(values[fault.fill.value]);
      if (fault.fill.channel !== 'a') b.fill(values[fault.fill.value]);
    }
    if (now(fault.exchanged)) {
      if (this.labKept) {
        const kept = this.labKept;
        this.labKept = null;
        go([[a, b]]);
        return go([kept]);
      }
      this.labKept = [a, b];
      return true;
    }
    if (now(fault.twice)) go([[a, b]]);
    return go([[a, b]]);
  }
});
`;
