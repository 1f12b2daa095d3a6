/** A seed makes a case. */
import { along, distance, minus, type Point } from '../../samples/model/room';
import { PAIR_KIND_IDS, type PairKindId } from '../../src/advice/plan/pairKinds';
import type { CaseGroup, CaseMicrophone, CaseSource, KitCase } from './case';
import { Draw } from './draw';
import { groove } from './groove/groove';
import { drawInstrument, type Instrument } from './instruments';
import { drawDriver, drawMicrophone, drawRoom } from './microphones';
import { DRUMS_OF, type StandingPair, standPair } from './places';
import { behind, drumSource, LEAD_SECONDS, steadyHits } from './strikes';

/** The groups in turn: seeds that follow each other hold them in these shares. */
const TURN: readonly CaseGroup[] = [
  ...Array<CaseGroup>(3).fill('clean'),
  ...Array<CaseGroup>(4).fill('noise'),
  ...Array<CaseGroup>(2).fill('hum'),
  ...Array<CaseGroup>(2).fill('weak channel'),
  'offset',
  ...Array<CaseGroup>(2).fill('clipped'),
  ...Array<CaseGroup>(2).fill('bleed'),
  ...Array<CaseGroup>(2).fill('room'),
  ...Array<CaseGroup>(2).fill('unlike'),
  ...Array<CaseGroup>(4).fill('groove'),
  ...Array<CaseGroup>(2).fill('moving'),
  ...Array<CaseGroup>(2).fill('knocked'),
  ...Array<CaseGroup>(2).fill('low-end driver'),
  'dead input',
  'unrelated',
  'one signal',
];
export const TURN_LENGTH = TURN.length;

const ANY: readonly PairKindId[] = PAIR_KIND_IDS.filter((kind) => kind !== 'low-end-driver' && kind !== 'other');
const KINDS: Partial<Record<CaseGroup, readonly PairKindId[]>> = {
  groove: ['two-overheads', 'close-overhead', 'top-bottom', 'close-room'],
  moving: ['same-side', 'two-overheads', 'close-overhead'],
  knocked: ['same-side', 'top-bottom', 'two-overheads', 'close-overhead'],
  'low-end driver': ['low-end-driver'],
  unrelated: ['other'],
};
const MOVE_METRES = 0.1;
const MOVE_SECONDS = 5;

export function groupOf(seed: number): CaseGroup {
  return TURN[seed % TURN.length] as CaseGroup;
}

/** @param seed any integer ≥ 0; see TUNING_SEEDS and QUOTED_SEEDS for which may be used for what */
export function drawCase(seed: number): KitCase {
  const draw = new Draw(seed, 'case');
  const group = groupOf(seed);
  const kind = draw.one(KINDS[group] ?? ANY);
  const struck = drawInstrument(group === 'groove' ? draw.one(['snare', 'kick']) : draw.one(DRUMS_OF[kind]), draw);
  if (group === 'groove' && kind === 'top-bottom') Object.assign(struck, drawInstrument('snare', draw));
  const pair = standPair(kind, struck, draw);
  const room = drawRoom(group, draw);
  const humHz = draw.one([50, 60]);
  const bWorse = draw.chance(0.5);
  const microphone = (side: 'a' | 'b'): CaseMicrophone => {
    const worse = (side === 'b') === bWorse;
    const inside = pair[side].side === 'inside';
    return drawMicrophone(pair[side].at, { group, worse, room: inside ? null : room, humHz }, draw);
  };
  const made: KitCase = {
    seed,
    group,
    kind,
    asked: struck.id,
    sampleRate: draw.one([44100, 44100, 44100, 48000, 48000, 48000, 88200, 96000]),
    seconds: 0,
    converter: draw.chance(0.4) ? 'linear' : 'causal',
    wiredInverted: draw.chance(0.35),
    copyGain: null,
    sources: [],
    a: microphone('a'),
    b: microphone('b'),
    noAnswer: null,
  };
  perform(made, struck, pair, draw);
  spoil(made, draw);
  return made;
}

/** Who plays what, and for how long. */
function perform(made: KitCase, struck: Instrument, pair: StandingPair, draw: Draw): void {
  if (made.group === 'groove') {
    Object.assign(made, groove(struck, pair, made.seed));
    return;
  }
  const moves = made.group === 'moving' || made.group === 'knocked';
  const hits = made.group === 'moving' ? 28 : made.group === 'knocked' ? 18 : draw.one([12, 13, 14]);
  // a moved microphone is listened to at two hits a second
  const spacing = moves ? 0.5 : draw.between(0.38, 0.6);
  made.seconds = LEAD_SECONDS + hits * spacing + 0.4;
  const own = drumSource(struck, pair, steadyHits(struck, hits, spacing, draw), draw);
  made.sources.push({ ...own, a: pair.a.side, b: pair.b.side });
  const levelDb = made.group === 'bleed' ? draw.between(-24, -10) : draw.between(-42, -28);
  for (const source of behind(struck, pair, made.seconds, levelDb, draw)) {
    // a shell keeps metal out well enough
    made.sources.push(made.a.room === null && source.metal ? { ...source, a: null } : source);
  }
  if (moves) setMove(made, struck.place, draw);
}

function setMove(made: KitCase, place: Point, draw: Draw): void {
  const { b } = made;
  const outwards = minus(b.at, place);
  const knocked = made.group === 'knocked';
  const metres = knocked ? draw.between(0.02, 0.06) : MOVE_METRES;
  const close = distance(b.at, place) < 0.3;
  // a close one can only go away from the head
  const way = close ? 1 : draw.sign();
  const fromSeconds = LEAD_SECONDS + (knocked ? 8.7 : 9.7) * 0.5;
  b.move = {
    to: along(b.at, outwards, way * metres),
    fromSeconds,
    toSeconds: knocked ? fromSeconds : fromSeconds + MOVE_SECONDS,
  };
}

/** What makes an answer impossible. */
function spoil(made: KitCase, draw: Draw): void {
  if (made.group === 'low-end driver') {
    made.b.driver = drawDriver(draw);
    made.noAnswer = 'low end only';
  } else if (made.group === 'dead input') {
    made.b.dead = true;
    if (draw.chance(0.4))
      Object.assign(made.b, { noiseDb: Number.NEGATIVE_INFINITY, humDb: Number.NEGATIVE_INFINITY, dc: 0 });
    made.noAnswer = 'dead input';
  } else if (made.group === 'one signal') {
    made.copyGain = draw.ratio(0.3, 1.2);
    made.noAnswer = 'one signal';
  } else if (made.group === 'unrelated') {
    separate(made, draw);
    made.noAnswer = 'nothing in common';
  }
}

/** B's drum is next door: other hits, another player. */
function separate(made: KitCase, draw: Draw): void {
  const other = drawInstrument('hand drum', draw);
  const spacing = draw.between(0.33, 0.7);
  const hits = Math.floor((made.seconds - LEAD_SECONDS - 0.5) / spacing);
  const pair = standPair('same-side', other, draw);
  made.b.at = pair.b.at;
  const alone = made.sources.map((source): CaseSource => ({ ...source, b: null }));
  made.sources = [
    ...alone,
    { ...drumSource(other, pair, steadyHits(other, hits, spacing, draw), draw), a: null, b: 'batter' },
  ];
}
