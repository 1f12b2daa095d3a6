/** What one drum's readings say together: three that don't close, and each mic's delay against the drum's reference. */
import { fixed, signed } from '../../text/number';
import type { Sum, SumInput } from '../../text/sum';
import { labelOf, pairTitle } from '../document/labels';
import type { KitSheet, Pair } from '../document/model';
import { type DrumReadings, type DrumSystem, drumReadings } from '../kit/drumSystem';
import { solveDelays } from '../network/delays';
import { below } from './below';
import { closureNumber, sumIdOf } from './sumPlace';

type Reading = DrumReadings['timed'][number];

const ms = (value: number): string => `${signed(value, 3)} ms`;
const within = (value: number): string => `±${fixed(value, 3)} ms`;

const inputOf = (sheet: KitSheet, { pair, delayMs, uncertaintyMs }: Reading, n: number): SumInput[] => [
  { symbol: `t${below(n)}`, is: `delay of ${labelOf(sheet, pair.a)} to ${labelOf(sheet, pair.b)}`, value: ms(delayMs) },
  { symbol: `u${below(n)}`, is: 'its 90 %', value: within(uncertaintyMs) },
];

/** "0.6667 · x", "x": a factor of one isn't told */
const times = (factor: number, x: string): string => (factor === 1 ? x : `${fixed(factor, 4)} · ${x}`);

/** "t₁ + t₂ − 0.5 · t₃" */
function added(factors: readonly number[], show: (i: number) => string): string {
  return factors
    .map((factor, i) => {
      const term = times(Math.abs(factor), show(i));
      if (i === 0) return factor < 0 ? `−${term}` : term;
      return `${factor < 0 ? '−' : '+'} ${term}`;
    })
    .join(' ');
}

const rooted = (factors: readonly number[], show: (i: number) => string): string =>
  `√(${factors.map((factor, i) => (Math.abs(factor) === 1 ? `${show(i)}²` : `(${fixed(Math.abs(factor), 4)} · ${show(i)})²`)).join(' + ')})`;

/** As it stands in a sum: a negative one in brackets. */
const bracketed = (value: number): string => (value < 0 ? `(${fixed(value, 3)})` : fixed(value, 3));

export function closureSums(sheet: KitSheet, { drum, open }: DrumSystem): Sum[] {
  const { timed } = drumReadings(sheet, drum);
  return open.map(({ pairs, signs, errorMs, uncertaintyMs }, n): Sum => {
    const read = pairs.map((id) => timed.find(({ pair }) => pair.id === id) as Reading);
    const of = (i: number): Reading => read[i] as Reading;
    return {
      id: sumIdOf({ kind: 'drum', of: drum, number: closureNumber(n) }),
      name: `Closure: ${read.map(({ pair }) => pairTitle(sheet, pair)).join(', ')}`,
      formula: `e = ${added(signs, (i) => `t${below(i + 1)}`)},  u = ${rooted(signs, (i) => `u${below(i + 1)}`)}`,
      inputs: read.flatMap((one, i) => inputOf(sheet, one, i + 1)),
      worked: `e = ${added(signs, (i) => bracketed(of(i).delayMs))} = ${ms(errorMs)}\nu = ${rooted(signs, (i) => fixed(of(i).uncertaintyMs, 3))} = ${within(uncertaintyMs)}`,
      result: errorMs,
      note: 'Round three mics the delays add up to nothing. Off by more than u, they can’t all be right.',
      source: 'Arithmetic; errors that have nothing to do with each other add up as squares.',
    };
  });
}

/** Of every mic that readings lead to, but the reference. */
export function referenceDelaySums(sheet: KitSheet, { drum, delays, reference }: DrumSystem): Sum[] {
  const { timed, ids, reference: fixedAt } = drumReadings(sheet, drum);
  if (reference === null || fixedAt === null) return [];
  // a delay is a sum of the readings: what each counts is what the network makes of it alone
  const alone = timed.map((_, i) =>
    solveDelays(
      ids.length,
      timed.map((one, j) => ({ ...one, delayMs: i === j ? 1 : 0 })),
      fixedAt,
    ),
  );
  return delays.flatMap(({ microphone, delayMs, uncertaintyMs }): Sum[] => {
    if (microphone === reference || delayMs === null) return [];
    const m = ids.indexOf(microphone);
    const counted = timed.flatMap((one, i) => {
      const factor = alone[i]?.delayMs[m] ?? 0;
      return Math.abs(factor) < 1e-9
        ? []
        : [{ one, factor: Math.abs(Math.abs(factor) - 1) < 1e-9 ? Math.sign(factor) : factor }];
    });
    const factors = counted.map(({ factor }) => factor);
    const of = (i: number): Reading => counted[i]?.one as Reading;
    const known =
      uncertaintyMs === null
        ? ''
        : `\nu = ${rooted(factors, (i) => fixed(of(i).uncertaintyMs, 3))} = ${within(uncertaintyMs)}`;
    return [
      {
        id: sumIdOf({ kind: 'drum', of: drum, number: microphone }),
        name: `Delay of ${labelOf(sheet, microphone)} against ${labelOf(sheet, reference)}`,
        formula: `t = ${added(factors, (i) => `t${below(i + 1)}`)}${known === '' ? '' : `,  u = ${rooted(factors, (i) => `u${below(i + 1)}`)}`}`,
        inputs: counted.flatMap(({ one }, i) => inputOf(sheet, one, i + 1)),
        worked: `t = ${added(factors, (i) => bracketed(of(i).delayMs))} = ${ms(delayMs)}${known}`,
        result: delayMs,
        note:
          timed.length >= ids.length
            ? 'All readings of the drum together; one counts the more, the more accurate it is. A reading without an accuracy counts as ±0.2 ms.'
            : 'From reading to reading; none checks another. A reading without an accuracy counts as ±0.2 ms.',
        source: 'Weighted least squares, weights 1 ÷ u², as levelling networks are adjusted.',
      },
    ];
  });
}

/** The sums of a pair's triangles that don't close. */
export const closuresOf = (sheet: KitSheet, drums: readonly DrumSystem[], { id }: Pair): Sum[] =>
  drums.flatMap((drum) => closureSums(sheet, drum).filter((_, n) => drum.open[n]?.pairs.includes(id)));
