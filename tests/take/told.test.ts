/** What a person says of tracks, and how many are read. */
import { expect, test } from 'vitest';
import { guessMic } from '../../src/advice/names/guessPair';
import type { TakeReport, TakeTrack, TrackReport } from '../../src/take/model';
import { MOST_TRACKS, type ToldMic, toldTracks } from '../../src/take/told/told';

const track = (file: string, problem?: string): TakeTrack => ({
  file,
  channel: 1,
  sampleRate: 48_000,
  frames: 1,
  startFrame: null,
  ...(problem ? { problem } : {}),
  read: async () => 0,
});
const reportOf = (tracks: readonly TakeTrack[]): TakeReport =>
  ({ tracks: tracks.map(({ file }) => ({ file, state: 'ok' }) as TrackReport) }) as TakeReport;

test('a track that is told is that, another is what its name says, and one that is left out isn’t read', () => {
  const given = ['Audio 1.wav', 'Snare.wav', 'Talkback.wav', '__proto__'].map((file) => track(file));
  const snare = guessMic('Snare top');
  const { tracks, mics, whole } = toldTracks(
    given,
    new Map<string, ToldMic>([
      ['Audio 1.wav', snare],
      ['Talkback.wav', 'left-out'],
    ]),
  );
  expect(tracks.map(({ file }) => file)).toEqual(['Audio 1.wav', 'Snare.wav', '__proto__']);
  expect(mics).toEqual([snare, null, null]);
  expect(whole(reportOf(tracks)).tracks.map(({ file, state }) => [file, state])).toEqual([
    ['Audio 1.wav', 'ok'],
    ['Snare.wav', 'ok'],
    ['Talkback.wav', 'left-out'],
    ['__proto__', 'ok'],
  ]);
});

test('of too many tracks the rest is named, and one that is left out or can’t be read takes no place', () => {
  const many = Array.from({ length: MOST_TRACKS + 2 }, (_, i) => track(`Tom ${i + 1}.wav`));
  const given = [track('Notes.wav', 'Not audio.'), ...many];
  const { tracks, whole } = toldTracks(given, new Map([['Tom 3.wav', 'left-out']]));
  expect(tracks).toHaveLength(MOST_TRACKS + 1);
  const out = whole(reportOf(tracks)).tracks.filter(({ state }) => state === 'left-out');
  expect(out.map(({ file }) => file)).toEqual(['Tom 3.wav', `Tom ${MOST_TRACKS + 2}.wav`]);
  expect(out[1]?.reason).toMatch(/32 tracks are read at most/);
});
