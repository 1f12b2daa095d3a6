/** A take and the kit sheet: a sheet made of it, and its readings put on the one that is open. */
import { type Accessor, createMemo, createRoot, createSignal } from 'solid-js';
import { guessMic } from '../../advice/names/guessPair';
import { writeSheet } from '../../sheet/document/file';
import type { KitSheet } from '../../sheet/document/model';
import { takeCsv } from '../../sheet/print/takeCsv';
import { type ReadSheet, sheetOfReadings, type TakeTogether, takeTogether } from '../../sheet/print/takeTogether';
import { type Accepted, type AcceptWith, acceptTake } from '../../sheet/tracks/acceptTake';
import { holding, soundPairs } from '../../sheet/tracks/holding';
import { matchTracks, type TrackMic } from '../../sheet/tracks/sheetMics';
import type { SheetTake } from '../../sheet/tracks/sheetTake';
import { micsOfTracks, onSheet, sheetOfTake } from '../../sheet/tracks/takeSheet';
import { stemOf } from '../../take/names';
import { LEFT_OUT } from '../../take/told/told';
import { dayText } from '../../text/clock';
import { counted } from '../../text/count';
import { listText } from '../../text/sentence';
import type { Kit } from '../kit';
import type { Take } from './take';

export interface TakeSheet {
  /** the open one; null: none is */
  sheet: Accessor<KitSheet | null>;
  /** id of the open sheet's mic by file */
  mics: Accessor<ReadonlyMap<string, string>>;
  /** known tracks that the open sheet has no mic for */
  missing: Accessor<TrackMic[]>;
  /** what putting a drum's readings on the sheet would come to; null: no sheet is open. @param drum null: all whose own mic can be compared with some other */
  would(drum: string | null): Accepted | null;
  /** what was done last, in a sentence; empty: nothing */
  said: Accessor<string>;
  make(): Promise<void>;
  addMissing(): void;
  accept(drum: string | null): void;
  /** what this take's readings say together, of the open sheet's mics where it has any; null: it isn't read */
  together: Accessor<TakeTogether | null>;
  /** the sheet that they are said of */
  readings: Accessor<ReadSheet | null>;
  /** offsets and inverts of the tracks, from this take's readings alone; null: it isn't read */
  csv(): string | null;
}

export interface TakeSheetOptions {
  take: Take;
  /** null: it isn't here yet */
  kit(): Pick<Kit, 'shelf' | 'round'> | null;
  temperatureC(): number;
  newId(): string;
  now(): Date;
}

/** What is known of each track that isn't left out; of unknown ones nothing can go on a sheet. */
export function knownTracks({ tracks, told }: Pick<Take, 'tracks' | 'told'>): TrackMic[] {
  return tracks().flatMap(({ file, state }): TrackMic[] => {
    const said = told().get(file);
    if (said === LEFT_OUT || state === LEFT_OUT) return [];
    const mic = said ?? guessMic(stemOf(file));
    return mic.label === '' ? [] : [{ file, mic }];
  });
}

export function createTakeSheet({ take, kit, temperatureC, newId, now }: TakeSheetOptions): TakeSheet {
  const [said, setSaid] = createSignal('');
  const sheet = (): KitSheet | null => kit()?.shelf.sheet() ?? null;
  const read = (): SheetTake => ({
    sampleRate: take.report()?.sampleRate ?? 0,
    temperatureC: temperatureC(),
    tracks: knownTracks(take),
    ...holding(take.drums(), take.pairs()),
  });
  const mics = (): ReadonlyMap<string, string> => matchTracks(knownTracks(take), sheet()?.microphones ?? []);
  const iso = (): string => now().toISOString();

  const how = (): AcceptWith => ({
    at: iso(),
    run: `take ${take.readAt()?.toISOString() ?? ''}`,
    initials: kit()?.round.initials() ?? '',
    temperatureC: temperatureC(),
  });

  function accepting(open: KitSheet, drum: string | null): Accepted {
    const whole = read();
    const pairs = drum === null ? soundPairs(whole) : whole.pairs.filter((one) => one.drum === drum);
    return acceptTake(open, onSheet(open, whole, mics()), pairs, how());
  }

  return createRoot(() => {
    const match = createMemo(mics);
    const together = createMemo((): { read: ReadSheet; said: TakeTogether } | null => {
      const report = take.report();
      if (report === null) return null;
      const whole = read();
      const open = sheet();
      // the open sheet's names, switches and references, where it has any of these mics
      const base = open !== null && match().size > 0 ? open : sheetOfTake(whole, 'take', '');
      const of = sheetOfReadings(base, whole, how());
      return {
        read: of,
        said: takeTogether(
          of,
          report.tracks.map(({ file }) => file),
        ),
      };
    });
    return {
      sheet,
      mics: match,
      missing: () => (sheet() === null ? [] : knownTracks(take).filter(({ file }) => !match().has(file))),
      would(drum) {
        const open = sheet();
        return open === null || take.report() === null ? null : accepting(open, drum);
      },
      said,
      async make() {
        const shelf = kit()?.shelf;
        if (!shelf || take.report() === null) return;
        const made = sheetOfTake(read(), newId(), `Kit, ${dayText(now())}`);
        const problem = await shelf.take(writeSheet(made, iso()));
        setSaid(
          problem ||
            `${counted(made.microphones.length, 'mic')} and ${counted(made.pairs.length, 'pair')} are on a new kit sheet.`,
        );
      },
      addMissing() {
        const tracks = knownTracks(take).filter(({ file }) => !match().has(file));
        kit()?.shelf.change((open) => ({
          ...open,
          microphones: [...open.microphones, ...micsOfTracks(tracks, open.microphones)],
        }));
        setSaid(`Added to the kit sheet: ${listText(tracks.map(({ file }) => stemOf(file)))}.`);
      },
      accept(drum) {
        const [open, shelf] = [sheet(), kit()?.shelf];
        if (open === null || !shelf || take.report() === null) return;
        const done = accepting(open, drum);
        shelf.change(() => done.sheet);
        setSaid(saidOf(done));
      },
      together: () => together()?.said ?? null,
      readings: () => together()?.read ?? null,
      csv() {
        const [report, of] = [take.report(), together()];
        return report === null || of === null ? null : takeCsv(of.read, report.tracks);
      },
    };
  });
}

/** "Accepted 12 readings: 9 new, 2 as before, 1 changed, with the reading before kept." */
function saidOf({ fresh, same, changed }: Accepted): string {
  const all = fresh.length + same.length + changed.length;
  if (all === 0) return 'Nothing accepted: none of these pairs is on the kit sheet.';
  const parts = [
    ...(fresh.length > 0 ? [`${fresh.length} new`] : []),
    ...(same.length > 0 ? [`${same.length} as before`] : []),
    ...(changed.length > 0 ? [`${changed.length} changed (the reading before is kept)`] : []),
  ];
  return `Accepted ${counted(all, 'reading')}: ${listText(parts)}.`;
}
