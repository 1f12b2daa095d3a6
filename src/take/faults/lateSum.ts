/** How it comes about by how much a track is late. */
import { fixed, signed } from '../../text/number';
import type { Sum } from '../../text/sum';
import { stemOf } from '../names';
import { type Late, lateBy } from './late';

export function lateSum(id: string, one: Late, sampleRate: number): Sum {
  const { least, most } = one;
  const n = lateBy(one);
  const samples = (x: number): string => `${signed(x, 1)} samples`;
  return {
    id,
    name: `How late ${stemOf(one.late)} is`,
    formula: 'n = |a + z| ÷ 2,  t = n ÷ f',
    inputs: [
      {
        symbol: 'a',
        is: `delay between ${stemOf(one.late)} and ${stemOf(one.other)}, of the drum with the least`,
        value: samples(least),
      },
      { symbol: 'z', is: 'of the drum with the most', value: samples(most) },
      { symbol: 'f', is: 'sample rate', value: `${sampleRate} Hz` },
    ],
    worked: `n = |${signed(least, 1)} ${most < 0 ? '−' : '+'} ${fixed(Math.abs(most), 1)}| ÷ 2 = ${n} samples\nt = ${n} ÷ ${sampleRate} s = ${fixed((1000 * n) / sampleRate, 1)} ms`,
    result: n,
    note: 'Two overheads hear drums on either side earlier and later; halfway between them there should be next to nothing.',
    source:
      'Geometry. From how much on it counts as late: kits that were drawn by lot, none of whose sound overheads came so far.',
  };
}
