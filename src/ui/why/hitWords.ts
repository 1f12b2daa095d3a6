/** What stands beside a hit's picture, in words. */
import { lowEndOnly } from '../../advice/plan/reasons';
import { pathCm } from '../../reading/acoustics';
import type { ChannelPicture, HitPicture } from '../../reading/hitPictures';
import { answerOf, type HitReading, type Reading } from '../../reading/reading';
import { cmFigure } from '../../text/length';
import { dbfsFigure } from '../../text/level';
import { fixed, NO_VALUE } from '../../text/number';
import { fixedMs, msFigure } from '../../text/time';

/** from so many times what lies before it on, the number says no more */
const FAR_ABOVE = 1000;

/** "inverted · +0.07 ms · +2.4 cm", or why there is none */
export function delayText({ delaySamples, polarity }: HitReading, reading: Reading, temperatureC: number): string {
  if (lowEndOnly(answerOf(reading)) !== null) return 'lows only: no delay';
  if (delaySamples === null) return 'no delay';
  const seconds = delaySamples / reading.sampleRate;
  return `${polarity ?? NO_VALUE} · ${msFigure(seconds * 1000)} · ${cmFigure(pathCm(seconds, temperatureC))}`;
}

/** "A: first push up" */
function pushText(letter: string, of: ChannelPicture | undefined): string {
  if (!of) return `${letter}: no picture`;
  if (of.arrival === null) return `${letter}: no first push found`;
  return `${letter}: first push ${of.push > 0 ? 'up' : 'down'}`;
}

/** Both first pushes, for whoever can't see them. */
export const pushesText = (picture: HitPicture | null): string =>
  `. ${pushText('A', picture?.a)}. ${pushText('B', picture?.b)}. `;

/** "A: first push up, 31 times the noise before it; the hit peaks at −8.1 dBFS" */
export function factsText(letter: string, of: ChannelPicture | undefined, levelDbfs: number | null): string {
  const times =
    of && of.arrival !== null
      ? `, ${of.quality < FAR_ABOVE ? fixed(of.quality, 0) : `over ${FAR_ABOVE}`} times the noise before it`
      : '';
  const bound = of?.noiseBound ? ' (threshold set by the noise)' : '';
  return `${pushText(letter, of)}${times}${bound}; the hit peaks at ${dbfsFigure(levelDbfs)}`;
}

/** How B is drawn against A. @param delaySamples by which it is laid back; null: it isn't */
export function laidText(delaySamples: number | null, sampleRate: number): string {
  if (delaySamples === null) return 'A and B as recorded';
  const ms = (delaySamples / sampleRate) * 1000;
  return `B drawn ${fixedMs(Math.abs(ms), 3)} ${ms < 0 ? 'later' : 'earlier'}`;
}
