import { readFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { FrameRingReader, longestFrame, RING_SLOTS, ringMemory } from '../../src/protocol/frameRing';
import {
  type FromMeter,
  type MeterProcessorOptions,
  MOST_UNSEEN,
  PROCESSOR_NAME,
  PROTOCOL_VERSION,
  READINGS_PER_SECOND,
  type ToMeter,
} from '../../src/protocol/messages';
import { arrivalOf, readingFromFrame, SLOT, stampOf } from '../../src/reading/frame';
import { type Pictures, picturesFrom } from '../../src/reading/hitPictures';
import { type Flat, flat } from '../support/readings/flat';
import { silentEnd } from '../support/sound/silentEnd';
import { struckPair } from '../support/sound/struckPair';
import { twoDrums } from '../support/sound/twoDrums';

const RATE = 48000;

/** What an AudioWorkletGlobalScope gives a processor, and nothing of what it lacks. */
class Port {
  onmessage: ((event: { data: ToMeter }) => void) | null = null;
  readonly posted: FromMeter[] = [];
  postMessage(message: FromMeter): void {
    // as a real port does: the receiver gets a copy
    this.posted.push(structuredClone(message));
  }
  send(message: ToMeter): void {
    this.onmessage?.({ data: message });
  }
}
interface Processor {
  port: Port;
  process(inputs: Float32Array[][]): boolean;
}
type ProcessorClass = new (options: { processorOptions: MeterProcessorOptions }) => Processor;

let Meter: ProcessorClass;
const settings: MeterProcessorOptions = { version: PROTOCOL_VERSION, maxLagMs: 11, swapped: false, invertB: false };

beforeAll(async () => {
  vi.stubGlobal('sampleRate', RATE);
  vi.stubGlobal('currentFrame', 0);
  vi.stubGlobal(
    'AudioWorkletProcessor',
    class {
      readonly port = new Port();
    },
  );
  vi.stubGlobal('registerProcessor', (name: string, processor: ProcessorClass) => {
    expect(name).toBe(PROCESSOR_NAME);
    // the stream's time goes on with each block
    let frame = 0;
    Meter = class extends processor {
      override process(inputs: Float32Array[][]): boolean {
        const isAlive = super.process(inputs);
        frame += inputs[0]?.[0]?.length ?? 128;
        vi.stubGlobal('currentFrame', frame);
        return isAlive;
      }
    };
  });
  await import('../../worklets/meterProcessor');
});

const make = (options: Partial<MeterProcessorOptions> = {}): Processor =>
  new Meter({ processorOptions: { ...settings, ...options } });

/** Readings posted since the last call. */
function readings(port: Port): Extract<FromMeter, { type: 'reading' }>[] {
  const list = port.posted.filter((message) => message.type === 'reading');
  port.posted.length = 0;
  return list;
}

const seen = (port: Port, list: readonly unknown[]): void => port.send({ type: 'seen', readings: list.length });

const quiet = (frames: number): Float32Array[] => [new Float32Array(frames).fill(0.1), new Float32Array(frames)];

/** Push a pair through in blocks, telling of every reading seen; returns the newest one. */
function play(meter: Processor, a: Float32Array, b: Float32Array, blocks: number[]): Flat {
  for (let at = 0, i = 0; at < a.length; i++) {
    const end = Math.min(a.length, at + (blocks[i % blocks.length] as number));
    expect(meter.process([[a.subarray(at, end), b.subarray(at, end)]])).toBe(true);
    at = end;
    seen(meter.port, readings(meter.port));
  }
  meter.port.send({ type: 'flush' });
  const [last] = readings(meter.port).filter((reading) => reading.last);
  return flat(readingFromFrame((last as { frame: Float64Array }).frame));
}

describe('frames', () => {
  let meter: Processor;
  beforeEach(() => {
    meter = make();
    expect(meter.port.posted.shift()).toEqual({ type: 'ready', version: PROTOCOL_VERSION, sampleRate: RATE });
  });

  it('are posted at the rate of readings, whatever the block size', () => {
    for (const block of [128, 100, 1024]) {
      const other = make();
      other.port.posted.length = 0;
      let posted = 0;
      for (let at = 0; at < 2 * RATE; at += block) {
        other.process([quiet(block)]);
        const list = readings(other.port);
        posted += list.length;
        seen(other.port, list);
      }
      expect(posted / 2).toBeGreaterThanOrEqual(30);
      expect(posted / 2).toBeLessThanOrEqual(READINGS_PER_SECOND);
    }
  });

  it('wait while the page has too many unseen, and go on with the newest once it tells', () => {
    for (let at = 0; at < 2.5 * RATE; at += 128) meter.process([quiet(128)]);
    const list = readings(meter.port);
    expect(list.length).toBe(MOST_UNSEEN);
    seen(meter.port, list.slice(0, 1));
    meter.process([quiet(128)]);
    const [next, ...more] = readings(meter.port);
    expect(more).toEqual([]);
    expect((next as { frame: Float64Array }).frame[SLOT.head.streamSeconds]).toBeGreaterThan(2.49);
    meter.process([quiet(RATE / 2)]);
    expect(readings(meter.port)).toEqual([]);
  });

  it('come once a second while nothing is told of them, and as before when it is: messages may be lost', () => {
    for (let at = 0; at < 10 * RATE; at += 128) meter.process([quiet(128)]);
    const list = readings(meter.port);
    expect(list.length).toBeGreaterThan(MOST_UNSEEN + 3);
    expect(list.length).toBeLessThan(MOST_UNSEEN + 9);
    seen(meter.port, list.slice(0, 1));
    for (let at = 0; at < RATE; at += 128) meter.process([quiet(128)]);
    expect(readings(meter.port).length).toBeGreaterThan(30);
  });

  it('are written into one array: none is made in process()', () => {
    const made = vi.spyOn(globalThis, 'Float64Array');
    for (let at = 0; at < RATE; at += 128) meter.process([quiet(128)]);
    expect(made).not.toHaveBeenCalled();
    made.mockRestore();
    expect(readings(meter.port).length).toBeGreaterThan(30);
  });

  it('have the length of a new reach', () => {
    meter.process([quiet(RATE)]);
    const [before] = readings(meter.port) as { frame: Float64Array }[];
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 34, swapped: false });
    meter.process([quiet(RATE)]);
    const [after] = readings(meter.port) as { frame: Float64Array }[];
    expect(after?.frame.length).toBeGreaterThan(before?.frame.length ?? 0);
  });

  it('that end a stream are never kept back', () => {
    for (let at = 0; at < 2.5 * RATE; at += 128) meter.process([quiet(128)]);
    expect(readings(meter.port).length).toBe(MOST_UNSEEN);
    meter.port.send({ type: 'flush' });
    expect(readings(meter.port).map((reading) => reading.last)).toEqual([true]);
  });
});

