/** `npm run bench -- moves`: what moves without being moved, and what is moved without being noticed; the engine's and the sheet's word. */
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import { REAL_ABSENT, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { HITS_AFTER, KNOCKS, type Noticed, noticed, type Recorded, recorded } from '../moves/knockedFile';
import { MOVE_CAUSES } from '../moves/moveWatch';
import { METERS, type SheetNotice, sheetNotices, sheetPairs } from '../moves/sheetNotices';
import { DRAWN_SEEDS, type StandingRun, standingDrawn, standingReal, standingTakes } from '../moves/standing';
import { table } from '../table';
import { TAKES_ABSENT, takesHere } from './takes';

/** hits within which a knock is to be noticed */
const SOON_HITS = 4;
/** knocks tried in a file beside the one in its middle, from the hit on at which a reading may be certain */
const FIRST_KNOCK = 8;
const KNOCKS_A_FILE = 4;
/** B further in the groove, cm */
const SHEET_CM = [0, 4];

/** Prints each table as soon as it is there: all of them take some minutes. */
export async function movesTables(changes: TuningChanges = {}): Promise<undefined> {
  if (!realRecordingsHere) console.log(`\nReal recordings: skipped, ${REAL_ABSENT}.`);
  if (!takesHere) console.log(`\nTakes of a real kit, and the sheet: skipped, ${TAKES_ABSENT}.`);
  const runs = [...standingReal(changes), ...standingTakes(changes), ...standingDrawn(changes)];
  console.log(falseMovesTable(runs));
  console.log(eventsTable(runs));
  if (realRecordingsHere) {
    const files = realRecordings()
      .filter(({ delaySamples }) => delaySamples !== undefined)
      .map(recorded);
    for (const text of knockTables(files, changes)) console.log(text);
  }
  if (takesHere) console.log(sheetTable(changes));
}

const sum = (values: readonly number[]): number => values.reduce((all, n) => all + n, 0);

/** Hits for each event, or how many there were without one. */
export const perEvent = (hits: number, events: number): string =>
  events === 0 ? `none in ${hits}` : `1 in ${Math.floor(hits / events)}`;

function falseMovesTable(runs: readonly StandingRun[]): string {
  const groups = [...new Set(runs.map(({ group }) => group))];
  const bands: [string, (run: StandingRun) => boolean][] = [
    ...groups.map((name): [string, (run: StandingRun) => boolean] => [name, ({ group }) => group === name]),
    ['real, all', ({ group }) => group.startsWith('real')],
    ['takes, all', ({ group }) => group.startsWith('take')],
    ['drawn with an answer, all', ({ group }) => group === 'drawn, drum alone' || group === 'drawn, grooves'],
  ];
  const rows = bands.flatMap(([name, within]) => {
    const of = runs.filter(within);
    if (of.length === 0) return [];
    const events = of.flatMap((run) => run.events);
    const hits = sum(of.map((run) => run.hits));
    return [
      [
        name,
        of.length,
        hits,
        events.length,
        perEvent(hits, events.length),
        of.filter((run) => run.events.length > 0).length,
        ...MOVE_CAUSES.map((cause) => events.filter((event) => event.cause === cause).length || ''),
        events.filter(({ takenBack }) => takenBack).length,
        sum(of.map(({ flips }) => flips)),
      ],
    ];
  });
  return table(
    `Nothing moves (drawn: seeds ${DRAWN_SEEDS}): events in which old hits were let go or a drum was said to move, by what rule (tuning: delay.motion)`,
    ['recordings', 'number', 'hits', 'events', '', 'in so many', ...MOVE_CAUSES, 'taken back', '“Polarity flipped”'],
    rows,
  );
}

function eventsTable(runs: readonly StandingRun[]): string {
  const rows = runs.flatMap(({ group, name, hits, events }) =>
    events.map(({ hits: at, drum, cause, takenBack, said }) => [
      group,
      name,
      `${at} of ${hits}`,
      drum,
      cause,
      said ? 'yes' : 'no',
      takenBack ? 'yes' : '',
    ]),
  );
  return rows.length === 0
    ? ''
    : table('Each of these events', ['recordings', 'name', 'at hit', 'drum', 'by', 'said', 'taken back'], rows);
}

/** The hits before which a file's knocks are tried, about evenly; the middle one is the file's own. */
export function knockPlaces(hits: number): { middle: number; places: number[] } {
  const last = hits - SOON_HITS;
  const step = Math.max(1, Math.ceil((last - FIRST_KNOCK + 1) / KNOCKS_A_FILE));
  const places: number[] = [];
  for (let k = FIRST_KNOCK; k <= last; k += step) places.push(k);
  return { middle: Math.floor(hits / 2), places };
}

const isSoon = ({ how, hit }: Noticed): boolean => (how === 'moved' || how === 'shown') && hit <= SOON_HITS;

function told({ how, hit, wrong, end }: Noticed): string {
  const what =
    how === 'moved' || how === 'shown' ? `${how} ${hit}` : how === 'unnoticed' ? `no (${end})` : `– (${end})`;
  return wrong ? `${what}, wrong` : what;
}

function* knockTables(files: readonly Recorded[], changes: TuningChanges): Generator<string> {
  const head = ['file', 'class', 'hits', ...KNOCKS.map(({ name }) => name)];
  const rowsOf = (columns: (file: Recorded) => string[]): string[][] =>
    files.map((file) => [file.recording.file, file.recording.class, String(file.hits.length), ...columns(file)]);
  const soon = KNOCKS.map(() => 0);
  const middle = rowsOf((file) =>
    KNOCKS.map((knock, n) => {
      const found = noticed(file, knock, knockPlaces(file.hits.length).middle, changes);
      if (isSoon(found)) soon[n] = (soon[n] as number) + 1;
      return told(found);
    }),
  );
  yield table(
    `Knocked in the middle: said to move, or shown where it stands now, by which hit after it (waited for: ${HITS_AFTER}; in brackets what was said then)`,
    head,
    [...middle, [`within ${SOON_HITS} hits`, '', '', ...soon.map((n) => `${n} of ${files.length}`)]],
  );
  const all: Noticed[][] = KNOCKS.map(() => []);
  const several = rowsOf((file) =>
    KNOCKS.map((knock, n) => {
      const found = knockPlaces(file.hits.length)
        .places.map((k) => noticed(file, knock, k, changes))
        .filter(({ how }) => how !== 'not measured before');
      all[n]?.push(...found);
      return share(found);
    }),
  );
  yield table(
    `Knocked before several hits from the ninth on: noticed within ${SOON_HITS}, of those that were measured before (wrong readings after it)`,
    head,
    [...several, ['all', '', '', ...all.map(share)]],
  );
}

function share(tried: readonly Noticed[]): string {
  const wrong = tried.filter((one) => one.wrong).length;
  return `${tried.filter(isSoon).length} of ${tried.length}${wrong > 0 ? ` (${wrong})` : ''}`;
}

function sheetTable(changes: TuningChanges): string {
  const rows = sheetPairs().flatMap((pair) =>
    SHEET_CM.flatMap((cm) =>
      METERS.map((meter) => {
        const it = sheetNotices(pair, cm, meter, changes);
        const { accepted } = it;
        const ms = (x: number | null): string => (x === null ? '–' : x.toFixed(3));
        return [
          `${pair.a} – ${pair.b}`,
          accepted.sure
            ? `${ms(accepted.delayMs)} ±${ms(accepted.spreadMs)} ms, ${accepted.hitsUsed} hits`
            : 'uncertain',
          `${cm} cm`,
          meter,
          ...(['same', 'moved', 'polarity', 'which', 'unknown'] as const).map((change) => saidText(it, change)),
          endText(it),
        ];
      }),
    ),
  );
  return table(
    'The sheet: a pair accepted from its drum alone, then the groove; by which of the drum’s hits there each was first said, and how often',
    [
      'pair',
      'accepted',
      'B further',
      'the meter',
      'same',
      'moved',
      'polarity',
      'which drum?',
      'uncertain',
      'at the end',
    ],
    rows,
  );
}

function saidText({ said }: SheetNotice, change: keyof SheetNotice['said']): string {
  const { times, firstHit, fartherCm } = said[change];
  if (times === 0) return '';
  const far = change === 'moved' && fartherCm !== null ? `${fartherCm.toFixed(1)} cm, ` : '';
  return `${far}hit ${firstHit}, ${times}×`;
}

function endText({ end }: SheetNotice): string {
  if (end === null) return 'nothing';
  if (end === 'which') return 'which drum?';
  const { change, fartherCm, seenFromCm } = end;
  if (fartherCm === null || seenFromCm === null) return change;
  return `${change} (${fartherCm.toFixed(1)} cm; seen from ${seenFromCm.toFixed(1)})`;
}
