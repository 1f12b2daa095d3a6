/** Faults are named by their evidence, and nobody is accused without. */
import { describe, expect, test } from 'vitest';
import { guessMic } from '../../src/advice/names/guessPair';
import { faultsOf } from '../../src/take/faults/faults';
import { invertedTracks } from '../../src/take/faults/inverted';
import { lateTracks } from '../../src/take/faults/late';
import { sameSignals } from '../../src/take/faults/sameSignals';
import { type CloseTrack, swappedBySound } from '../../src/take/faults/sharedSounds';
import { type OwnSound, swappedTracks } from '../../src/take/faults/swapped';
import type { DrumReport } from '../../src/take/model';
import { LevelScan } from '../../src/take/scan/levelScan';
import { seeded } from '../support/sound/signals';
import { drumReport, type Read } from './reports';

const FILES = ['Snare Top', 'Snare Bottom', 'Tom 1', 'Tom 2', 'OH Left', 'OH Right', 'Room'];
const MICS = FILES.map(guessMic);
const TRACKS = { files: FILES, mics: MICS, sampleRate: 48_000, cmPerSecond: 34_300 };

/** Every pair of each drum; a bottom microphone begins the other way, and so does what is inverted. */
function kit(inverted: readonly string[] = []): DrumReport[] {
  const sign = (drum: string, file: string): number =>
    (file === 'Snare Bottom' && drum === 'snare' ? -1 : 1) * (inverted.includes(file) ? -1 : 1);
  const pairs = (drum: string, own: string): Read[] =>
    FILES.flatMap((a, i) =>
      FILES.slice(i + 1).flatMap((b): Read[] => {
        const whole = (file: string): boolean => /OH|Room/.test(file) || file === own;
        if (!whole(a) && !whole(b)) return [];
        return [{ a, b, polarity: sign(drum, a) === sign(drum, b) ? 'same' : 'inverted' }];
      }),
    );
  return [
    drumReport('snare', 'Snare Top', pairs('snare', 'Snare Top')),
    drumReport('tom 1', 'Tom 1', pairs('tom 1', 'Tom 1')),
    drumReport('tom 2', 'Tom 2', pairs('tom 2', 'Tom 2')),
  ];
}

describe('inverted', () => {
  test('nobody of a sound kit, its bottom microphone included', () => {
    expect(invertedTracks(kit(), FILES, MICS)).toEqual([]);
  });

  test.for(FILES.map((file) => [file] as const))('%s is found', ([file]) => {
    expect(invertedTracks(kit([file]), FILES, MICS).map(({ files }) => files)).toEqual([[file]]);
  });

  test('two at once, and one of them the bottom microphone', () => {
    const found = invertedTracks(kit(['Snare Bottom', 'OH Right']), FILES, MICS).flatMap(({ files }) => files);
    expect(found.sort()).toEqual(['OH Right', 'Snare Bottom']);
  });

  test('one reading against many accuses nobody', () => {
    const drums = kit();
    const [first] = drums[0]?.pairs ?? [];
    if (first) first.polarity = 'inverted';
    expect(invertedTracks(drums, FILES, MICS)).toEqual([]);
  });

  test('a kick is heard from its front and from above: nothing is expected between the two', () => {
    const drums = [drumReport('kick', 'Kick', [{ a: 'Kick', b: 'OH Left', polarity: 'inverted' }])];
    const files = ['Kick', 'OH Left'];
    expect(invertedTracks(drums, files, files.map(guessMic))).toEqual([]);
  });
});

describe('late', () => {
  const between = (delays: readonly number[]): DrumReport[] =>
    delays.map((delaySamples, i) => drumReport(`drum ${i}`, null, [{ a: 'OH Left', b: 'OH Right', delaySamples }]));

  test('each overhead hears the drums on its own side first: sound', () => {
    expect(lateTracks(between([-40, 5, 38]), TRACKS)).toEqual([]);
  });

  test('one later for every drum: named, with both explanations', () => {
    const [fault] = lateTracks(between([18, 63, 96]), TRACKS);
    expect(fault).toMatchObject({ kind: 'late', files: ['OH Right'], samples: 57 });
    expect(fault?.text).toMatch(/further from the kit.*or it is late/);
    expect(lateTracks(between([-18, -63, -96]), TRACKS)[0]?.files).toEqual(['OH Left']);
  });

  test('two drums are too few to say', () => {
    expect(lateTracks(between([18, 63]), TRACKS)).toEqual([]);
  });
});

