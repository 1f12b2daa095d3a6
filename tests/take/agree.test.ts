/** The live meter and the take read the same pair alike. */
import { expect, test } from 'vitest';
import { readTake } from '../../src/take/readTake';
import { TAKES_ABSENT, takesHere, takeTrack, takeTruth } from '../bench/engine/takes';
import { liveBesideTake } from '../support/take/liveBesideTake';
import { takeTracks } from '../support/take/takeTracks';

test('on a real kit, drum after drum: one polarity, and delays within their uncertainty', {
  timeout: 180_000,
}, async ({ skip }) => {
  if (!takesHere) return skip(TAKES_ABSENT);
  const { hits, drums } = takeTruth('kit-b-solo');
  const names = [...new Set(drums.flatMap(({ ownTrack, others }) => [ownTrack, ...Object.keys(others)]))];
  const tracks = names.map((name) => takeTrack('kit-b-solo', name));
  const files = names.map((name) => `${name}.wav`);
  const sounds = tracks.map(({ x }) => x);
  const report = await readTake(takeTracks(files, sounds, tracks[0]?.sampleRate as number));
  const said = liveBesideTake(report, new Map(files.map((file, t) => [file, sounds[t]])), ({ drum }) => {
    // a drum without a mic of its own has a name of the report's
    const heard = report.hits.filter((hit) => hit.drums.includes(drum)).map(({ timeSeconds }) => timeSeconds);
    const [first = 0, last = 0] = [Math.min(...heard), Math.max(...heard)];
    return hits.map(({ seconds }) => seconds).filter((seconds) => seconds > first - 0.1 && seconds < last + 0.1);
  });
  expect(
    said
      .filter(({ agree }) => agree === false)
      .map(({ drum, pair, liveSamples }) => [
        drum,
        pair.a,
        pair.b,
        pair.delaySamples,
        liveSamples,
        pair.uncertaintySamples,
      ]),
  ).toEqual([]);
  expect(said.filter(({ agree }) => agree === true).length).toBeGreaterThanOrEqual(15);
});
