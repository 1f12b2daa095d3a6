/** How the bench’s numbers come about. */
import { speedOfSound } from '../../reading/acoustics';
import { hzText } from '../../text/frequency';
import { fixed, signed } from '../../text/number';
import type { Sum } from '../../text/sum';
import { type BenchFigures, firstNotchHz } from '../bench/figures';
import type { Bench } from '../bench/model';

const EVEREST = 'F. A. Everest, K. C. Pohlmann, Master Handbook of Acoustics, ch. 10.';
const cm = (value: number): string => `${fixed(value, 1)} cm`;
const ms = (value: number): string => `${signed(value, 3)} ms`;

/** One for each of the figures in the row, by the same ids. */
export function benchSums(bench: Bench, figures: BenchFigures): Sum[] {
  return [
    pathSum(figures),
    delaySum(bench, figures),
    notchSum(figures),
    pushSum(figures),
    ...(bench.levels === 'distance' ? [levelSum(figures)] : []),
  ];
}

function pathSum({ a, b, pathCm }: BenchFigures): Sum {
  return {
    id: 'path',
    name: 'Path',
    formula: 's = path to B − path to A',
    inputs: [
      { symbol: 'A', is: 'from where the drum is hit straight to A’s capsule', value: cm(a.pathCm) },
      { symbol: 'B', is: 'to B’s capsule', value: cm(b.pathCm) },
    ],
    worked: `${cm(b.pathCm)} − ${cm(a.pathCm)} = ${signed(pathCm, 1)} cm`,
    result: pathCm,
    note: 'Positive: B hears the hit later. What counts is the capsule, not the grille.',
    source: 'Geometry.',
  };
}

function delaySum({ a, b, temperatureC }: Bench, { pathCm, delayMs }: BenchFigures): Sum {
  const c = speedOfSound(temperatureC);
  const mix = b.mixDelayMs - a.mixDelayMs;
  return {
    id: 'delay',
    name: 'Delay',
    formula: mix === 0 ? 't = s ÷ c' : 't = s ÷ c + d',
    inputs: [
      { symbol: 's', is: 'path: how much further B is than A', value: `${signed(pathCm, 1)} cm` },
      {
        symbol: 'c',
        is: `speed of sound at ${fixed(temperatureC, 0)} °C: 331.3 · √(1 + T ÷ 273.15)`,
        value: `${fixed(c, 1)} m/s`,
      },
      ...(mix === 0 ? [] : [{ symbol: 'd', is: 'delay of B against A in the mix', value: ms(mix) }]),
    ],
    worked: `${signed(pathCm, 1)} cm ÷ ${fixed(c, 1)} m/s${mix === 0 ? '' : ` ${mix < 0 ? '−' : '+'} ${fixed(Math.abs(mix), 3)} ms`} = ${ms(delayMs)}`,
    result: delayMs,
    note: null,
    source:
      'Speed of sound: dry air as an ideal gas, within 0.8 m/s of O. Cramer, J. Acoust. Soc. Am. 93 (1993), 0–30 °C.',
  };
}

function notchSum(figures: BenchFigures): Sum {
  const hz = firstNotchHz(figures);
  const inverted = figures.polarity === 'inverted';
  const size = Math.abs(figures.delayMs);
  return {
    id: 'notch',
    name: 'Notches',
    formula: inverted ? 'f = k ÷ |t|,  k = 0, 1, 2 …' : 'f = (2k + 1) ÷ (2 · |t|),  k = 0, 1, 2 …',
    inputs: [
      { symbol: 't', is: 'delay', value: ms(figures.delayMs) },
      { symbol: '', is: 'first pushes', value: figures.polarity },
    ],
    worked:
      hz === null
        ? null
        : `${inverted ? '0 Hz, and ' : ''}1 ÷ (${inverted ? '' : '2 · '}${fixed(size, 3)} ms) = ${hzText(hz)}`,
    result: hz,
    note: inverted
      ? 'Inverted, the notches lie where the peaks were: at 0 Hz, at that, and at 2, 3, 4 … times that.'
      : 'The next ones at 3, 5, 7 … times that.',
    source: EVEREST,
  };
}

function pushSum({ a, b, polarity }: BenchFigures): Sum {
  const way = (push: 1 | -1): string => (push > 0 ? 'up' : 'down');
  const side = (of: BenchFigures['a']): string => (of.side === 'hit' ? 'the side that is hit' : 'the other side');
  return {
    id: 'polarity',
    name: 'First pushes',
    formula: 'same = both up, or both down',
    inputs: [
      { symbol: 'A', is: `on ${side(a)}, its switch counted`, value: way(a.push) },
      { symbol: 'B', is: `on ${side(b)}, its switch counted`, value: way(b.push) },
    ],
    worked: `${way(a.push)}, ${way(b.push)}: ${polarity}`,
    result: a.push * b.push,
    note: 'The head goes away from the side that is hit: down there, up on the other.',
    source: 'Geometry; mics wired alike, pin 2 positive (IEC 60268-12, from memory).',
  };
}

function levelSum({ a, b, ratio, levelDifferenceDb, peakDb, notchDb }: BenchFigures): Sum {
  return {
    id: 'level',
    name: 'Level by distance',
    formula: 'L = −20 · lg(r),  peak 20 · lg(1 + 1 ÷ r),  notch 20 · lg(1 − 1 ÷ r)',
    inputs: [
      {
        symbol: 'r',
        is: `longer path over the shorter: ${cm(Math.max(a.pathCm, b.pathCm))} ÷ ${cm(Math.min(a.pathCm, b.pathCm))}`,
        value: fixed(ratio, 2),
      },
    ],
    worked:
      ratio > 1
        ? `L = ${signed(-Math.abs(levelDifferenceDb), 1)} dB\npeak ${signed(peakDb, 1)} dB\nnotch ${signed(notchDb, 1)} dB`
        : null,
    result: ratio > 1 ? levelDifferenceDb : null,
    note: 'Peak and notch re the louder mic alone. At 3 : 1 the ripple is +2.5 and −3.5 dB; for a dip of 1 dB it takes 9.2 : 1.',
    source: `1/r law; ${EVEREST}`,
  };
}
