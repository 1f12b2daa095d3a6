/** The built page's listening node in an OfflineAudioContext: what goes in, when what is asked of it, and what comes out. */
import type { Page } from 'playwright-core';
import { LISTEN_PROCESSOR, type ToListen } from '../../../src/listen/messages';

export interface RenderWish {
  sampleRate: number;
  frames: number;
  /** a loop, or what comes in live */
  a: Float32Array;
  b: Float32Array;
  isLive?: boolean;
  /** at which frame (a multiple of 128) what is asked; before anything else level 1 and play, with the loop */
  asks: readonly { frame: number; asks: readonly ToListen[] }[];
}

export interface Rendered {
  left: Float32Array;
  right: Float32Array;
  /** what the node told */
  told: string[];
}

const packed = (x: Float32Array): string => Buffer.from(x.buffer, x.byteOffset, x.byteLength).toString('base64');
function unpacked(text: string): Float32Array {
  const bytes = Uint8Array.from(Buffer.from(text, 'base64'));
  return new Float32Array(bytes.buffer);
}

const addresses = new WeakMap<Page, string>();

/** The node's own file among those that the page's programs name. */
async function nodeAddress(page: Page, url: string): Promise<string> {
  const known = addresses.get(page);
  if (known !== undefined) return known;
  const found = await page.evaluate(async (base) => {
    const seen = new Set<string>();
    const queue = [...document.querySelectorAll('script[src]')].map((one) => (one as HTMLScriptElement).src);
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
      if (seen.has(next)) continue;
      seen.add(next);
      if (/listenProcessor[^/]*\.js$/.test(next)) return next;
      const text = await (await fetch(next)).text();
      for (const [, name] of text.matchAll(/([\w-]+\.js)["'`]/g)) queue.push(`${base}assets/${name}`);
    }
    return null;
  }, url);
  if (found === null) throw new Error('the page names no listening node');
  addresses.set(page, found);
  return found;
}

export async function renderPath(page: Page, url: string, wish: RenderWish): Promise<Rendered> {
  const address = await nodeAddress(page, url);
  const { sampleRate, frames, isLive = false } = wish;
  const sent = { address, name: LISTEN_PROCESSOR, sampleRate, frames, isLive, asks: wish.asks };
  const got = await page.evaluate(
    async ({ address, name, sampleRate, frames, isLive, asks, a, b }) => {
      const floats = (text: string): Float32Array<ArrayBuffer> =>
        new Float32Array(Uint8Array.from(atob(text), (c) => c.charCodeAt(0)).buffer);
      const text = (x: Float32Array): string => {
        const bytes = new Uint8Array(x.buffer, x.byteOffset, x.byteLength);
        let out = '';
        for (let i = 0; i < bytes.length; i += 0x8000) out += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
        return btoa(out);
      };
      const context = new OfflineAudioContext(2, frames, sampleRate);
      await context.audioWorklet.addModule(address);
      const node = new AudioWorkletNode(context, name, {
        outputChannelCount: [2],
        channelCount: 2,
        channelCountMode: 'explicit',
        channelInterpretation: 'discrete',
        processorOptions: { isLive, swapped: false },
      });
      node.connect(context.destination);
      const told: string[] = [];
      node.port.onmessage = (event: MessageEvent<{ type: string }>) => void told.push(event.data.type);
      const [inA, inB] = [floats(a), floats(b)];
      if (isLive) {
        const buffer = new AudioBuffer({ numberOfChannels: 2, length: inA.length, sampleRate });
        buffer.copyToChannel(inA, 0);
        buffer.copyToChannel(inB, 1);
        const source = new AudioBufferSourceNode(context, { buffer });
        source.connect(node);
        source.start();
      } else node.port.postMessage({ type: 'loop', a: inA, b: inB });
      // stopped, it hears what it is told
      const heard = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 25));
      for (const { frame, asks: said } of asks) {
        void context.suspend(frame / sampleRate).then(async () => {
          for (const one of said) node.port.postMessage(one);
          await heard();
          void context.resume();
        });
      }
      const out = await context.startRendering();
      await heard();
      return { left: text(out.getChannelData(0)), right: text(out.getChannelData(1)), told };
    },
    { ...sent, a: packed(wish.a), b: packed(wish.b) },
  );
  return { left: unpacked(got.left), right: unpacked(got.right), told: got.told };
}