describe('shared memory', () => {
  const memory = (): SharedArrayBuffer => ringMemory(longestFrame(RATE, 11));
  const takeAll = (reader: FrameRingReader): Float64Array[] => {
    const frames: Float64Array[] = [];
    for (let frame = reader.take(); frame !== null; frame = reader.take()) frames.push(frame);
    return frames;
  };
  const { a, b } = struckPair({ sampleRate: RATE, hits: 8, delaySamples: 20, polarity: 'same' });

  it('takes every reading, as often, the same as in messages, and nothing is posted', () => {
    const ring = memory();
    const reader = new FrameRingReader(ring);
    const shared = make({ ring });
    const posting = make();
    for (const { port } of [shared, posting]) port.posted.length = 0;
    // both see one clock: a machine that pauses between the two would let one of them lose a block
    const clock = vi.spyOn(Date, 'now');
    onTestFinished(() => clock.mockRestore());
    for (let at = 0; at + 128 <= a.length; at += 128) {
      clock.mockReturnValue(Math.floor((at * 1000) / RATE));
      const block = [[a.subarray(at, at + 128), b.subarray(at, at + 128)]];
      shared.process(block);
      posting.process(block);
      const list = readings(posting.port);
      expect(takeAll(reader)).toEqual(list.map(({ frame }) => frame));
      seen(posting.port, list);
    }
    expect(shared.port.posted).toEqual([]);
  });

  it('keeps the newest of a page that takes none, and never waits for it', () => {
    const ring = memory();
    const meter = make({ ring });
    for (let at = 0; at < 10 * RATE; at += 128) meter.process([quiet(128)]);
    const seconds = takeAll(new FrameRingReader(ring)).map((frame) => frame[SLOT.head.streamSeconds] as number);
    expect(seconds).toHaveLength(RING_SLOTS - 1);
    expect(seconds.at(-1)).toBeGreaterThan(9.95);
    expect(seconds).toEqual(seconds.toSorted((x, y) => x - y));
  });

  it('shows what a message asked for at once, stamped, and goes on in the memory of a longer reach', () => {
    const first = memory();
    const meter = make({ ring: first });
    const before = new FrameRingReader(first);
    meter.process([quiet(RATE)]);
    meter.port.send({ type: 'invert-b', stamp: 1, on: true });
    expect(takeAll(before).map(stampOf)).toEqual([0, 1]);
    const ring = ringMemory(longestFrame(RATE, 34));
    const reader = new FrameRingReader(ring);
    meter.port.send({ type: 'restart', stamp: 2, maxLagMs: 34, swapped: false, ring });
    meter.process([quiet(RATE)]);
    expect(takeAll(before)).toEqual([]);
    const frames = takeAll(reader);
    expect(frames.map(stampOf)).toEqual([2, 2]);
    expect(readingFromFrame(frames[1] as Float64Array)).toMatchObject({ streamSeconds: 1 });
    // a shorter one again: the memory is large enough
    meter.port.send({ type: 'restart', stamp: 3, maxLagMs: 11, swapped: false });
    const [shorter] = takeAll(reader);
    expect([shorter?.length, stampOf(shorter as Float64Array)]).toEqual([new Engine(RATE).frameLength, 3]);
  });

  it('that is too small is left alone: the readings are posted', () => {
    const ring = ringMemory(100);
    const meter = make({ ring });
    meter.process([quiet(RATE)]);
    expect(readings(meter.port)).toHaveLength(1);
    expect(new FrameRingReader(ring).take()).toBeNull();
  });

  it('does not take the answer to flush: that is posted', () => {
    const ring = memory();
    const meter = make({ ring });
    meter.process([quiet(RATE)]);
    meter.port.send({ type: 'flush' });
    expect(readings(meter.port).map(({ last }) => last)).toEqual([true]);
    expect(takeAll(new FrameRingReader(ring))).toHaveLength(1);
  });

  it('nothing is made in process()', () => {
    const meter = make({ ring: memory() });
    const made = vi.spyOn(globalThis, 'Float64Array');
    for (let at = 0; at < RATE; at += 128) meter.process([quiet(128)]);
    expect(made).not.toHaveBeenCalled();
    made.mockRestore();
  });
});

