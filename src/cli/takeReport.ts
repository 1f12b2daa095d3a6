/** A take's report on paper: what is wrong first, then every drum with its pairs. */
import type { DrumReport, PairReport, TakeReport } from '../take/model';
import { untoldDrums } from '../take/report/untold';
import { hitsText } from '../text/count';
import { cmNumber, cmText } from '../text/length';
import { dbText } from '../text/level';
import { NO_VALUE, signedColumn } from '../text/number';
import { capital, listText } from '../text/sentence';
import { fixedSeconds } from '../text/time';

const NAME_WIDTH = 30;

/** Lines without a line feed at the end. @param together what the readings say together, a sentence each */
export function takeReport(take: TakeReport, together: readonly string[]): string {
  const { tracks, drums, faults, hits } = take;
  const unread = tracks.filter(({ state }) => state === 'unreadable' || state === 'left-out');
  const untold = untoldDrums(take).map(({ drum }) => drum);
  return [
    `${tracks.length} tracks · ${take.sampleRate} Hz · ${fixedSeconds(take.durationSeconds, 1)} · ${hitsText(hits.length)}`,
    '',
    faults.length + unread.length > 0
      ? 'Wrong:'
      : untold.length > 0
        ? `Can’t tell: ${listText(untold)}.`
        : 'Nothing wrong found.',
    ...faults.map(({ text }) => `- ${text}`),
    ...unread.map(({ file, reason }) => `- ${file}: ${reason}`),
    '',
    ...(together.length > 0 ? ['All together:', ...together.map((text) => `- ${text}`)] : []),
    ...drums.flatMap((drum) => ['', ...drumLines(drum)]),
  ].join('\n');
}

function drumLines(drum: DrumReport): string[] {
  const own = drum.ownTrack === null ? 'no mic of its own' : drum.ownTrack;
  return [
    `${capital(drum.drum)} · ${own} · ${hitsText(drum.hits)}, ${drum.hitsUsable} alone`,
    ...drum.pairs.map(pairLine),
  ];
}

function pairLine({ a, b, from, state, reason, polarity, delaySamples, pathCm, fuller, fullerDb }: PairReport): string {
  const names = `  ${a} – ${b}`.padEnd(2 * NAME_WIDTH);
  if (state !== 'measured' || delaySamples === null) return `${names}${reason}`;
  const sum =
    fuller === null || fullerDb === null
      ? ''
      : ` · fuller ${fuller === 'inverted' ? 'with B inverted' : 'as is'} by ${dbText(fullerDb)}`;
  const cm = pathCm === null ? NO_VALUE : `${pathCm < 0 && cmNumber(pathCm) !== '0' ? '−' : ''}${cmText(pathCm)}`;
  const others = from === 'others' ? ' · from the other tracks' : '';
  return `${names}${polarity} · ${signedColumn(delaySamples, 1)} samples · ${cm}${sum}${others}`;
}
