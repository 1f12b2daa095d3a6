import { describe, expect, it } from 'vitest';
import { areCrossed, drumIn, guessPair } from '../../../src/advice/names/guessPair';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';

/** [first file, second file, kind, A, B, drum]; the order of the files is kept */
const TWO: readonly [string, string, PairKindId, string, string, string][] = [
  // top and bottom
  ['snare top.wav', 'snare bottom.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['Snare Top.wav', 'Snare Btm.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['04_SNR_TOP_01.WAV', '05_SNR_BTM_01.WAV', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['SnTop.wav', 'SnBtm.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['sntop.wav', 'snbot.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['SN T', 'SN B', 'other', 'Snare 1', 'Snare 2', 'snare'],
  ['SD Top', 'SD Under', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['Snare drum over top', 'Snare drum underneath', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['snare', 'snare under', 'top-bottom', 'Snare', 'Snare bottom', 'snare'],
  ['snare batter', 'snare reso', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['top', 'bottom', 'top-bottom', 'Top', 'Bottom', ''],
  ['Snare top', 'Bottom', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['Tom 1 top', 'Tom 1 btm', 'top-bottom', 'Tom 1 top', 'Tom 1 bottom', 'tom 1'],
  ['FT top', 'FT btm', 'top-bottom', 'Floor tom top', 'Floor tom bottom', 'floor tom'],
  ['rack_tom_top', 'rack_tom_bottom', 'top-bottom', 'Rack tom top', 'Rack tom bottom', 'rack tom'],
  // inside and outside, both sides of a kick
  ['kick in.wav', 'kick out.wav', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['01 KickIn_take3.wav', '02 KickOut_take3.wav', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['BD_IN', 'BD_OUT', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['BDin', 'BDout', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['KD inside', 'KD front', 'inside-outside', 'Kick in', 'Kick front', 'kick'],
  ['Bass Drum In', 'Bass Drum Out', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['kick', 'kick out', 'inside-outside', 'Kick', 'Kick out', 'kick'],
  ['Kick beater', 'Kick reso', 'both-sides-kick', 'Kick beater side', 'Kick front', 'kick'],
  ['Kick batter side', 'Kick front', 'both-sides-kick', 'Kick beater side', 'Kick front', 'kick'],
  // a close one and what hears it from afar
  ['snare top', 'OH L', 'close-overhead', 'Snare top', 'Overhead left', 'snare'],
  ['Snare', 'Overhead', 'close-overhead', 'Snare', 'Overhead', 'snare'],
  ['KICK', 'OHR', 'close-overhead', 'Kick', 'Overhead right', 'kick'],
  ['Floor Tom', 'OH-R', 'close-overhead', 'Floor tom', 'Overhead right', 'floor tom'],
  ['Tom2', 'over head', 'close-overhead', 'Tom 2', 'Overhead', 'tom 2'],
  ['snare top', 'OH snare side', 'close-overhead', 'Snare top', 'Overhead', 'snare'],
  ['Snare Top', 'Room', 'close-room', 'Snare top', 'Room', 'snare'],
  ['kick_in', 'RM L', 'close-room', 'Kick in', 'Room left', 'kick'],
  ['SN', 'Amb', 'close-room', 'Snare', 'Room', 'snare'],
  ['Overhead', 'Room mono', 'close-room', 'Overhead', 'Room', ''],
  // overheads
  ['OH L', 'OH R', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['OHL.wav', 'OHR.wav', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['OHLeft_01', 'OHRight_01', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['overhead left', 'overhead right', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['OH1', 'OH2', 'two-overheads', 'Overhead 1', 'Overhead 2', ''],
  ['OH hat side', 'OH ride side', 'two-overheads', 'Overhead 1', 'Overhead 2', ''],
  // a driver, the shell, two alike
  ['Kick out', 'Sub', 'low-end-driver', 'Kick out', 'Kick speaker', 'kick'],
  ['kick in', 'kick sub', 'low-end-driver', 'Kick in', 'Kick speaker', 'kick'],
  ['BD', 'SubKick', 'low-end-driver', 'Kick', 'Kick speaker', 'kick'],
  ['snare top', 'snare shell', 'shell-other', 'Snare top', 'Snare shell', 'snare'],
  ['SNR top', 'SNR side', 'shell-other', 'Snare top', 'Snare shell', 'snare'],
  ['snare top 1', 'snare top 2', 'same-side', 'Snare top 1', 'Snare top 2', 'snare'],
  ['Snare Top A', 'Snare Top B', 'same-side', 'Snare top 1', 'Snare top 2', 'snare'],
  ['Snare bottom L', 'Snare bottom R', 'same-side', 'Snare bottom left', 'Snare bottom right', 'snare'],
  // the names don't say what the two are to each other
  ['Kick', 'Snare', 'other', 'Kick', 'Snare', ''],
  ['Snare top', 'HH', 'other', 'Snare top', 'Hi-hat', ''],
  ['Snare top', 'Kick out', 'other', 'Snare top', 'Kick out', ''],
  ['Tom 1', 'Tom 2', 'other', 'Tom 1', 'Tom 2', ''],
  ['Hi-Hat', 'Ride', 'other', 'Hi-hat', 'Ride', ''],
  ['Snare', 'Snare', 'other', 'Snare 1', 'Snare 2', 'snare'],
  ['Room L', 'Room R', 'other', 'Room left', 'Room right', ''],
  ['line in', 'line out', 'other', '', '', ''],
  ['front', 'back', 'other', '', '', ''],
  ['take-1.wav', 'OH.wav', 'other', '', 'Overhead', ''],
  ['take-1.wav', 'take-2.wav', 'other', '', '', ''],
  ['Audio 01_03.wav', 'Audio 02_03.wav', 'other', '', '', ''],
  ['44100.wav', '48000.wav', 'other', '', '', ''],
  ['3rd drummer', 'intro', 'other', '', '', ''],
  ['topping', 'routine', 'other', '', '', ''],
  ['', '', 'other', '', '', ''],
];

/** [the one file of both, kind, A, B, drum] */
const ONE: readonly [string, PairKindId, string, string, string][] = [
  ['snare-top-bottom.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['Snare top + btm.wav', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['snare bottom & top', 'top-bottom', 'Snare bottom', 'Snare top', 'snare'],
  ['SNR_TopBtm_02', 'top-bottom', 'Snare top', 'Snare bottom', 'snare'],
  ['Kick In-Out.wav', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['kick_inout', 'inside-outside', 'Kick in', 'Kick out', 'kick'],
  ['kick-both-sides.wav', 'both-sides-kick', 'Kick beater side', 'Kick front', 'kick'],
  ['snare-overhead.wav', 'close-overhead', 'Snare', 'Overhead', 'snare'],
  ['snare top + oh', 'close-overhead', 'Snare top', 'Overhead', 'snare'],
  ['floor-tom-overhead.wav', 'close-overhead', 'Floor tom', 'Overhead', 'floor tom'],
  ['snare room', 'close-room', 'Snare', 'Room', 'snare'],
  ['kick + sub', 'low-end-driver', 'Kick', 'Kick speaker', 'kick'],
  ['snare-two-tops.wav', 'same-side', 'Snare top 1', 'Snare top 2', 'snare'],
  ['OH.wav', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['OHs', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['OH_LR', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['kit-overheads.wav', 'two-overheads', 'Overhead left', 'Overhead right', ''],
  ['Rooms.wav', 'other', 'Room left', 'Room right', ''],
  ['kick snare', 'other', 'Kick', 'Snare', ''],
  ['kick snare oh', 'other', '', '', ''],
  ['Snare Top.wav', 'other', '', '', 'snare'],
  ['top.wav', 'other', '', '', ''],
  ['sub.wav', 'other', '', '', ''],
  ['tom 1 tom 2', 'other', 'Tom 1', 'Tom 2', ''],
  ['snare.wav', 'other', '', '', 'snare'],
  ['snare-dead-input.wav', 'other', '', '', 'snare'],
  ['take.wav', 'other', '', '', ''],
  ['', 'other', '', '', ''],
];

describe('what two microphones are, from two names', () => {
  it.each(TWO)('%s, %s: %s', (first, second, kind, a, b, drum) => {
    const { turned, ...guess } = guessPair([first, second]);
    expect({ kind: guess.kind, a: guess.a, b: guess.b, drum: guess.drum }).toEqual({ kind, a, b, drum });
    expect(turned).toBe(false);
  });

  it.each(TWO.filter(([, , kind]) => ['top-bottom', 'inside-outside', 'close-overhead', 'close-room'].includes(kind)))(
    '%s is A also where it comes second, after %s',
    (first, second, kind, a, b) => {
      expect(guessPair([second, first])).toMatchObject({ kind, a, b, turned: true });
    },
  );

  it('the order is kept where nothing says which is the first', () => {
    expect(guessPair(['Snare', 'Kick'])).toMatchObject({ a: 'Snare', b: 'Kick', turned: false });
    expect(guessPair(['OH R', 'OH L'])).toMatchObject({ a: 'Overhead left', turned: true });
  });

  it('which of the two is close to the drum', () => {
    expect(guessPair(['Snare', 'OH']).closeTo).toBe('a');
    expect(guessPair(['OH L', 'a drum, snare']).closeTo).toBe('a');
    expect(guessPair(['take', 'snare']).closeTo).toBe('b');
    expect(guessPair(['Kick', 'Snare']).closeTo).toBeNull();
    expect(guessPair(['OH L', 'OH R']).closeTo).toBeNull();
  });
});

describe('what two microphones are, from the name of one file of both', () => {
  it.each(ONE)('%s: %s', (name, kind, a, b, drum) => {
    expect(guessPair([name])).toMatchObject({ kind, a, b, drum, turned: false });
  });
});

it.each([
  [['04 SNR Top', '05 SNR Btm'], ['Snare bottom', 'Snare top'], true],
  [['SnTop', 'OHL'], ['Overhead left', 'Snare top'], true],
  [['04 SNR Top', '05 SNR Btm'], ['Snare top', 'Snare bottom'], false],
  [['Kick in', 'Snare'], ['Snare bottom', 'Snare top'], false],
  [['Snare top', 'Snare top'], ['Snare top', 'Snare top'], false],
  [['take 1', 'take 2'], ['Snare top', 'Snare bottom'], false],
  [['snare top bottom'], ['Snare bottom', 'Snare top'], false],
  [['one', 'two'], ['', ''], false],
] as const)('%j are crossed for %j: %s', (files, labels, crossed) => {
  expect(areCrossed(files, labels)).toBe(crossed);
});

it.each([
  ['Snare, top & bottom', 'snare'],
  ['Floor tom & a drum next door', 'floor tom'],
  ['Kick, beater side & front', 'kick'],
  ['Whole kit, two overheads', ''],
  ['kick and snare', ''],
])('the drum in %j is %j', (text, drum) => {
  expect(drumIn(text)).toBe(drum);
});
