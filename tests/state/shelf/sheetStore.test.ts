import 'fake-indexeddb/auto';
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { changeMicrophone } from '../../../src/sheet/document/edits';
import type { KitSheet } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { SheetStore } from '../../../src/state/shelf/sheetStore';

const kit = (id: string, name = 'Quay'): KitSheet => sheetFrom(STARTS[4] as (typeof STARTS)[number], id, name);
let minute = 0;
const tab = (): SheetStore => new SheetStore(() => new Date(Date.UTC(2026, 0, 2, 3, minute++)));

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  minute = 0;
});
afterEach(() => vi.restoreAllMocks());

describe('kit sheets in the browser’s database', () => {
  test('several kits are kept, and there for the next tab, the newest first', async () => {
    const one = tab();
    expect(await one.save(kit('a', 'Quay'), 0)).toEqual({ revision: 1 });
    expect(await one.save(kit('b', 'Mill'), 0)).toEqual({ revision: 1 });
    const next = tab();
    expect(await next.load('a')).toEqual({ sheet: kit('a', 'Quay'), revision: 1 });
    expect(await next.list()).toMatchObject([
      { id: 'b', name: 'Mill' },
      { id: 'a', name: 'Quay' },
    ]);
    expect(await next.remove('a')).toBeNull();
    expect(await one.list()).toHaveLength(1);
    expect(await one.load('a')).toHaveProperty('problem');
  });

  test('two tabs on one kit: the second to save is told, and overwrites nothing', async () => {
    const [one, two] = [tab(), tab()];
    await one.save(kit('a'), 0);
    const mine = changeMicrophone(kit('a'), 'snareTop', { label: 'mine' });
    const theirs = changeMicrophone(kit('a'), 'snareTop', { label: 'theirs' });
    expect(await two.save(theirs, 1)).toEqual({ revision: 2 });
    expect(await one.save(mine, 1)).toEqual({ changedElsewhere: 2 });
    expect(await one.load('a')).toEqual({ sheet: theirs, revision: 2 });
    expect(await one.save(mine, 2)).toEqual({ revision: 3 });
  });

  test('many saves at once from two tabs: exactly one of each round gets through', async () => {
    const [one, two] = [tab(), tab()];
    await one.save(kit('a'), 0);
    for (let revision = 1; revision < 6; revision++) {
      const outcomes = await Promise.all([one, two, one, two].map((store) => store.save(kit('a'), revision)));
      expect(outcomes.filter((outcome) => 'revision' in outcome)).toEqual([{ revision: revision + 1 }]);
      expect(outcomes.filter((outcome) => 'changedElsewhere' in outcome)).toHaveLength(3);
    }
  });

  test('storage refused: a sentence, and it works again once it is allowed', async () => {
    const store = tab();
    const allowed = globalThis.indexedDB;
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('not allowed', 'SecurityError');
      },
    } as unknown as IDBFactory;
    const outcome = await store.save(kit('a'), 0);
    expect(outcome).toEqual({ problem: expect.stringMatching(/won’t save.*Export/) });
    expect(await store.list()).toHaveProperty('problem');
    globalThis.indexedDB = allowed;
    expect(await store.save(kit('a'), 0)).toEqual({ revision: 1 });
  });

  test('storage full: a sentence, and what was stored before stands', async () => {
    const store = tab();
    await store.save(kit('a'), 0);
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(await store.save(changeMicrophone(kit('a'), 'snareTop', { label: 'x' }), 1)).toEqual({
      problem: expect.stringMatching(/full.*Export/),
    });
    put.mockRestore();
    expect(await store.load('a')).toEqual({ sheet: kit('a'), revision: 1 });
    expect(await store.save(kit('a'), 1)).toEqual({ revision: 2 });
  });

  test('something else stored under a kit’s id is said, and left as it is', async () => {
    const store = tab();
    await store.save(kit('a'), 0);
    const db = await openDB('crosshead-kits');
    const broken = { id: 'a', name: 'Quay', revision: 4, savedAt: '', text: '{"format":"something else"}' };
    await db.put('kits', broken);
    expect(await store.load('a')).toEqual({ problem: expect.stringContaining('isn’t a kit sheet') });
    expect(await store.save(kit('a'), 1)).toEqual({ changedElsewhere: 4 });
    expect(await db.get('kits', 'a')).toEqual(broken);
    db.close();
  });

  test('a database of a newer page is said, and left as it is', async () => {
    const newer = await openDB('crosshead-kits', 9, { upgrade: (db) => void db.createObjectStore('other') });
    newer.close();
    expect(await tab().save(kit('a'), 0)).toEqual({ problem: expect.stringContaining('newer version') });
  });

  test('an older tab lets go of the database when a newer page asks for it', async () => {
    const old = tab();
    await old.save(kit('a'), 0);
    const newer = await openDB('crosshead-kits', 2);
    expect(await newer.count('kits' as never)).toBe(1);
    newer.close();
  });
});
