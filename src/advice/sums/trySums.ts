/** How the figures of what is tried come about. */
import { delaySeconds, POWER_SUM_DB, speedOfSound, sumDbFromCoherency } from '../../reading/acoustics';
import { BANDS } from '../../reading/bands';
import type { Reading } from '../../reading/reading';
import { bandText } from '../../text/frequency';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum } from '../../text/sum';
import { NOTHING_TRIED, type Tried } from '../tryOut/tried';
import { reAfter, shiftSecondsOf, type TryContext, trimShare } from '../tryOut/tryOut';

const db = (value: number): string => `${signed(value, 1)} dB`;

function shiftSum({ delayMs, moveCm }: Tried, { temperatureC }: TryContext): Sum {
  const c = speedOfSound(temperatureC);
  const cm = moveCm ?? 0;
  const seconds = delayMs === null ? delaySeconds(cm, temperatureC) : delayMs / 1000;
  return {
    id: 'try-shift',
    name: 'How much earlier B comes',
    formula: delayMs === null ? 't = m ÷ c' : delayMs < 0 ? 't = −d' : 't = d',
    inputs:
      delayMs === null
        ? [
            { symbol: 'm', is: 'move of B, towards the drum', value: `${signed(cm, 1)} cm` },
            { symbol: 'c', is: `speed of sound at ${fixed(temperatureC, 1)} °C`, value: `${fixed(c, 1)} m/s` },
          ]
        : [
            {
              symbol: 'd',
              is: `delay of ${delayMs < 0 ? 'B' : 'A'} in the mix`,
              value: `${fixed(Math.abs(delayMs), 2)} ms`,
            },
          ],
    worked:
      delayMs === null
        ? `${signed(cm, 1)} cm ÷ ${fixed(c, 1)} m/s = ${signed(seconds * 1000, 3)} ms`
        : `t = ${signed(delayMs, 3)} ms`,
    result: seconds * 1000,
    note: delayMs === null ? 'As if B were moved straight along the line to the drum.' : 'Negative: B comes later.',
    source: 'Speed of sound: dry air as an ideal gas, within 0.8 m/s of O. Cramer, J. Acoust. Soc. Am. 93 (1993).',
  };
}

function bandSum(id: string, name: string, n: number, reading: Reading, context: TryContext, tried: Tried): Sum {
  // B as it comes in: the meter's own invert is taken out
  const level = (one: Tried): { re: number; db: number } | null => {
    const re = reAfter(reading.sum, n, shiftSecondsOf(one, context.temperatureC) * reading.sampleRate);
    if (re === null) return null;
    const as = (one.invertB === context.invertB ? 1 : -1) * re;
    return { re: as, db: sumDbFromCoherency(trimShare(one.trimDb) * as) + POWER_SUM_DB };
  };
  const [now, then] = [level(NOTHING_TRIED), level(tried)];
  const k = trimShare(tried.trimDb);
  const show = (one: { re: number } | null): string => (one === null ? NO_VALUE : signed(one.re, 3));
  const line = (one: { re: number; db: number }, share: number): string =>
    `10 · lg(2 · (1 ${one.re < 0 ? '−' : '+'} ${fixed(share, 3)} · ${fixed(Math.abs(one.re), 3)})) = ${db(one.db)}`;
  return {
    id,
    name: `Gain: ${name}`,
    formula: 'L = 10 · lg(2 · (1 + k · Re γ)),  k = 2g ÷ (1 + g²),  g = 10^(trim ÷ 20)',
    inputs: [
      { symbol: 'γ', is: 'how alike A and B are there now, −1 … +1', value: show(now) },
      { symbol: 'γ′', is: 'how alike with B shifted by t, and inverted if it is tried so', value: show(then) },
      { symbol: 'k', is: `what a trim of ${db(tried.trimDb)} leaves of it`, value: fixed(k, 3) },
    ],
    worked: now && then ? `L = ${line(now, 1)}\nL′ = ${line(then, k)}\ngain = ${db(then.db - now.db)}` : null,
    result: now && then ? then.db - now.db : null,
    note: 'γ′ comes from the same hits, laid on each other again with that delay. dB re one mic alone.',
    source:
      'The power of a sum of two, levels unlike: F. A. Everest, K. C. Pohlmann, Master Handbook of Acoustics, ch. 10.',
  };
}

/** In the order of the page's table, the shift first. */
export function trySums(reading: Reading, context: TryContext, tried: Tried): Sum[] {
  const names = ['low octave', 'overall', ...BANDS.map(({ lowHz, highHz }) => bandText(lowHz, highHz))];
  return [shiftSum(tried, context), ...names.map((name, n) => bandSum(`try-${n}`, name, n, reading, context, tried))];
}
