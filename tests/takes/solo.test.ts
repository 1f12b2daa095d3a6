/**
 * A take of a real kit, six drums one after the other, all microphones at once (../shared/takes, read there, never copied): the reading
 * is of the drum whose microphone it is, and of none other. `npm run bench -- takes` prints it.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { ownDrum, type PlayedPair, playPair, TAKES_ABSENT, takePairs, takesHere } from '../bench/engine/takes';

const TAKE = 'kit-b-solo';
/** the whole take, eighteen times, on a busy machine */
const PATIENCE_MS = 600_000;

describe.skipIf(!takesHere)(`drums one after the other${takesHere ? '' : ` (${TAKES_ABSENT})`}`, () => {
  const played: PlayedPair[] = [];
  beforeAll(() => {
    for (const pair of takePairs(TAKE)) played.push(playPair(pair));
  }, PATIENCE_MS);
  const of = (drum: string): PlayedPair[] => played.filter(({ pair }) => pair.drum === drum);
  const named = (list: PlayedPair[]): string[] => list.map(({ pair }) => `${pair.drum}: ${pair.a} – ${pair.b}`);

  it('has eighteen firm pairs, three of them the snare’s', () => {
    expect([played.length, of('snare').length]).toEqual([18, 3]);
  });

  it('the snare’s own microphone against another: right at the end, and never wrong', () => {
    for (const { end, listed, wrong, right } of of('snare')) {
      expect([end, listed, wrong]).toEqual(['right', 'right', 0]);
      expect(right).toBeGreaterThan(0);
    }
  });

  it('no pair ends with a certain reading of another drum than its own', () => {
    const certain = played.filter(({ end }) => end !== 'none');
    expect(certain.length).toBeGreaterThanOrEqual(3);
    expect(certain.map(({ endDrum }) => endDrum)).toEqual(certain.map(({ pair }) => ownDrum(pair)));
  });

  // the snare under an overhead, clearly loudest there until the middle tom comes
  it('only under one overhead, against the rooms, was another certain once their own drum had had four hits', () => {
    expect(named(played.filter(({ ofAnother }) => ofAnother > 0))).toEqual([
      'high tom: 03 OH – 05 Room Front',
      'high tom: 03 OH – 06 Room Window',
      'high tom: 03 OH – 07 Room Far',
    ]);
  });

  it('where neither microphone is at a drum it is open which one is meant', () => {
    const open = played.filter(({ pair }) => ownDrum(pair) === pair.drum && pair.drum !== 'snare');
    expect(open.length).toBeGreaterThanOrEqual(10);
    expect(named(open.filter(({ reason }) => reason !== 'which-drum'))).toEqual([]);
  });

  it('the toms and the hat stand right in the list in ten of fifteen pairs at least, and never wrong', () => {
    const others = played.filter(({ pair }) => pair.drum !== 'snare');
    expect(others.length).toBe(15);
    expect(named(others.filter(({ listed }) => listed === 'wrong'))).toEqual([]);
    expect(others.filter(({ listed }) => listed === 'right').length).toBeGreaterThanOrEqual(10);
  });
});

describe('where a pair of tracks is about', () => {
  it.each([
    { a: '02 Snare', b: '03 OH', drum: 'snare', own: 'snare' },
    { a: '02 Snare', b: '06 Room Window', drum: 'hi-hat closed', own: 'snare' },
    { a: '03 OH', b: '01 Kick', drum: 'high tom', own: 'kick' },
    { a: '03 OH', b: '07 Room Far', drum: 'high tom', own: 'high tom' },
  ])('$a – $b, asked for the $drum: the $own', ({ a, b, drum, own }) => {
    if (!takesHere) return;
    const other = { delaySamples: 0, polarity: 'same' as const, toleranceSamples: 0, firm: true };
    expect(ownDrum({ ...other, take: TAKE, drum, a, b })).toBe(own);
  });
});
