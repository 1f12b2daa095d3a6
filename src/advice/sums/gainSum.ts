/** What A+B gains, from how alike the two are: the one sum behind gains on the meter, on a sheet and of a take. */
import { POWER_SUM_DB, sumDbFromCoherency } from '../../reading/acoustics';
import { gainText } from '../../text/level';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum } from '../../text/sum';

export const ADDING =
  'Two signals of equal power add up to 1 + Re γ times their power together: the law of cosines. Two equal tones: Audio Engineering: Know It All, table 2.9.';

/** A+B of two at equal level. */
export interface Level {
  /** Re γ, −1…1 */
  re: number;
  /** dB re the two unrelated */
  db: number;
}

/** @param re Re γ; null: it isn't carried */
export const levelOf = (re: number | null): Level | null => (re === null ? null : { re, db: sumDbFromCoherency(re) });

/** The same of a level that was kept, dB. */
export const levelFromDb = (db: number | null): Level | null => (db === null ? null : { re: 10 ** (db / 10) - 1, db });

/** As many decimals as a level to 0.01 dB takes: more where little is left of the sum. @returns the size of γ */
const alikeText = (re: number): string =>
  fixed(Math.abs(re), 3 + Math.min(3, Math.max(0, Math.ceil(-Math.log10(Math.max(1 - Math.abs(re), 1e-9))))));
const sign = (re: number): string => (re < 0 ? '−' : '+');
const dbText = (db: number): string => `${signed(db, 2)} dB`;
const known = <T>(value: T | null, show: (value: T) => string): string => (value === null ? NO_VALUE : show(value));
const alike = (level: Level | null): string => known(level, ({ re }) => `${sign(re)}${alikeText(re)}`);
/** as beside the sum's plot: re one microphone alone */
const alone = ({ db }: Level): string => dbText(db + POWER_SUM_DB);
const worked = (level: Level): string => `10 · lg(2 · (1 ${sign(level.re)} ${alikeText(level.re)})) = ${alone(level)}`;

/** @param band where the two are compared: "there" @param now, done as they are, and once what is told is done; null: not carried */
export function gainSum<Id extends string>(
  id: Id,
  name: string,
  band: string,
  now: Level | null,
  done: Level | null,
): Sum & { id: Id } {
  const gainDb = now === null || done === null ? null : done.db - now.db;
  return {
    id,
    name,
    formula: 'L = 10 · lg(2 · (1 + Re γ)),  gain = L′ − L',
    inputs: [
      { symbol: 'γ', is: `how alike A and B are ${band} now, −1 … +1`, value: alike(now) },
      { symbol: 'L', is: 'A+B now, against one mic alone', value: known(now, alone) },
      { symbol: 'γ′', is: 'how alike once it’s done', value: alike(done) },
      { symbol: 'L′', is: 'A+B then', value: known(done, alone) },
    ],
    worked:
      now === null || done === null || gainDb === null
        ? null
        : `L = ${worked(now)}\nL′ = ${worked(done)}\ngain = ${dbText(gainDb)}, shown as ${gainText(gainDb)}`,
    result: gainDb,
    note: 'A and B at equal level, so that louder isn’t taken for better: +6 dB where they are one, +3 dB where they are unrelated.',
    source: ADDING,
  };
}

/** By how much A+B is fuller one way than the other. @param re Re γ in the drum’s low octave; null: not carried */
export function fullerSum<Id extends string>(id: Id, octave: string, re: number | null): Sum & { id: Id } {
  const db = re === null ? null : Math.abs(sumDbFromCoherency(re) - sumDbFromCoherency(-re));
  return {
    id,
    name: `Fuller in the low octave${octave}`,
    formula: 'x = |10 · lg((1 + Re γ) ÷ (1 − Re γ))|',
    inputs: [
      { symbol: 'γ', is: 'how alike A and B are there, −1 … +1', value: known(re, (x) => `${sign(x)}${alikeText(x)}`) },
    ],
    worked:
      re === null || db === null
        ? null
        : `|10 · lg((1 ${sign(re)} ${alikeText(re)}) ÷ (1 ${sign(-re)} ${alikeText(re)}))| = ${fixed(db, 2)} dB`,
    result: db,
    note: 'γ above 0: fuller as it is; below 0: with one of the two inverted. A and B at equal level.',
    source: ADDING,
  };
}
