/** How the numbers of a take's pairs come about: inputs put in the formula give what its page shows. */
import { expect, test } from 'vitest';
import { guessMic } from '../../src/advice/names/guessPair';
import { lateOverheads, lateTracks } from '../../src/take/faults/late';
import { lateSum } from '../../src/take/faults/lateSum';
import type { TakeTrack } from '../../src/take/model';
import type { ReadPair } from '../../src/take/pairs/readWhole';
import { readTake } from '../../src/take/readTake';
import { takePairSums } from '../../src/take/report/pairSums';
import { gainText } from '../../src/text/level';
import type { Sum } from '../../src/text/sum';
import { laterText, toDo } from '../../src/ui/take/takeText';
import { holdsUp } from '../support/rules/evaluate';
import { struckPair } from '../support/sound/struckPair';
import { drumReport } from './reports';

const RATE = 44_100;

const track = (file: string, x: Float32Array): TakeTrack => ({
  file,
  channel: 1,
  sampleRate: RATE,
  frames: x.length,
  startFrame: null,
  async read(from, into) {
    const part = x.subarray(from, from + into.length);
    into.set(part);
    return part.length;
  },
});

test('path, delay, accuracy and gains of a pair are its cell’s', async () => {
  const { a, b } = struckPair({ sampleRate: RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
  const whole: ReadPair[] = [];
  const take = await readTake([track('Snare.wav', a), track('OH.wav', b)], {
    temperatureC: 28,
    onDrum: (_, pairs) => void whole.push(...pairs),
  });
  const pair = take.drums[0]?.pairs[0];
  const reading = whole[0]?.reading;
  if (!pair || !reading) throw new Error('no pair was read');
  expect(pair.state).toBe('measured');
  const sums = takePairSums(pair, reading, 28);
  const of = (id: string): Sum => sums.find((one) => one.id === id) as Sum;
  for (const sum of sums) if (sum.id !== 'move') expect(holdsUp(sum), sum.name).not.toEqual([]);
  expect(of('path').result).toBeCloseTo(pair.pathCm as number, 5);
  expect(laterText(of('path').result)).toBe(laterText(pair.pathCm));
  expect(of('delay').result).toBeCloseTo(pair.delayMs as number, 6);
  const best = pair.plan.find(({ recommended }) => recommended);
  expect(best?.lowDb).toBeGreaterThan(1);
  expect(of('low-octave').result).toBeCloseTo(best?.lowDb as number, 5);
  expect(of('overall').result).toBeCloseTo(best?.allDb as number, 5);
  expect(toDo(pair)).toContain(gainText(of('low-octave').result as number));

  // where the other tracks answer, none of it is said to be of its own hits
  const reason = 'Its own hits leave it open; it follows from Room.wav.';
  const others = takePairSums({ ...pair, from: 'others', reason }, reading, 28);
  const delay = others.find(({ id }) => id === 'delay');
  expect(JSON.stringify(delay)).not.toMatch(/hits used|first pushes|Why/);
  expect(delay?.note).toContain(reason);
  for (const sum of others) if (sum.id !== 'move') expect(holdsUp(sum), sum.name).not.toEqual([]);
  expect(takePairSums({ ...pair, state: 'unclear' }, reading, 28)).toEqual([]);
});

test('a late overhead: halfway between the drum with the least and the one with the most', () => {
  const files = ['OH Left', 'OH Right'];
  const tracks = { files, mics: files.map(guessMic), sampleRate: 48_000, cmPerSecond: 34_300 };
  for (const delays of [
    [18, 63, 96],
    [-18, -63, -96],
    [-30, 80, 150],
  ]) {
    const drums = delays.map((delaySamples, i) =>
      drumReport(`drum ${i}`, null, [{ a: 'OH Left', b: 'OH Right', delaySamples }]),
    );
    const [one] = lateOverheads(drums, tracks);
    const [fault] = lateTracks(drums, tracks);
    if (!one || !fault) throw new Error('nothing is late');
    const sum = lateSum('late', one, tracks.sampleRate);
    expect(holdsUp(sum)).toEqual(['n', 't']);
    expect(sum.result).toBe(fault.samples);
    expect(fault.text).toContain(`about ${sum.result} samples`);
  }
});