describe('input', () => {
  it('that is not connected is no data: nothing is pushed', () => {
    const meter = make();
    for (let i = 0; i < 1000; i++) expect(meter.process([[]])).toBe(true);
    expect(meter.process([])).toBe(true);
    expect(readings(meter.port)).toEqual([]);
    meter.process([quiet(RATE)]);
    const [first] = readings(meter.port);
    expect((first as { frame: Float64Array }).frame[SLOT.head.streamSeconds]).toBe(1);
  });

  it('is passed over for the first skipSeconds', () => {
    const meter = make({ skipSeconds: 0.5 });
    for (let at = 0; at < RATE / 2; at += 128) meter.process([quiet(128)]);
    expect(readings(meter.port)).toEqual([]);
    meter.process([quiet(RATE)]);
    const [first] = readings(meter.port);
    expect((first as { frame: Float64Array }).frame[SLOT.head.streamSeconds]).toBe(1);
  });

  it('gives the same reading in blocks of any length, swapped the negative one, inverted the other polarity', () => {
    const { a, b } = struckPair({ sampleRate: RATE, hits: 8, delaySamples: 20, polarity: 'same' });
    const one = play(make(), a, b, [128]);
    expect(one).toMatchObject({ state: 'measured', polarity: 'same' });
    expect(one.delaySamples).toBeCloseTo(20, 0);
    const two = play(make(), a, b, [1, 300, 77, 4096]);
    expect({ ...two, curve: null, spectrum: null }).toEqual({ ...one, curve: null, spectrum: null });
    const swapped = play(make({ swapped: true }), a, b, [128]);
    expect(swapped.delaySamples).toBeCloseTo(-(one.delaySamples as number), 6);
    const inverted = play(make({ invertB: true }), a, b, [128]);
    expect(inverted.polarity).toBe('inverted');
  });
});

