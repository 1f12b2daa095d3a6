/** How the hits are looked at: laid on each other or as recorded, which one large; and the pictures of what is looked at. */
import { type Accessor, createEffect, createSignal, onCleanup } from 'solid-js';
import { fateHere, honestPicture } from '../../advice/plan/hitFates';
import type { HitPicture } from '../../reading/hitPictures';
import { answerOf, type HitReading, type Reading } from '../../reading/reading';
import type { Meter } from '../../state/meter/meterTypes';
import { alignable } from '../../state/views/whyView';

export interface HitLook {
  /** what is drawn: a person's wish stands by until there is an arrival to align at */
  laidBack: Accessor<boolean>;
  setAligned(on: boolean): void;
  near: Accessor<boolean>;
  setNear(on: boolean): void;
  /** the newest first */
  hits: Accessor<HitReading[]>;
  hitOf(serial: number): HitReading | undefined;
  used(hit: HitReading): boolean;
  pictureOf(serial: number): HitPicture | null;
  /** serial of the one that is shown large; 0: none */
  shown: Accessor<number>;
  /** the large picture: the one that came last stands until that of another hit is here */
  close: Accessor<HitPicture | null>;
  /** its time axis, ms */
  closeWindow: Accessor<{ fromMs: number; lengthMs: number } | undefined>;
  /** this one large, as long as it is kept */
  choose(serial: number): void;
}

type LookedAt = Pick<Meter, 'reading' | 'pictures' | 'look' | 'invertB' | 'switchedB'>;

/** The meter makes pictures until the caller's owner goes. */
export function createHitLook(meter: LookedAt): HitLook {
  const { reading } = meter;
  const [aligned, setAligned] = createSignal(true);
  const [near, setNear] = createSignal(false);
  const [chosen, setChosen] = createSignal<number | null>(null);

  const hits = (): HitReading[] => [...(reading()?.perHit ?? [])].reverse();
  const hitOf = (serial: number): HitReading | undefined => reading()?.perHit.find((hit) => hit.serial === serial);
  const used = (hit: HitReading): boolean => fateHere(hit, reading() as Reading) === 'used';
  /** the one that a person chose, while it is kept; else the newest that is used */
  const large = (): number => {
    const wanted = chosen();
    if (wanted !== null && hitOf(wanted)) return wanted;
    return (hits().find(used) ?? hits().find((hit) => hit.fate !== 'pending'))?.serial ?? 0;
  };
  createEffect(() =>
    meter.look(reading(), {
      aligned: aligned(),
      serial: large(),
      near: near(),
      invertB: meter.invertB() !== meter.switchedB(),
    }),
  );
  onCleanup(() => meter.look(null, null));

  const honest = (picture: HitPicture | null | undefined): HitPicture | null => {
    const now = reading();
    return picture && now ? honestPicture(picture, answerOf(now)) : (picture ?? null);
  };
  const close = (): HitPicture | null => honest(meter.pictures()?.close);
  return {
    laidBack: () => aligned() && alignable(reading()),
    setAligned,
    near,
    setNear,
    hits,
    hitOf,
    used,
    pictureOf: (serial) => honest(meter.pictures()?.hits.find((one) => one.serial === serial)),
    shown() {
      const serial = close()?.serial ?? 0;
      return hitOf(serial) ? serial : large();
    },
    close,
    closeWindow() {
      const wish = meter.pictures()?.wish;
      return wish && { fromMs: wish.closeFromMs, lengthMs: wish.closeLengthMs };
    },
    choose: setChosen,
  };
}