describe('swapped', () => {
  const sound = (drum: string, track: number, pitchHz: number, tiltDb: number): OwnSound => ({
    drum,
    track,
    pitchHz,
    tiltDb,
  });

  test('toms in order: sound', () => {
    expect(swappedTracks([], [sound('tom 1', 2, 160, -20), sound('tom 2', 3, 110, -22)], TRACKS)).toEqual([]);
  });

  test('a high tom that rings lower than the low one', () => {
    const [fault] = swappedTracks([], [sound('tom 1', 2, 110, -20), sound('tom 2', 3, 160, -22)], TRACKS);
    expect(fault).toMatchObject({ kind: 'swapped', files: ['Tom 1', 'Tom 2'] });
    expect(fault?.text).toContain('110 Hz');
  });

  test('a snare in a tom’s track', () => {
    const found = swappedTracks(
      [],
      [sound('tom 1', 2, 180, -3), sound('snare', 0, 120, -25), sound('tom 2', 3, 100, -26)],
      TRACKS,
    );
    expect(found[0]?.files.sort()).toEqual(['Snare Top', 'Tom 1']);
  });

  test('of several swaps that set all in order the one by which all drums fit best', () => {
    const sounds = [
      sound('kick', 1, 62, -26),
      sound('floor tom', 2, 117, -28),
      sound('mid tom', 3, 76, -29),
      sound('high tom', 4, 132, -27),
    ];
    expect(swappedTracks([], sounds, TRACKS)[0]?.files).toEqual(['Tom 1', 'Tom 2']);
  });

  test('neither of the two is called inverted: what is expected goes by the name', () => {
    const sounds = [sound('tom 1', 2, 110, -20), sound('tom 2', 3, 160, -22)];
    const found = { ...TRACKS, drums: kit(['Tom 1', 'Room']), sounds, close: [], same: [], tracks: [] };
    expect(faultsOf(found).map(({ kind, files }) => [kind, files])).toEqual([
      ['swapped', ['Tom 1', 'Tom 2']],
      ['inverted', ['Room']],
    ]);
  });

  describe('a drum of several microphones', () => {
    const hears = (track: number, drum: string, closest: number | null, closeDb = 7): CloseTrack => {
      return { track, drum, closest, closeDb };
    };
    const [SNARE, TOM] = [7, 8];

    test('that all hear one sound closest: sound, whatever one hears unclearly', () => {
      expect(swappedBySound([hears(0, 'snare', SNARE), hears(1, 'snare', null), hears(2, 'tom', TOM)])).toBeNull();
    });

    test('one hears another closest, and another’s track theirs: swapped', () => {
      const close = [hears(0, 'kick', SNARE), hears(4, 'kick', SNARE), hears(1, 'kick', TOM), hears(2, 'tom', SNARE)];
      expect(swappedBySound(close)).toEqual([1, 2]);
      const [fault] = swappedTracks([], [], TRACKS, close);
      expect(fault).toMatchObject({ kind: 'swapped', files: ['Snare Bottom', 'Tom 1'] });
      expect(fault?.text).toContain('Tom 1 hears the drum closest that Snare Top and OH Left hear closest');
    });

    test('by sound alone the drum’s other mic isn’t accused; where nobody knows which of the two it is, neither is', () => {
      // the kick's own track sounds bright, the hi-hat's dull: of the kick's two the second hears another drum closest
      const sounds = [sound('kick', 0, 62, -2), sound('hi-hat', 2, 400, -25)];
      const close = (second: number | null): CloseTrack[] => [
        hears(0, 'kick', SNARE, 3),
        hears(1, 'kick', second, 20),
        hears(2, 'hi-hat', SNARE, 30),
      ];
      expect(swappedBySound(close(TOM))).toBeNull();
      expect(swappedTracks([], sounds, TRACKS, close(TOM))[0]?.files).toEqual(['Snare Bottom', 'Tom 1']);
      expect(swappedTracks([], sounds, TRACKS, close(null))).toEqual([]);
    });

    test('one hears a neighbour’s closest, by bleed: it stands badly, but nothing is swapped', () => {
      const close = [hears(0, 'snare', SNARE, 9), hears(1, 'snare', TOM, 3), hears(2, 'tom', TOM, 14)];
      expect(swappedBySound(close)).toBeNull();
    });
  });

  test('a room that hears every drum before an overhead', () => {
    const drums = ['snare', 'tom 1', 'tom 2'].map((drum) =>
      drumReport(drum, null, [{ a: 'OH Left', b: 'Room', delaySamples: -140 }]),
    );
    expect(swappedTracks(drums, [], TRACKS)[0]).toMatchObject({ kind: 'swapped', files: ['OH Left', 'Room'] });
  });
});

describe('one signal twice', () => {
  const scan = (gain: number, seed: number, mixed = 0): ReturnType<LevelScan['end']> => {
    const random = seeded(seed);
    const other = seeded(99);
    const levels = new LevelScan(48_000);
    levels.push(
      Float32Array.from({ length: 48_000 }, (_, i) => {
        const envelope = Math.exp(-(i % 12_000) / 2500);
        return gain * envelope * (random() - 0.5) + mixed * (other() - 0.5);
      }),
    );
    return levels.end();
  };

  test('another gain is the same signal; another noise, or a second sound in it, is another', () => {
    expect(sameSignals([scan(0.8, 1), scan(-0.3, 1), scan(0.8, 2), scan(0.8, 1, 0.05)])).toEqual([[0, 1]]);
  });
});
