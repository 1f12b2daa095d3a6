/** What a person tries with the pair. Not remembered: another source or another pair begins with nothing tried. */
import { type Accessor, createSignal } from 'solid-js';
import type { Action } from '../../advice/plan/alternatives';
import { MOST_MOVE_CM, MOST_TRIM_DB, NOTHING_TRIED, type Tried } from '../../advice/tryOut/tried';

/** A move is set in millimetres, a trim in half dB. */
export const MOVE_STEP_CM = 0.1;
export const TRIM_STEP_DB = 0.5;

export interface TryChoice {
  tried: Accessor<Tried>;
  setInvertB(on: boolean): void;
  /** kept within MOST_MOVE_CM, to the millimetre; takes the place of a delay */
  setMoveCm(cm: number): void;
  setTrimDb(db: number): void;
  /** this action whole, at equal level, as the plan tells it */
  take(action: Action): void;
  /** near band whose curve is shown: 0 the drum's low octave, 1 overall, then BANDS */
  band: Accessor<number>;
  setBand(n: number): void;
}

const within = (value: number, most: number): number => Math.max(-most, Math.min(most, value));
/** To a step of 1/n, never −0. */
const to = (value: number, perUnit: number): number => Math.round(value * perUnit) / perUnit + 0;

/** A signed number as it is typed, or null: with a comma or a point, with either minus. */
export function parseSigned(text: string, most: number): number | null {
  const plain = text
    .trim()
    .replace(',', '.')
    .replace('−', '-')
    .replace(/\s*(cm|dB)$/i, '');
  const value = Number(plain);
  return plain === '' || !Number.isFinite(value) || Math.abs(value) > most ? null : value;
}

export function createTryChoice(): TryChoice {
  const [tried, setTried] = createSignal<Tried>(NOTHING_TRIED);
  // overall: the low octave hardly changes along a move
  const [band, setBand] = createSignal(1);
  return {
    tried,
    setInvertB: (invertB) => void setTried((now) => ({ ...now, invertB })),
    setMoveCm(cm) {
      const moveCm = to(within(cm, MOST_MOVE_CM), 1 / MOVE_STEP_CM);
      setTried((now) => ({ ...now, delayMs: null, moveCm: moveCm === 0 ? null : moveCm }));
    },
    setTrimDb: (db) => void setTried((now) => ({ ...now, trimDb: to(within(db, MOST_TRIM_DB), 1 / TRIM_STEP_DB) })),
    take: ({ invertB, delayMs, moveCm }) => void setTried({ invertB, delayMs, moveCm, trimDb: 0 }),
    band,
    setBand: (n) => void setBand(n),
  };
}
