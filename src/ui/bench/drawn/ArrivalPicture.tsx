/** Both arrivals in time: A above, B below, each with its first push up or down; between them the delay. */
import { createMemo, For, type JSX } from 'solid-js';
import type { Teaching } from '../../../state/teaching/teaching';
import { pulseAt, spanMs } from '../../../teaching/bench/arrivals';
import { MIC_IDS, type MicId } from '../../../teaching/bench/model';
import { arrivalWords, micName } from '../../../teaching/words/benchWords';
import { fixed } from '../../../text/number';
import { createPictureRoom, PictureRoom } from './PictureRoom';

const POINTS = 320;
/** before the first arrival, as a share of the span */
const LEAD = 0.08;
/** for the letters, in letters */
const LEFT = 1.6;

export function ArrivalPicture(props: { teaching: Teaching }): JSX.Element {
  const { bench, figures } = props.teaching;
  const room = createPictureRoom({ width: 560, height: 150 });
  const { size } = room;
  const span = createMemo(() => spanMs(figures().delayMs, bench()));
  /** ms after the earlier arrival */
  const x = (ms: number): number => {
    const left = LEFT * size().letters;
    return left + (size().width - left) * (LEAD + ((1 - LEAD) * ms) / span());
  };
  const earlier = (): number => Math.min(figures().a.arrivalMs, figures().b.arrivalMs);
  const lane = (): number => (size().height - 1.3 * size().letters) / 2;
  const middle = (mic: MicId): number => lane() * (mic === 'a' ? 0.5 : 1.5);
  const begin = (mic: MicId): number => figures()[mic].arrivalMs - earlier();
  const wave = (mic: MicId): string => {
    const { push, levelDb } = figures()[mic];
    const high = 0.46 * lane() * push * 10 ** (levelDb / 20);
    const from = -LEAD * span();
    return Array.from({ length: POINTS + 1 }, (_, i) => {
      const ms = from + ((span() - from) * i) / POINTS;
      const y = middle(mic) - high * pulseAt(ms - begin(mic), bench()[mic]);
      return `${i === 0 ? 'M' : 'L'}${x(ms).toFixed(1)} ${y.toFixed(1)}`;
    }).join('');
  };
  const ticks = (): number[] => Array.from({ length: 5 }, (_, i) => (span() * i) / 4);
  return (
    <figure class="bench-arrivals" data-span-ms={span()}>
      <figcaption class="unseen">{arrivalWords(figures())}</figcaption>
      <PictureRoom room={room}>
        <For each={MIC_IDS}>
          {(mic) => (
            <>
              <path class="bench-axis" d={`M${LEFT * size().letters} ${middle(mic)}H${size().width}`} />
              <text class="bench-letter" x={0} y={middle(mic)} dominant-baseline="central">
                {micName(mic)}
              </text>
              <path class={`bench-start is-${mic}`} d={`M${x(begin(mic))} ${0}V${2 * lane()}`} />
              <path class={`bench-pulse is-${mic}`} d={wave(mic)} />
            </>
          )}
        </For>
        <For each={ticks()}>
          {(ms, i) => (
            <text class="bench-tick" x={x(ms)} y={size().height - 3} text-anchor={i() === 4 ? 'end' : 'middle'}>
              {i() === 0 ? '0 ms' : fixed(ms, span() < 4 ? 1 : 0)}
            </text>
          )}
        </For>
      </PictureRoom>
    </figure>
  );
}
