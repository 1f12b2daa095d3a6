/** What is to be delayed in the mix: of one pair, and of a mic of the whole kit. */
import type { Alternative } from '../../advice/plan/alternatives';
import { roundDelayMs } from '../../reading/rounding';
import { samplesText, wholeSamples } from '../../text/count';
import { fixed, signed } from '../../text/number';
import type { Sum, SumInput } from '../../text/sum';
import { labelOf, pairTitle } from '../document/labels';
import type { KitSheet, Pair, Taken } from '../document/model';
import type { KitChoice } from '../kit/kitChoice';
import { sumIdOf } from './sumPlace';

/** delays are told to 0.01 ms: what is nearer is the same, ms */
const SAME_MS = 0.005;

const ms = (value: number, decimals = 2): string => `${signed(value, decimals)} ms`;
const plus = (value: number): string => `${value < 0 ? '−' : '+'} ${fixed(Math.abs(value), 2)} ms`;
const delayIn = (choice: KitChoice | null, id: string): number =>
  choice?.delays.find(({ microphone }) => microphone === id)?.delayMs ?? 0;

/** The same in samples of the session. */
function inSamples({ sampleRate }: KitSheet, symbol: string, delayMs: number): { input: SumInput; line: string } {
  return {
    input: { symbol: 'f', is: 'the session’s sample rate', value: `${sampleRate} Hz` },
    line: `n = |${symbol}| · f = ${samplesText(wholeSamples(delayMs, sampleRate))}`,
  };
}

/**
 * A pair's delay between its two: by its own arrival, by the sum near it, or as the mics' delays leave it.
 * @param action with a delay
 */
export function pairDelaySum(
  sheet: KitSheet,
  choice: KitChoice | null,
  pair: Pair,
  taken: Taken,
  action: Alternative,
): Sum {
  const delayMs = action.delayMs ?? 0;
  const samples = inSamples(sheet, 'd', delayMs);
  const who = `d above 0: ${labelOf(sheet, pair.a)} is delayed, below: ${labelOf(sheet, pair.b)}.`;
  const sum = (formula: string, inputs: SumInput[], worked: string, note: string): Sum => ({
    id: 'mix-delay',
    name: 'Delay in the mix',
    formula: `${formula},  n = |d| · f`,
    inputs: [...inputs, samples.input],
    worked: `d = ${worked} = ${ms(delayMs)}\n${samples.line}`,
    result: delayMs,
    note: `${who} ${note}`,
    source: 'Arithmetic; which delays are looked at, and which of them is worth it: this program’s rule.',
  });
  const arrival: SumInput = {
    symbol: 't',
    is: 'delay between the arrivals',
    value: taken.delayMs === null ? '' : ms(taken.delayMs, 3),
  };
  const [a, b] = [delayIn(choice, pair.a), delayIn(choice, pair.b)];
  if (taken.delayMs !== null && Math.abs(roundDelayMs(taken.delayMs, 0) - delayMs) < SAME_MS)
    return sum('d = t', [arrival], ms(taken.delayMs, 3), 'The arrivals meet.');
  const own = choice?.pairs.find((one) => one.pair === pair.id)?.own ?? null;
  if (own !== null && own !== action && Math.abs(a - b - delayMs) < SAME_MS)
    return sum(
      'd = Dᴀ − Dʙ',
      [
        { symbol: 'Dᴀ', is: `delay of ${labelOf(sheet, pair.a)}`, value: ms(a) },
        { symbol: 'Dʙ', is: `delay of ${labelOf(sheet, pair.b)}`, value: ms(b) },
      ],
      `${ms(a)} ${plus(-b)}`,
      'The two are delayed for other pairs too.',
    );
  const beside = taken.delayMs === null ? delayMs : delayMs - taken.delayMs;
  return sum(
    taken.delayMs === null ? 'd = x' : 'd = t + x',
    [
      ...(taken.delayMs === null ? [] : [arrival]),
      {
        symbol: 'x',
        is: taken.delayMs === null ? 'delay as it was decided' : 'beside the arrival, to where A+B is fuller',
        value: ms(beside, 3),
      },
    ],
    taken.delayMs === null
      ? ms(beside, 3)
      : `${ms(taken.delayMs, 3)} ${beside < 0 ? '−' : '+'} ${fixed(Math.abs(beside), 3)} ms`,
    'Of the delays within 1 ms of the arrival the fullest, or one that was told before and is still as good.',
  );
}

/** A mic's delay in the mix, from the other mic of a pair that it is delayed with. @returns null: it isn't delayed */
export function micDelaySum(sheet: KitSheet, choice: KitChoice, id: string): Sum | null {
  const delay = choice.delays.find(({ microphone }) => microphone === id);
  if (!delay) return null;
  const { delayMs } = delay;
  const samples = inSamples(sheet, 'D', delayMs);
  const ways = choice.pairs.flatMap(({ pair: pairId, gets }) => {
    const pair = sheet.pairs.find((one) => one.id === pairId);
    if (!pair || (pair.a !== id && pair.b !== id)) return [];
    const other = pair.a === id ? pair.b : pair.a;
    const byMs = (pair.a === id ? 1 : -1) * (gets.delayMs ?? 0) + 0;
    const otherMs = delayIn(choice, other);
    return Math.abs(otherMs + byMs - delayMs) < SAME_MS ? [{ pair, other, byMs, otherMs }] : [];
  });
  const way = ways.find(({ pair }) => delay.pairs.includes(pair.id)) ?? ways[0];
  return {
    id: sumIdOf({ kind: 'mic', of: id, number: 'mix-delay' }),
    name: 'Delay in the mix',
    formula: `${way ? 'D = D₁ + d,  ' : ''}n = |D| · f`,
    inputs: [
      ...(way
        ? [
            { symbol: 'D₁', is: `delay of ${labelOf(sheet, way.other)}`, value: ms(way.otherMs) },
            { symbol: 'd', is: `delay between ${pairTitle(sheet, way.pair)}`, value: ms(way.byMs) },
          ]
        : [{ symbol: 'D', is: 'what serves all pairs best together', value: ms(delayMs) }]),
      samples.input,
    ],
    worked: `D = ${way ? `${ms(way.otherMs)} ${plus(way.byMs)} = ` : ''}${ms(delayMs)}\n${samples.line}`,
    result: delayMs,
    note: 'Of the mics that are linked by readings the one that hears last isn’t delayed: the others wait for it. All delays and switches are chosen together, so that the pairs lose least of what each would have by itself.',
    source: 'Arithmetic; the choice: this program’s rule.',
  };
}