describe('messages', () => {
  const { a, b } = struckPair({ sampleRate: RATE, hits: 8, delaySamples: 20, polarity: 'same' });

  it('invert-b shows at once, without another block', () => {
    const meter = make();
    play(meter, a, b, [128]);
    meter.port.send({ type: 'invert-b', stamp: 1, on: true });
    const [now] = readings(meter.port);
    expect(flat(readingFromFrame((now as { frame: Float64Array }).frame)).polarity).toBe('inverted');
  });

  it('each reading carries the stamp of what was asked for last: older ones can be told', () => {
    const meter = make();
    const stamps = (): number[] => {
      const list = readings(meter.port);
      seen(meter.port, list);
      return list.map((one) => stampOf((one as { frame: Float64Array }).frame));
    };
    meter.process([quiet(RATE)]);
    expect(new Set(stamps())).toEqual(new Set([0]));
    meter.port.send({ type: 'invert-b', stamp: 7, on: true });
    meter.port.send({ type: 'hold', on: true });
    expect(stamps()).toEqual([7, 7]);
    meter.port.send({ type: 'restart', stamp: 8, maxLagMs: 34, swapped: false });
    meter.port.send({ type: 'drum', stamp: 9, id: null });
    expect(stamps()).toEqual([8, 9]);
    meter.process([quiet(RATE)]);
    expect(new Set(stamps())).toEqual(new Set([9]));
  });

  it('restart forgets, keeps invert and hold across a new reach', () => {
    const meter = make();
    play(meter, a, b, [128]);
    meter.port.send({ type: 'invert-b', stamp: 1, on: true });
    seen(meter.port, readings(meter.port));
    for (const maxLagMs of [11, 34]) {
      meter.port.send({ type: 'restart', stamp: 1, maxLagMs, swapped: true });
      const [now] = readings(meter.port);
      expect(flat(readingFromFrame((now as { frame: Float64Array }).frame))).toMatchObject({
        hits: 0,
        streamSeconds: 0,
      });
      const again = play(meter, a, b, [128]);
      expect(again).toMatchObject({ state: 'measured', polarity: 'inverted' });
      expect(again.delaySamples).toBeCloseTo(-20, 0);
    }
  });

  it('pictures come at once, without another block and on hold too', () => {
    const meter = make();
    play(meter, a, b, [128]);
    const wish = { alignSamples: 20, fromMs: -3, lengthMs: 12, closeSerial: 2, closeFromMs: -1, closeLengthMs: 2 };
    const ask = (): Pictures => {
      meter.port.posted.length = 0;
      const made = vi.spyOn(globalThis, 'Float32Array');
      meter.port.send({ type: 'pictures', wish });
      expect(made).not.toHaveBeenCalled();
      made.mockRestore();
      const [answer, ...more] = meter.port.posted;
      expect([answer?.type, more.length]).toEqual(['pictures', 0]);
      return picturesFrom((answer as { pictures: Float32Array }).pictures);
    };
    const pictures = ask();
    expect(pictures.hits.map((hit) => hit.serial)).toEqual([8, 7, 6, 5, 4, 3, 2, 1]);
    expect(pictures.close?.serial).toBe(2);
    expect(pictures.wish.alignSamples).toBe(20);
    for (const hit of pictures.hits) expect([hit.a.arrival, hit.b.arrival]).toEqual([0.25, expect.closeTo(0.25, 2)]);
    meter.port.send({ type: 'hold', on: true });
    expect(ask()).toEqual(pictures);
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 34, swapped: false });
    expect(ask().hits).toEqual([]);
  });

  it('restart takes another input offset out, or measures it', () => {
    const meter = make({ offsetSamples: 2.5 });
    const newest = (): Flat => {
      meter.port.posted.length = 0;
      meter.port.send({ type: 'seen', readings: 1 });
      meter.process([quiet(RATE / 20)]);
      return flat(readingFromFrame(readings(meter.port).at(-1)?.frame as Float64Array));
    };
    expect(newest()).toMatchObject({ offsetSamples: 2.5, gauge: null });
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 11, swapped: false, offsetSamples: -7.25 });
    expect(newest()).toMatchObject({ offsetSamples: -7.25, gauge: null });
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 34, swapped: false, settingOffset: true });
    expect(newest()).toMatchObject({ offsetSamples: 0, gauge: { hits: 0 } });
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 34, swapped: false });
    expect(newest()).toMatchObject({ offsetSamples: 0, gauge: null });
  });

  it('is told at the start, and at every restart anew, what was read of the pair before', () => {
    const expected = vi.spyOn(Engine.prototype, 'expect');
    const known = { delayMs: 2, sign: -1, uncertaintyMs: 0.25 } as const;
    const meter = make({ known });
    expect(expected).toHaveBeenLastCalledWith((2 / 1000) * RATE, -1, (0.25 / 1000) * RATE);
    const restart = { type: 'restart', stamp: 1, swapped: false } as const;
    for (const maxLagMs of [11, 34]) {
      meter.port.send({ ...restart, maxLagMs, known: { ...known, uncertaintyMs: null } });
      expect(expected).toHaveBeenLastCalledWith((2 / 1000) * RATE, -1, Number.NaN);
      meter.port.send({ ...restart, maxLagMs });
      expect(expected).toHaveBeenLastCalledWith(Number.NaN, 0, Number.NaN);
    }
    expected.mockRestore();
  });

  it('a drum is read at once, without another block, until the next start', () => {
    const meter = make();
    const kit = twoDrums(RATE, 6);
    const loudest = play(meter, kit.a, kit.b, [128]);
    expect([loudest.drums.length, loudest.drumChosen, loudest.polarity]).toEqual([2, false, 'inverted']);
    const newest = (): Flat => flat(readingFromFrame((readings(meter.port).at(-1) as { frame: Float64Array }).frame));
    const other = loudest.drums.find((drum) => drum.id !== loudest.drum);
    meter.port.send({ type: 'drum', stamp: 1, id: other?.id ?? 0 });
    expect(newest()).toMatchObject({ drum: other?.id, drumChosen: true, polarity: 'same' });
    meter.port.send({ type: 'drum', stamp: 1, id: null });
    expect(newest()).toMatchObject({ drum: loudest.drum, drumChosen: false, polarity: 'inverted' });
    meter.port.send({ type: 'drum', stamp: 1, id: other?.id ?? 0 });
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 11, swapped: false });
    readings(meter.port);
    expect(play(meter, kit.a, kit.b, [128])).toMatchObject({ drumChosen: false, polarity: 'inverted' });
  });

  it('hold keeps the reading', () => {
    const meter = make();
    const before = play(meter, a, b, [128]);
    meter.port.send({ type: 'hold', on: true });
    seen(meter.port, readings(meter.port));
    expect(play(meter, b, a, [128])).toMatchObject({ hits: before.hits, delaySamples: before.delaySamples });
  });
});

