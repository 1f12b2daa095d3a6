/** What a kit sheet's file must be, version by version: every field, and nothing else. */
import * as v from 'valibot';
import { PAIR_KIND_IDS } from '../../advice/plan/pairKinds';
import { BAND_COUNT, LOW_OCTAVES_HZ, NEAR_POINTS } from '../../reading/bands';
import { MOST_FILE_NAME, MOST_LABEL, MOST_MICROPHONES, MOST_NOTE, MOST_PAIRS, MOST_TIMINGS } from './fileLimits';
import { SUM_PICTURE_HZ } from './model';

const label = v.pipe(v.string(), v.maxLength(MOST_LABEL));
const note = v.pipe(v.string(), v.maxLength(MOST_NOTE));
const id = v.pipe(v.string(), v.regex(/^[\w-]{1,60}$/, 'must be an id of letters, digits, - and _'));
const time = v.pipe(v.string(), v.isoTimestamp());
const within = (low: number, high: number) => v.pipe(v.number(), v.minValue(low), v.maxValue(high));
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1e7));
const rate = within(8000, 768_000);
const temperatureC = within(-40, 60);
const delayMs = v.nullable(within(-1000, 1000));
const moveCm = v.nullable(within(-10_000, 10_000));
const levelDb = v.nullable(within(-200, 200));
const coherency = v.nullable(within(-1, 1));

const MICROPHONE = { id, label, drum: label, side: label, note, input: label, inverted: v.boolean() };
const microphone2 = v.strictObject({ ...MICROPHONE, lowCut: label, pad: label, voicing: label });
const SINCE_3_SWITCHES = { lowCut: label, pad: label, contour: label };
const microphone3 = v.strictObject({ ...MICROPHONE, ...SINCE_3_SWITCHES });
const place = v.strictObject({ x: within(0, 1), y: within(0, 1) });
const microphone = v.strictObject({ ...MICROPHONE, ...SINCE_3_SWITCHES, place: v.nullable(place) });

const READ = {
  takenAt: time,
  initials: label,
  temperatureC,
  sampleRate: rate,
  sure: v.boolean(),
  reason: note,
  polarity: v.nullable(v.picklist(['same', 'inverted'])),
  delayMs,
  uncertaintyMs: v.nullable(within(0, 1000)),
  spreadMs: v.nullable(within(0, 1000)),
  hits: count,
  hitsUsed: count,
  agreement: v.nullable(within(0, 1)),
  fuller: v.nullable(v.picklist(['as-is', 'inverted', 'either'])),
  fullerDb: levelDb,
  fullerLowHz: v.nullable(within(1, 100_000)),
  fullerHighHz: v.nullable(within(1, 100_000)),
  lowCoherency: coherency,
  aInverted: v.boolean(),
  bInverted: v.boolean(),
};
const SINCE_2 = {
  octaveCoherency: v.pipe(v.array(coherency), v.length(LOW_OCTAVES_HZ.length)),
  sumDb: v.nullable(v.pipe(v.array(v.nullable(within(-100, 100))), v.length(SUM_PICTURE_HZ.length))),
};
const taken1 = v.strictObject({ ...READ, take: label });
const taken2 = v.strictObject({ ...READ, ...SINCE_2, take: label });

const levels = v.strictObject({
  lowDb: levelDb,
  allDb: levelDb,
  bandsDb: v.pipe(v.array(levelDb), v.length(BAND_COUNT)),
});
const timing = v.pipe(
  v.strictObject({ delayMs, moveCm, asIs: levels, inverted: levels }),
  v.check((one) => one.delayMs === null || one.moveCm === null, 'must be a delay or a move'),
);
const timings = v.pipe(
  v.array(timing),
  v.maxLength(MOST_TIMINGS),
  v.check(([first]) => first === undefined || (first.delayMs === null && first.moveCm === null), 'the present first'),
);
const plan = v.pipe(
  v.strictObject({ invertB: v.boolean(), delayMs, moveCm }),
  v.check((one) => one.delayMs === null || one.moveCm === null, 'must be a delay or a move'),
);
const SINCE_3 = { run: label, timings, plan: v.nullable(plan) };
const taken3 = v.strictObject({ ...READ, ...SINCE_2, ...SINCE_3 });

const curve = v.nullable(v.pipe(v.array(within(-1, 1)), v.length(NEAR_POINTS)));
const sumByDelay = v.strictObject({
  fromMs: within(-1000, 1000),
  stepMs: v.pipe(v.number(), v.gtValue(0), v.maxValue(1)),
  low: curve,
  all: curve,
});
const SINCE_4 = { sumByDelay: v.nullable(sumByDelay) };
const taken4 = v.strictObject({ ...READ, ...SINCE_2, ...SINCE_3, ...SINCE_4 });

