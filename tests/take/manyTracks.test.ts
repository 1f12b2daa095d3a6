/** Files that don't go together, and many of them: each is told by name, and the rest is read. */
import { expect, test } from 'vitest';
import { openChannels } from '../../src/files/openChannels';
import { bytesSlices } from '../../src/files/slices';
import { writeWav } from '../../src/files/writeWav';
import { alone } from '../../src/take/crew';
import type { TakeTrack } from '../../src/take/model';
import { readTake } from '../../src/take/readTake';
import { aligned } from '../../src/take/report/tracks';
import { watched } from '../files/tracks/trackBytes';
import { struckPair } from '../support/sound/struckPair';

const RATE = 44_100;
const { a, b } = struckPair({ sampleRate: RATE, hits: 6, delaySamples: 30, polarity: 'same' });
const opened = async (name: string, channels: Float32Array[], rate = RATE): Promise<TakeTrack[]> =>
  (await openChannels(name, bytesSlices(writeWav(channels, rate, 's24')))).tracks;
const later = (x: Float32Array, by: number): Float32Array => Float32Array.from(x, (_, i) => 0.8 * (x[i - by] ?? 0));

test('another rate and a shorter file: the first is told by name, the second read as far as it goes', async () => {
  const tracks = [
    ...(await opened('01 Snare.wav', [a])),
    ...(await opened('02 OH.wav', [b])),
    ...(await opened('03 Room.wav', [later(b, 200)], 48_000)),
    ...(await opened('04 Room.wav', [later(b, 300).slice(0, Math.floor(b.length / 2))])),
  ];
  const report = await readTake(tracks);
  expect(report.tracks.map(({ state }) => state)).toEqual(['ok', 'ok', 'unreadable', 'ok']);
  expect(report.tracks[2]?.reason).toMatch(/48000 Hz.*44100 Hz/);
  expect(report.durationSeconds).toBeCloseTo(a.length / RATE, 3);
  expect(report.drums[0]?.pairs[0]).toMatchObject({ b: '02 OH.wav', state: 'measured', polarity: 'same' });
});

test('26 tracks of one file: all are listened to, and the file is read once for them', async () => {
  const channels = [a, b, ...Array.from({ length: 24 }, (_, i) => later(b, 10 * i + 15))];
  const slices = watched(bytesSlices(writeWav(channels, RATE, 's24')));
  const { tracks } = await openChannels('kit.wav', slices);
  const take = aligned(tracks);
  slices.reads.length = 0;
  const crew = alone(
    take.tracks,
    tracks.map(({ file }) => file),
  );
  const scans = await crew.scan(
    tracks.map((_, t) => t),
    () => undefined,
  );
  expect(scans).toHaveLength(26);
  expect(slices.reads.reduce((sum, [, bytes]) => sum + bytes, 0)).toBe(26 * 3 * a.length);
  const [own] = await readTake([tracks[3] as TakeTrack]).then(({ tracks: reports }) => reports);
  expect(own).toMatchObject({ state: 'ok', channel: 4 });
});
