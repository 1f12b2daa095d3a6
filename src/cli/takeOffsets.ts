/** A take's offsets and inverts, as the page gives them: of a sheet made of the take's own tracks. */
import { guessMic } from '../advice/names/guessPair';
import { takeCsv } from '../sheet/print/takeCsv';
import { holding } from '../sheet/tracks/holding';
import type { TrackMic } from '../sheet/tracks/sheetMics';
import type { SheetTake } from '../sheet/tracks/sheetTake';
import { sheetOfTake } from '../sheet/tracks/takeSheet';
import type { TakeReport } from '../take/model';
import { stemOf } from '../take/names';
import type { ReadPair } from '../take/pairs/readWhole';
import { LEFT_OUT } from '../take/told/told';

export function offsetsCsv(report: TakeReport, pairs: readonly ReadPair[], temperatureC: number): string {
  const tracks = report.tracks.flatMap(({ file, state }): TrackMic[] => {
    const mic = guessMic(stemOf(file));
    return state === LEFT_OUT || mic.label === '' ? [] : [{ file, mic }];
  });
  const take: SheetTake = {
    sampleRate: report.sampleRate,
    temperatureC,
    tracks,
    ...holding(report.drums, pairs),
  };
  const how = { at: new Date().toISOString(), run: 'take', initials: '', temperatureC };
  return takeCsv(sheetOfTake(take, 'take', ''), report.tracks, take, how);
}
