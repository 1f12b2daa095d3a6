/** What a page sends to the loudspeakers: every output is tapped, both ears each for itself. */
import type { Page } from 'playwright-core';

/** To be run before anything of the page: whatever is connected to a destination is looked at as well. */
export const TAP = `
  window.taps = [];
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
      const split = new ChannelSplitterNode(this.context, { numberOfOutputs: 2 });
      const ears = [0, 1].map((k) => {
        const ear = new AnalyserNode(this.context, { fftSize: 32768 });
        connect.call(split, ear, k);
        return ear;
      });
      connect.call(this, split);
      window.taps.push({ ears, context: this.context });
    }
    return connect.call(this, to, ...rest);
  };
`;

export interface Tapped {
  /** outputs that are open */
  open: number;
  /** of the newest 0.7 s of the loudest output: peaks of both ears, of their sum and of their difference */
  left: number;
  right: number;
  sum: number;
  difference: number;
}

export const tapped = (page: Page): Promise<Tapped> =>
  page.evaluate(() => {
    type Tap = { ears: AnalyserNode[]; context: AudioContext };
    const taps = (window as unknown as { taps: Tap[] }).taps.filter(({ context }) => context.state !== 'closed');
    let best = { left: 0, right: 0, sum: 0, difference: 0 };
    for (const { ears } of taps) {
      const [l, r] = ears.map((ear) => {
        const samples = new Float32Array(ear.fftSize);
        ear.getFloatTimeDomainData(samples);
        return samples;
      }) as [Float32Array, Float32Array];
      const peak = (of: (i: number) => number): number => {
        let high = 0;
        for (let i = 0; i < l.length; i++) high = Math.max(high, Math.abs(of(i)));
        return high;
      };
      const found = {
        left: peak((i) => l[i] as number),
        right: peak((i) => r[i] as number),
        sum: peak((i) => (l[i] as number) + (r[i] as number)),
        difference: peak((i) => (l[i] as number) - (r[i] as number)),
      };
      if (found.left + found.right >= best.left + best.right) best = found;
    }
    return { open: taps.length, ...best };
  });

/** Looks until it is so. */
export async function tappedWhen(page: Page, what: string, when: (now: Tapped) => boolean): Promise<Tapped> {
  const end = Date.now() + 15_000;
  for (;;) {
    const now = await tapped(page);
    if (when(now)) return now;
    if (Date.now() > end) throw new Error(`waited 15 s for ${what}; last heard: ${JSON.stringify(now)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
