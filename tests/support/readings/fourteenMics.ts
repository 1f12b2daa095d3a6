/** A kit of fourteen microphones of which eight pairs were measured: with the readings of the example kit's pairs of the same kinds. */
import { readFileSync } from 'node:fs';
import { writeSheet } from '../../../src/sheet/document/file';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';

const EXAMPLE = new URL('../../../samples/kit/example-kit.json', import.meta.url);

export const exampleKit = (): KitSheet => (JSON.parse(readFileSync(EXAMPLE, 'utf8')) as { kit: KitSheet }).kit;

/** The starting point's pairs and one more; those of a kind that the example doesn't have are left unmeasured. */
export function fourteenMics(): KitSheet {
  const kit = sheetFrom(
    STARTS.find(({ id }) => id === 'fourteen') as (typeof STARTS)[number],
    'fourteen',
    'Fourteen mics',
  );
  const given = exampleKit().pairs;
  const measured = kit.pairs.map((pair): Pair => {
    const from = given.findIndex(({ kind, drum }) => kind === pair.kind && drum === pair.drum);
    const [one] = from < 0 ? [] : given.splice(from, 1);
    if (!one) return pair;
    const { before, after, done, acceptedAt } = one;
    return { ...pair, before, after, done, acceptedAt };
  });
  const both = given.find(({ kind }) => kind === 'both-sides-kick');
  if (!both) throw new Error('the example kit has no pair on both sides of a kick');
  const pairs = [...measured, { ...both, id: 'kickDriver-kickIn', a: 'kickDriver', b: 'kickIn' }];
  const inverted = pairs.flatMap(({ a, b, done }) =>
    done?.inverted === 'a' ? [a] : done?.inverted === 'b' ? [b] : [],
  );
  return {
    ...kit,
    pairs,
    microphones: kit.microphones.map((one) => ({ ...one, inverted: inverted.includes(one.id) })),
  };
}

/** As the page takes it. */
export const kitFile = (sheet: KitSheet): { name: string; mimeType: string; buffer: Buffer } => ({
  name: 'kit.json',
  mimeType: 'application/json',
  buffer: Buffer.from(writeSheet(sheet, '2026-05-09T14:00:00Z')),
});
