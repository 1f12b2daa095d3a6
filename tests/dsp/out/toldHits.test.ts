/** Which hits a reading tells of one by one. */
import { expect, it } from 'vitest';
import { ToldHits } from '../../../src/dsp/out/toldHits';
import { named } from '../../support/rules/named';
import { hitStore, type MadeHit, times } from '../../support/rules/rules';

const of = (drum: number, n: number): MadeHit[] => times(n, { drum });
const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

it.each(
  named([
    { name: 'none', hits: [], shown: 1, serials: [] },
    { name: 'all of few', hits: [...of(1, 3), ...of(0, 4)], shown: 1, serials: range(1, 7) },
    { name: 'the newest 32 of one drum', hits: of(0, 40), shown: 0, serials: range(9, 40) },
    {
      name: 'the newest 32 while none is shown',
      hits: [...of(1, 12), ...of(-1, 40)],
      shown: -1,
      serials: range(21, 52),
    },
    {
      name: 'twelve of the shown drum, and the newest 20 of others',
      hits: [...of(1, 12), ...of(0, 40)],
      shown: 1,
      serials: [...range(1, 12), ...range(33, 52)],
    },
    {
      name: 'of the shown drum the newest sixteen that its answer may rest on',
      hits: [...of(1, 20), ...of(0, 40)],
      shown: 1,
      serials: [...range(5, 20), ...range(45, 60)],
    },
    {
      name: 'those of it that are among the newest anyway, and no others in their place',
      hits: [...of(1, 10), ...of(0, 20), ...of(1, 10)],
      shown: 1,
      serials: [...range(5, 10), ...range(15, 40)],
    },
  ]),
)('%s', (_, { hits, shown, serials }) => {
  const store = hitStore(hits);
  const told = new ToldHits();
  // with what was chosen before left in it
  told.choose(hitStore(of(3, 64)), 3);
  told.choose(store, shown);
  expect(Array.from(told.slots.subarray(0, told.count), (s) => store.serial[s])).toEqual(serials);
});
