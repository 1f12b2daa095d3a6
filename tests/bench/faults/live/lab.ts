/**
 * Stands between the page and its audio, so that the bench can be a device, a browser or an audio thread that fails. Two programs:
 * one on the page before anything of its own, one on the audio thread before the meter's. They change what goes in and out of
 * the meter, never the meter.
 */
import type { Page } from 'playwright-core';
import { ON_THREAD, type ThreadFault } from './labThread';

/** What is wrong before the page's first line, each from the first time on, `times` times (for good unless told). */
export interface PageFault {
  /** getUserMedia rejects with this name */
  refuses?: { name: string; times?: number };
  /** getUserMedia never answers */
  neverAnswers?: { times: number };
  /** the browser keeps a voice processing on */
  keeps?: 'echoCancellation' | 'noiseSuppression' | 'autoGainControl';
  /** what the device says its rate is, Hz; and so the context's */
  rate?: number;
  noAudioWorklet?: true;
  noMediaDevices?: true;
  noContext?: { times: number };
  /** the context stays suspended */
  neverStarts?: { times: number };
  /** the device list is empty */
  noList?: true;
  unnamedList?: true;
  /** the node's constructor throws */
  noNode?: { times: number };
  moduleMissing?: { times: number };
  /** the node is built with this in place of the protocol's version */
  version?: number;
  /** the page shares no memory with the audio thread: readings come as messages */
  notIsolated?: true;
  /** the meter's thread has this fault from its first block on, in the first node */
  thread?: ThreadFault;
}

const ON_PAGE = `
(() => {
  const fault = globalThis.labPageFault ?? {};
  const once = (what) => what !== undefined && (what.times ??= Infinity) > 0 && what.times-- > 0;
  const lab = (globalThis.lab = { contexts: [], sources: [], nodes: [], streams: [], seen: [], certain: [], phase: 0, port: null });
  const RealContext = globalThis.AudioContext;
  globalThis.AudioContext = class extends RealContext {
    constructor(options) {
      if (once(fault.noContext)) throw new DOMException('no output', 'NotSupportedError');
      super(options);
      lab.contexts.push(this);
    }
    createMediaStreamSource(stream) {
      const source = super.createMediaStreamSource(stream);
      lab.sources.push(source);
      return source;
    }
    resume() {
      return once(fault.neverStarts) ? new Promise(() => undefined) : super.resume();
    }
  };
  const { addModule } = AudioWorklet.prototype;
  AudioWorklet.prototype.addModule = async function (url, options) {
    if (once(fault.moduleMissing)) return addModule.call(this, 'nothing-here.js', options);
    const text = ${JSON.stringify(ON_THREAD)};
    await addModule.call(this, URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
    return addModule.call(this, url, options);
  };
  const RealNode = globalThis.AudioWorkletNode;
  let isFirst = true;
  globalThis.AudioWorkletNode = class extends RealNode {
    constructor(context, name, options) {
      const given = { ...options?.processorOptions };
      if (isFirst && fault.thread) given.lab = fault.thread;
      if (isFirst && fault.version !== undefined) given.version = fault.version;
      isFirst = false;
      super(context, once(fault.noNode) ? 'no-such-processor' : name, { ...options, processorOptions: given });
      lab.nodes.push(this);
      const { port } = this;
      let handler = null;
      const hand = (event) => handler?.call(port, event);
      Object.defineProperty(port, 'onmessage', { get: () => handler, set: (next) => void (handler = next) });
      port.addEventListener('message', (event) => {
        if (lab.port === null) return hand(event);
        if (lab.port === 'lost') return;
        if (lab.port === 'late') return void setTimeout(hand, 2500, event);
        if (lab.port === 'backwards') return void setTimeout(hand, 400 * Math.random(), event);
        // garbage comes beside the messages
        for (const data of [null, 42, 'x', {}, { type: 'reading' }, { type: 'nothing' }]) {
          try { hand(new MessageEvent('message', { data })); } catch (thrown) { lab.seen.push('thrown: ' + thrown.message); }
        }
        hand(event);
      });
      port.start();
    }
  };
  if (fault.noAudioWorklet) for (const name of ['AudioWorkletNode', 'AudioWorklet']) delete globalThis[name];
  const { mediaDevices } = navigator;
  if (mediaDevices) {
    const { getUserMedia, enumerateDevices } = mediaDevices;
    mediaDevices.getUserMedia = async (wish) => {
      if (once(fault.refuses)) throw new DOMException('by the bench', fault.refuses.name);
      if (once(fault.neverAnswers)) return new Promise(() => undefined);
      const audio = fault.keeps ? { ...wish.audio, [fault.keeps]: true } : wish.audio;
      const stream = await getUserMedia.call(mediaDevices, { audio });
      lab.streams.push(stream);
      if (fault.rate) for (const track of stream.getAudioTracks()) {
        const { getSettings } = track;
        track.getSettings = () => ({ ...getSettings.call(track), sampleRate: fault.rate });
      }
      return stream;
    };
    mediaDevices.enumerateDevices = async () => {
      if (fault.noList || lab.noList) return [];
      const list = await enumerateDevices.call(mediaDevices);
      return fault.unnamedList ? list.map(({ kind, deviceId, groupId }) => ({ kind, deviceId, groupId, label: '' })) : list;
    };
  }
  if (fault.notIsolated) Object.defineProperty(globalThis, 'crossOriginIsolated', { value: false });
  if (fault.noMediaDevices) Object.defineProperty(navigator, 'mediaDevices', { value: undefined });
  // every certain reading that was on the screen, and in which part of the trial
  let last = '';
  const look = () => {
    const answer = document.querySelector('#answer');
    if (!answer) return;
    const { state, run, old, patching, polarity, delayMs } = answer.dataset;
    const certain = state === 'measured' && run === 'running' && old !== 'true' && patching !== 'true' ? [polarity, delayMs].join() : '';
    const key = certain && lab.phase + ':' + certain;
    if (key !== '' && key !== last) lab.certain.push({ phase: lab.phase, polarity, delayMs: Number(delayMs), ms: Math.round(performance.now()) });
    last = key;
  };
  new MutationObserver(look).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
})();
`;

