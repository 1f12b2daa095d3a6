/** The processor that keeps the newest seconds, in what an AudioWorkletGlobalScope gives it. */
import { beforeAll, expect, test, vi } from 'vitest';
import { type FromRecent, Recent, type RecentOptions, recentBytes, type ToRecent } from '../../src/listen/recent';

const RATE = 1000;

class Port {
  onmessage: ((event: { data: ToRecent }) => void) | null = null;
  readonly posted: FromRecent[] = [];
  postMessage(message: FromRecent): void {
    this.posted.push(message);
  }
}
interface Processor {
  port: Port;
  process(inputs: Float32Array[][]): boolean;
}
let Made: new (options: { processorOptions: RecentOptions }) => Processor;

beforeAll(async () => {
  vi.stubGlobal('sampleRate', RATE);
  vi.stubGlobal(
    'AudioWorkletProcessor',
    class {
      readonly port = new Port();
    },
  );
  vi.stubGlobal('registerProcessor', (_: string, processor: typeof Made) => {
    Made = processor;
  });
  await import('../../worklets/recentProcessor');
});

test('it keeps what comes in until it is told to end, and then goes', () => {
  const memory = new SharedArrayBuffer(recentBytes(RATE));
  const processor = new Made({ processorOptions: { memory, skipSeconds: 0 } });
  const block = [Float32Array.of(1, 2), Float32Array.of(3, 4)];
  expect(processor.process([block])).toBe(true);
  processor.port.onmessage?.({ data: { type: 'end' } });
  expect(processor.process([block])).toBe(false);
  expect(new Recent(memory, RATE).newest()).toEqual({ a: block[0], b: block[1] });
});

test('without shared memory it sends its own when it is asked, and only then', () => {
  const processor = new Made({ processorOptions: { memory: null, skipSeconds: 0 } });
  processor.process([[Float32Array.of(1), Float32Array.of(2)]]);
  expect(processor.port.posted).toEqual([]);
  processor.port.onmessage?.({ data: { type: 'take' } });
  expect(processor.port.posted.map(({ memory }) => new Recent(memory, RATE).newest().b[0])).toEqual([2]);
});

test('the beginning isn’t kept: an interface’s own switching on is no hit', () => {
  const memory = new SharedArrayBuffer(recentBytes(RATE));
  const processor = new Made({ processorOptions: { memory, skipSeconds: 0.004 } });
  for (let i = 0; i < 4; i++) processor.process([[Float32Array.of(i, i), Float32Array.of(-i, -i)]]);
  expect(new Recent(memory, RATE).newest().a).toEqual(Float32Array.of(2, 2, 3, 3));
});
