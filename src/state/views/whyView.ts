/**
 * The pictures of the hits, while someone looks at them: asked for when a hit, an answer or what is looked at is new, and not
 * more often than four times a second; a change that a person made is asked for at once.
 */
import { type Accessor, createSignal } from 'solid-js';
import type { MeterLink } from '../../audio/link';
import type { Pictures, PictureWish } from '../../reading/hitPictures';
import { answerOf, type Reading } from '../../reading/reading';

/** How the pictures are looked at. */
export interface Look {
  /** B laid back by the reading's delay */
  aligned: boolean;
  /** serial of the large one; 0: none */
  serial: number;
  /** the large one shows the first push and little more */
  near: boolean;
  /** the meter's own invert, which turns B over in the pictures */
  invertB: boolean;
  /** the first pushes alone, as recorded, from A's arrival on; left out: for the page that tells why */
  pushes?: PushWindow;
}

/** A picture of the first pushes, ms from A's arrival. */
export interface PushWindow {
  fromMs: number;
  lengthMs: number;
  /** B's comes before A's */
  bFirst: boolean;
}

export interface WhyView {
  pictures: Accessor<Pictures | null>;
  /** say what is looked at, with every reading; null: nothing any more */
  look(reading: Reading | null, look: Look | null): void;
}

const EVERY_MS = 250;
/** a meter that hasn't answered by then won't */
const PATIENCE_MS = 1500;

/** Windows begin before the arrival and show so much, ms. */
const FROM_MS = -2;
const LENGTH_MS = 8;
const NEAR_FROM_MS = -0.5;
const NEAR_LENGTH_MS = 2.5;

/** windows that begin so near to each other are one: they come back in single precision */
const SAME_MS = 1e-3;

/** Is there an arrival to lay B back by? */
export const alignable = (reading: Reading | null): boolean =>
  reading !== null && answerOf(reading).delaySamples !== null;

/** As recorded, the window must hold both first pushes. */
export function wishOf(reading: Reading, { aligned, serial, near, pushes }: Look): PictureWish {
  if (pushes) {
    const { fromMs, lengthMs } = pushes;
    return { alignSamples: 0, fromMs, lengthMs, closeSerial: 0, closeFromMs: FROM_MS, closeLengthMs: LENGTH_MS };
  }
  const delay = answerOf(reading).delaySamples;
  // to a tenth of a sample: a decision that changes nothing to be seen asks for nothing
  const alignSamples = aligned && delay !== null ? Math.round(delay * 10) / 10 : null;
  const apartMs =
    alignSamples === null && delay !== null ? Math.ceil((Math.abs(delay) / reading.sampleRate) * 1000) : 0;
  return {
    alignSamples,
    fromMs: FROM_MS,
    lengthMs: LENGTH_MS + apartMs,
    closeSerial: serial,
    closeFromMs: near ? NEAR_FROM_MS : FROM_MS,
    closeLengthMs: (near ? NEAR_LENGTH_MS : LENGTH_MS) + apartMs,
  };
}

export function createWhyView(
  link: () => Pick<MeterLink, 'pictures'> | null,
  nowMs: () => number,
): WhyView & { answer(pictures: Pictures): void } {
  const [pictures, setPictures] = createSignal<Pictures | null>(null);
  let wanted: { wish: PictureWish; key: string; person: string } | null = null;
  let asked = { key: '', person: '', atMs: Number.NEGATIVE_INFINITY };
  let waiting = false;
  let pushes = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function ask(): void {
    clearTimeout(timer);
    if (wanted === null || wanted.key === asked.key) return;
    const since = nowMs() - asked.atMs;
    const rest = waiting ? PATIENCE_MS - since : wanted.person === asked.person ? EVERY_MS - since : 0;
    const to = link();
    if (rest > 0) timer = setTimeout(ask, rest);
    else if (to) {
      asked = { key: wanted.key, person: wanted.person, atMs: nowMs() };
      waiting = true;
      to.pictures(wanted.wish);
    }
  }

  return {
    pictures,
    look(reading, look) {
      const newest = pictures()?.hits[0]?.serial ?? 0;
      const other = (look?.pushes !== undefined) !== pushes;
      pushes = look?.pushes !== undefined;
      // another stream, the same begun anew, or pictures for another page
      if (reading === null || look === null || reading.hits < newest || other) {
        setPictures(null);
        asked.key = '';
        waiting = false;
      }
      wanted = null;
      if (reading !== null && look !== null) {
        const wish = wishOf(reading, look);
        const read = reading.perHit.filter((hit) => hit.fate !== 'pending').length;
        const key = JSON.stringify([wish, look.invertB, reading.hits, read]);
        wanted = { wish, key, person: JSON.stringify(look) };
      }
      ask();
    },
    answer(next) {
      waiting = false;
      // what was asked for before another page looked is of no use to it
      if (wanted !== null && Math.abs(next.wish.fromMs - wanted.wish.fromMs) < SAME_MS) setPictures(next);
      ask();
    },
  };
}