describe('faults', () => {
  it('are said once, and then it is silent', () => {
    const meter = make();
    meter.port.posted.length = 0;
    const bad = [[new Float32Array(128), new Float32Array(64)]]; // no browser does this
    expect(meter.process(bad)).toBe(false);
    expect(meter.process(bad)).toBe(false);
    expect(meter.process([quiet(RATE)])).toBe(false);
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 11, swapped: false });
    expect(meter.port.posted).toEqual([{ type: 'fault', text: expect.stringContaining('length') }]);
  });

  it('in a message too', () => {
    const meter = make();
    meter.port.posted.length = 0;
    meter.port.send({ type: 'restart', stamp: 1, maxLagMs: 1e9, swapped: false });
    expect(meter.port.posted.map((message) => message.type)).toEqual(['fault']);
    expect(meter.process([quiet(128)])).toBe(false);
  });

  it('at the very start: another protocol, an impossible reach, no options', () => {
    for (const options of [{ version: 99 }, { maxLagMs: 0 }]) {
      const meter = make(options);
      expect(meter.port.posted.map((message) => message.type)).toEqual(['fault']);
    }
    const bare = new Meter({} as { processorOptions: MeterProcessorOptions });
    expect(bare.port.posted.map((message) => message.type)).toEqual(['fault']);
  });

  it('even when the port is gone', () => {
    const meter = make();
    meter.port.postMessage = () => {
      throw new Error('closed');
    };
    expect(meter.process([quiet(RATE)])).toBe(false);
  });
});

