import { expect, test } from 'vitest';
import { createPart } from '../../../src/ui/parts/part';

/** A server under the test’s hand. */
function server<T>() {
  const asked: { give(program: T): void; refuse(): void }[] = [];
  const load = (): Promise<T> =>
    new Promise((resolve, reject) => asked.push({ give: resolve, refuse: () => reject(new TypeError('gone')) }));
  return { asked, load };
}

test('a part is asked for once, however often it is wanted, and is what was made of its program', async () => {
  const { asked, load } = server<{ n: number }>();
  let made = 0;
  const part = createPart('It', load, ({ n }) => ({ double: 2 * n, made: ++made }));
  expect([part.fate(), part.here()]).toEqual(['not-asked', null]);
  const [one, other] = [part.fetch(), part.fetch()];
  expect([part.fate(), asked.length]).toEqual(['loading', 1]);
  asked[0]?.give({ n: 4 });
  expect(await one).toEqual({ double: 8, made: 1 });
  expect(await other).toBe(await one);
  expect([part.fate(), part.here()]).toEqual(['here', await one]);
  expect(await part.fetch()).toBe(await one);
  expect([asked.length, made]).toEqual([1, 1]);
});

test('one that can’t be had is asked for again, and only when it is wanted again', async () => {
  const { asked, load } = server<{ n: number }>();
  const part = createPart('It', load);
  const first = part.fetch();
  asked[0]?.refuse();
  expect(await first).toBe(null);
  expect([part.fate(), part.missing(), part.here(), asked.length]).toEqual(['failed', true, null, 1]);
  const second = part.fetch();
  // what is said about it stays until it is here
  expect([part.fate(), part.missing()]).toEqual(['again', true]);
  asked[1]?.refuse();
  await second;
  const third = part.fetch();
  asked[2]?.give({ n: 1 });
  expect(await third).toEqual({ n: 1 });
  expect([part.fate(), part.missing(), asked.length]).toEqual(['here', false, 3]);
});

test('a fault in the part itself isn’t taken for a server that doesn’t answer', async () => {
  const { asked, load } = server<object>();
  const part = createPart('It', load, () => {
    throw new RangeError('a fault of its own');
  });
  const wanted = part.fetch();
  asked[0]?.give({});
  await expect(wanted).rejects.toThrow('a fault of its own');
  expect(part.here()).toBe(null);
});
