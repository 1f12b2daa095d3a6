/**
 * The hit, slowly: the head goes away from the side it is hit from, the sound goes out. Shown on a press and never else; where motion is not
 * wanted, as a picture that stands: the sound where it has reached both mics.
 */
import { type Accessor, createSignal, onCleanup } from 'solid-js';

export interface SlowHit {
  /** how far the sound has come, cm; null: nothing is shown */
  reachCm: Accessor<number | null>;
  /** of the head, 0…1, in the way the hit drives it */
  dip: Accessor<number>;
  /** the picture stands, nothing moves */
  still: Accessor<boolean>;
  play(farthestCm: number): void;
  /** the picture goes */
  clear(): void;
}

const SLOW_MS = 2200;
/** how long the picture stays at its end */
const STAY_MS = 1800;
/** so much further than the farther mic, cm */
const BEYOND_CM = 4;

/** @param seen once both mics were reached */
export function createSlowHit(seen: () => void): SlowHit {
  const [reachCm, setReach] = createSignal<number | null>(null);
  const [still, setStill] = createSignal(false);
  let frame = 0;
  let timer = 0;
  const stop = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
  onCleanup(stop);
  const end = (at: number): void => {
    setReach(at);
    seen();
    timer = window.setTimeout(() => setReach(null), STAY_MS);
  };
  return {
    clear() {
      stop();
      setReach(null);
    },
    reachCm,
    still,
    // down within a tenth of the way, and it stays down: only the first push is shown
    dip: () => (reachCm() === null ? 0 : still() ? 1 : Math.min(1, (reachCm() as number) / 3)),
    play(farthestCm) {
      stop();
      const to = farthestCm + BEYOND_CM;
      setStill(matchMedia('(prefers-reduced-motion: reduce)').matches);
      if (still()) {
        setReach(to);
        seen();
        return;
      }
      let began: number | null = null;
      const step = (now: number): void => {
        began ??= now;
        const share = (now - began) / SLOW_MS;
        if (share >= 1) end(to);
        else {
          setReach(share * to);
          frame = requestAnimationFrame(step);
        }
      };
      frame = requestAnimationFrame(step);
    },
  };
}