describe('a thread that doesn’t keep up', () => {
  const { a, b } = struckPair({ sampleRate: RATE, hits: 30, delaySamples: 20, polarity: 'same' });
  afterEach(() => vi.restoreAllMocks());

  /** Each block takes so many times its own length; the newest frame. */
  function playAt(options: Partial<MeterProcessorOptions>, times: number): Float64Array {
    let ms = 1.7e12;
    vi.spyOn(Date, 'now').mockImplementation(() => Math.floor(ms));
    const meter = make(options);
    let newest: Float64Array = new Float64Array(0);
    for (let at = 0; at + 128 <= a.length; at += 128) {
      meter.process([[a.subarray(at, at + 128), b.subarray(at, at + 128)]]);
      ms += (times * 128000) / RATE;
      const list = readings(meter.port);
      newest = list.at(-1)?.frame ?? newest;
      seen(meter.port, list);
    }
    return newest;
  }

  it('says so in its frames, and no hit of an interface counts', () => {
    const slow = playAt({ captured: true }, 3);
    expect(arrivalOf(slow).dropping).toBe(true);
    const { hits, hitsUsed, perHit } = flat(readingFromFrame(slow));
    expect(hits).toBeGreaterThan(20);
    expect(hitsUsed).toBe(0);
    expect(new Set(perHit.slice(0, -2).map(({ fate }) => fate))).toEqual(new Set(['dropped-audio']));
  });

  it('as it should be, or faster: not a word', () => {
    for (const times of [1, 0.02]) {
      const frame = playAt({ captured: true }, times);
      expect(arrivalOf(frame).dropping).toBe(false);
      expect(flat(readingFromFrame(frame))).toMatchObject({ state: 'measured', hitsUsed: 16 });
    }
  });

  it('of a file that plays is told, but its hits are whole; one that is analysed isn’t judged by the clock', () => {
    const played = playAt({}, 3);
    expect(arrivalOf(played).dropping).toBe(true);
    expect(flat(readingFromFrame(played))).toMatchObject({ state: 'measured', hitsUsed: 16 });
    expect(arrivalOf(playAt({ live: false }, 3)).dropping).toBe(false);
  });

  it('voids the hits of so many seconds when the page has noticed', () => {
    const meter = make({ captured: true });
    play(meter, a.subarray(0, 5 * RATE), b.subarray(0, 5 * RATE), [128]);
    meter.port.send({ type: 'lost', seconds: 60 });
    meter.port.send({ type: 'hold', on: true });
    const now = readings(meter.port).at(-1)?.frame as Float64Array;
    expect(flat(readingFromFrame(now))).toMatchObject({ state: 'listening', hitsUsed: 0 });
  });
});

describe('the worklet scope', () => {
  it('has none of the names that the page has: the source uses none of them', () => {
    const source = readFileSync(new URL('../../worklets/meterProcessor.ts', import.meta.url), 'utf8');
    const missing =
      /\b(performance|setTimeout|setInterval|queueMicrotask|structuredClone|crypto|TextDecoder|URL|fetch|self|document|window)\b\s*[.(]/;
    expect(source).not.toMatch(missing);
  });
});

describe('the end of a recording', () => {
  it.each(['a', 'b', 'both'] as const)('%s silent: the answer that holds stays', (silent) => {
    const { a, b } = silentEnd('kick-inside-outside', silent, 3);
    expect(play(make({ live: false }), a, b, [4096])).toMatchObject({ state: 'measured', polarity: 'same' });
  });
});