export const labScript = (fault: PageFault = {}): string =>
  `globalThis.labPageFault = ${JSON.stringify(fault)};\n${ON_PAGE}`;

export interface Certain {
  phase: number;
  polarity: 'same' | 'inverted';
  delayMs: number;
  ms: number;
}

interface Lab {
  lab: {
    contexts: AudioContext[];
    sources: AudioNode[];
    nodes: AudioWorkletNode[];
    streams: MediaStream[];
    certain: Certain[];
    phase: number;
    port: 'lost' | 'late' | 'backwards' | 'garbage' | null;
    noList?: boolean;
  };
}
export type LabGlobal = typeof globalThis & Lab;

/** of the newest node; null: none */
export const threadFault = (page: Page, fault: ThreadFault | null): Promise<void> =>
  page.evaluate((given) => (globalThis as LabGlobal).lab.nodes.at(-1)?.port.postMessage({ lab: given }), fault);

export const portFault = (page: Page, how: Lab['lab']['port']): Promise<void> =>
  page.evaluate((port) => void Object.assign((globalThis as LabGlobal).lab, { port }), how);

export const emptyList = (page: Page, noList: boolean): Promise<void> =>
  page.evaluate((on) => void Object.assign((globalThis as LabGlobal).lab, { noList: on }), noList);

export const nextPhase = (page: Page): Promise<number> => page.evaluate(() => ++(globalThis as LabGlobal).lab.phase);

/** Each change of it, in order. */
export const certainReadings = (page: Page): Promise<Certain[]> =>
  page.evaluate(() => (globalThis as LabGlobal).lab.certain);