const file = v.pipe(v.string(), v.maxLength(MOST_FILE_NAME));
const SINCE_6 = { files: v.exactOptional(v.tuple([file, file])) };
const taken6 = v.strictObject({ ...READ, ...SINCE_2, ...SINCE_3, ...SINCE_4, ...SINCE_6 });
const READ_FROM = { source: v.exactOptional(file) };
const taken = v.strictObject({ ...READ, ...SINCE_2, ...SINCE_3, ...SINCE_4, ...SINCE_6, ...READ_FROM });

const DONE = { movedCm: moveCm, leftOnPurpose: v.boolean(), note };
const whose = v.nullable(v.picklist(['a', 'b', 'both']));
const done1 = v.strictObject({ ...DONE, delayLaterMs: delayMs, inverted: v.boolean() });
const done2 = v.strictObject({ ...DONE, delayLaterMs: delayMs, inverted: whose });
const done = v.strictObject({
  ...DONE,
  inverted: whose,
  later: v.nullable(v.strictObject({ invertB: v.boolean(), delayMs })),
});

const PAIR = {
  id,
  a: id,
  b: id,
  kind: v.picklist(PAIR_KIND_IDS),
  drum: label,
  acceptedAt: v.nullable(time),
};
const cm = within(-100_000, 100_000);
const CHECKED = {
  checkedAt: time,
  change: v.picklist(['same', 'moved', 'polarity', 'unknown']),
  fartherCm: v.nullable(cm),
};
const checked2 = v.nullable(v.strictObject(CHECKED));
const COMPARED = { pathsCm: v.exactOptional(v.tuple([cm, cm])) };
const checked = v.nullable(v.strictObject({ ...CHECKED, ...COMPARED }));
const pair1 = v.strictObject({
  ...PAIR,
  before: v.nullable(taken1),
  after: v.nullable(taken1),
  done: v.nullable(done1),
});
const pair2 = v.strictObject({
  ...PAIR,
  before: v.nullable(taken2),
  after: v.nullable(taken2),
  done: v.nullable(done2),
  checked: checked2,
});
const pair3 = v.strictObject({
  ...PAIR,
  before: v.nullable(taken3),
  after: v.nullable(taken3),
  done: v.nullable(done),
  checked: checked2,
});
const pair4 = v.strictObject({
  ...PAIR,
  before: v.nullable(taken4),
  after: v.nullable(taken4),
  done: v.nullable(done),
  checked: checked2,
});
const pair6 = v.strictObject({
  ...PAIR,
  before: v.nullable(taken6),
  after: v.nullable(taken6),
  done: v.nullable(done),
  checked: checked2,
});
const pair = v.strictObject({
  ...PAIR,
  before: v.nullable(taken),
  after: v.nullable(taken),
  done: v.nullable(done),
  checked,
});

const KIT = {
  id,
  name: label,
  note,
  sampleRate: rate,
  temperatureC,
  references: v.pipe(v.array(v.strictObject({ drum: label, microphone: id })), v.maxLength(MOST_PAIRS)),
  follows: v.pipe(v.array(v.strictObject({ microphone: id, drum: label })), v.maxLength(MOST_MICROPHONES)),
};
const microphones = v.pipe(v.array(microphone), v.maxLength(MOST_MICROPHONES));
const microphones3 = v.pipe(v.array(microphone3), v.maxLength(MOST_MICROPHONES));
const microphones2 = v.pipe(v.array(microphone2), v.maxLength(MOST_MICROPHONES));

export const kit1 = v.strictObject({
  ...KIT,
  microphones: microphones2,
  pairs: v.pipe(v.array(pair1), v.maxLength(MOST_PAIRS)),
});
export const kit2 = v.strictObject({
  ...KIT,
  microphones: microphones2,
  pairs: v.pipe(v.array(pair2), v.maxLength(MOST_PAIRS)),
});
export const kit3 = v.strictObject({
  ...KIT,
  microphones: microphones3,
  pairs: v.pipe(v.array(pair3), v.maxLength(MOST_PAIRS)),
});
export const kit4 = v.strictObject({
  ...KIT,
  microphones: microphones3,
  pairs: v.pipe(v.array(pair4), v.maxLength(MOST_PAIRS)),
});
const drumPlaces = v.pipe(v.array(v.strictObject({ drum: label, place })), v.maxLength(MOST_PAIRS));
export const kit5 = v.strictObject({
  ...KIT,
  microphones,
  pairs: v.pipe(v.array(pair4), v.maxLength(MOST_PAIRS)),
  drumPlaces,
});
export const kit6 = v.strictObject({
  ...KIT,
  microphones,
  pairs: v.pipe(v.array(pair6), v.maxLength(MOST_PAIRS)),
  drumPlaces,
});
export const kit7 = v.strictObject({
  ...KIT,
  microphones,
  pairs: v.pipe(v.array(pair), v.maxLength(MOST_PAIRS)),
  drumPlaces,
});

export type Kit1 = v.InferOutput<typeof kit1>;
export type Kit2 = v.InferOutput<typeof kit2>;
export type Kit3 = v.InferOutput<typeof kit3>;
export type Kit4 = v.InferOutput<typeof kit4>;
