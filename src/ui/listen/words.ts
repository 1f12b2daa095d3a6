/** What the listening strip says. */
import type { Matched } from '../../listen/matching';
import type { Stretch } from '../../listen/stretch';
import type { Put, Start } from '../../listen/version';
import type { SilentReason } from '../../state/listen/listeningTypes';
import { hitsText } from '../../text/count';
import { dbFigure } from '../../text/level';
import { signed } from '../../text/number';

export const PUT_WORDS: Readonly<Record<Put, string>> = {
  both: 'A+B',
  a: 'A alone',
  b: 'B alone',
  apart: 'A left, B right',
};
export const STRETCH_WORDS: Readonly<Record<Stretch, string>> = { hit: 'One hit', bar: 'A bar' };
export const START_WORDS: Readonly<Record<Start, string>> = { equal: 'Equal levels', recorded: 'As recorded' };

export function silentText(reason: SilentReason): string {
  switch (reason.code) {
    case 'no-sound':
      return 'Nothing kept yet: after a few hits, press “Play”.';
    case 'no-hit':
      return 'No whole hit kept yet: after a few more, press “Play”.';
    case 'runaway':
      return 'Muted: the sound kept rising, as feedback does. Turn loudspeakers off, use closed headphones, then press “Hear live” again.';
    case 'failed':
      return reason.text;
  }
}

export const WAITING = 'Waiting for a hit…';
export const TOO_SOFT = 'Nearly silent: to set the level, choose “A alone”.';

/** What the others are as loud as. @param first the first version, as it is called where it stands */
const matchedWithText = (to: Put, first: string): string => (to === 'both' ? `“${first}”` : PUT_WORDS[to]);

/**
 * "as loud as “Now”: −2.4 dB", "0 dB" of that one itself
 * @param isLive open mics, which no version turns up
 * @param isRising all of them come back up
 * @param first what the first version is called
 * @param isFirst it is heard as the others are matched with it
 */
export function matchedText(
  matched: Matched | null,
  {
    isLive = false,
    isRising = false,
    to = 'both',
    first = 'Now',
    isFirst = false,
  }: { isLive?: boolean; isRising?: boolean; to?: Put | undefined; first?: string | undefined; isFirst?: boolean } = {},
): string {
  if (matched === null) return '“Play” matches the loudness';
  if (matched.gainDb === null) return matched.shortDb > 0 ? 'silent: nothing to match' : 'nothing to match it with';
  const dB = Math.abs(matched.gainDb) < 0.05 ? '0' : signed(matched.gainDb, 1);
  const gain = `${dB} dB${isRising ? ', rising' : ''}`;
  const what = matchedWithText(to, first);
  if (matched.shortDb <= 0.05) return isFirst ? gain : `as loud as ${what}: ${gain}`;
  const softer = `${dbFigure(matched.shortDb)} softer than ${what}`;
  return isLive ? `${softer} (live: not turned up)` : `${gain}, still ${softer}`;
}

/** "One hit" and "A bar" say what was asked for; this, what is in it. */
export const loopText = (hits: number | null): string => (hits === null ? '' : `${hitsText(hits)}, looping`);
