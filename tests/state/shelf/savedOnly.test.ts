/** "Saved" is said only of what is in the database: it is full, cleared from outside, removed elsewhere, or its store is gone. */
import 'fake-indexeddb/auto';
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { deleteDB, openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { changeSheet, recordPair } from '../../../src/sheet/document/edits';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { type Keeper, memoryKeeper } from '../../../src/state/settings/keeper';
import { createKitShelf, type KitShelf } from '../../../src/state/shelf/kitShelf';
import type { Persistence } from '../../../src/state/shelf/lasting';
import { SheetStore } from '../../../src/state/shelf/sheetStore';
import { TAKEN } from '../../support/readings/taken';

let made = 0;
const stores: SheetStore[] = [];
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(async () => {
  vi.restoreAllMocks();
  for (const store of stores.splice(0)) await store.close();
});

async function opened(persistence: Persistence | null = null, keeper: Keeper = memoryKeeper()): Promise<KitShelf> {
  const store = new SheetStore();
  stores.push(store);
  const now = () => new Date(Date.UTC(2026, 0, 2));
  const shelf = createKitShelf({ store, keeper, persistence, newId: () => `kit-${++made}`, now });
  await shelf.begin();
  shelf.create('four', 'Quay');
  await shelf.settled();
  return shelf;
}

const rename = (name: string) => (sheet: KitSheet) => changeSheet(sheet, { name });
const measured = (sheet: KitSheet): KitSheet => {
  const [pair] = sheet.pairs as [Pair];
  return recordPair(sheet, pair.id, { ...pair, before: TAKEN });
};
/** What another page that opens the database now finds. */
async function kept(): Promise<string[]> {
  const store = new SheetStore();
  stores.push(store);
  const list = await store.list();
  return 'problem' in list ? [list.problem] : list.map(({ name }) => name);
}

describe('site data cleared under the open kit', () => {
  test('the database removed from outside: said, and what is open is saved again', async () => {
    const keeper = memoryKeeper();
    const shelf = await opened(null, keeper);
    keeper.set('kit', '');
    await deleteDB('crosshead-kits');
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['stored', expect.stringMatching(/was cleared.*saved again/)]);
    expect(await kept()).toEqual(['Quay']);
    expect(keeper.get('kit')).toBe(shelf.sheet()?.id);
    // and from then on it is a kit like any other; the sentence stays until it is closed
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([await kept(), shelf.storing(), shelf.conflict()]).toEqual([['Loft'], 'stored', false]);
    expect(shelf.trouble()).toMatch(/was cleared/);
  });

  test('with a change that waits: the newest is what is saved', async () => {
    const shelf = await opened();
    shelf.change(rename('Loft'));
    await deleteDB('crosshead-kits');
    await shelf.settled();
    expect([await kept(), shelf.storing()]).toEqual([['Loft'], 'stored']);
  });

  test('and nothing can be saved any more: not said to be saved', async () => {
    const shelf = await opened();
    const allowed = globalThis.indexedDB;
    const remove = allowed.deleteDatabase('crosshead-kits');
    globalThis.indexedDB = {
      open: () => {
        throw new DOMException('not allowed', 'SecurityError');
      },
    } as unknown as IDBFactory;
    await new Promise((resolve) => {
      remove.onsuccess = resolve;
    });
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['not-stored', expect.stringContaining('Export the sheet')]);
  });

  test('the store of kits gone from the database: made again, and the kit is saved', async () => {
    const shelf = await opened();
    await deleteDB('crosshead-kits');
    await shelf.settled();
    for (const store of stores.splice(0)) await store.close();
    await deleteDB('crosshead-kits');
    const bare = await openDB('crosshead-kits', 1, { upgrade: (db) => void db.createObjectStore('other') });
    bare.close();
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), await kept()]).toEqual(['stored', ['Loft']]);
  });
});

describe('removed in another tab', () => {
  test('noticed when this one is looked at again: no longer said to be saved, and saved again by a change', async () => {
    const shelf = await opened();
    const other = new SheetStore();
    stores.push(other);
    await other.remove(shelf.sheet()?.id as string);
    await shelf.lookAgain();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['not-stored', expect.stringContaining('removed this kit')]);
    expect(await kept()).toEqual([]);
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), await kept()]).toEqual(['stored', ['Loft']]);
  });

  test('noticed though nobody comes back to this one: what is said to be saved is looked for', async () => {
    const shelf = await opened();
    await shelf.lookWhetherSaved();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['stored', '']);
    const other = new SheetStore();
    stores.push(other);
    await other.remove(shelf.sheet()?.id as string);
    await shelf.lookWhetherSaved();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['not-stored', expect.stringContaining('removed this kit')]);
  });
});

describe('a full disk', () => {
  test('that is told only when the save is committed: called full, and nothing is said to be saved', async () => {
    const shelf = await opened();
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore) {
      // the request goes well, the transaction doesn't
      const request = this.get('nothing');
      const { transaction } = this;
      Object.defineProperty(transaction, 'error', { value: new DOMException('no room', 'QuotaExceededError') });
      request.addEventListener('success', () => transaction.abort());
      return request as unknown as ReturnType<IDBObjectStore['put']>;
    });
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble()]).toEqual([
      'not-stored',
      expect.stringMatching(/full.*isn’t saved.*Export/),
    ]);
    put.mockRestore();
    expect(await kept()).toEqual(['Quay']);
    // there is room again: looked at again, it is saved
    await shelf.lookAgain();
    expect([shelf.storing(), shelf.trouble(), await kept()]).toEqual(['stored', '', ['Loft']]);
  });

  test.each([0, 4096])('an error without a name where %d bytes are left is one as well', async (left) => {
    vi.stubGlobal('navigator', { storage: { estimate: async () => ({ quota: 1e6, usage: 1e6 - left }) } });
    const shelf = await opened();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('internal error', 'UnknownError');
    });
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble()]).toEqual(['not-stored', expect.stringContaining('full')]);
    vi.unstubAllGlobals();
  });
});

describe('how long the browser keeps it', () => {
  const asked = (before: boolean, answer: boolean | Error) => {
    const persist = vi.fn(async () => {
      if (answer instanceof Error) throw answer;
      return answer;
    });
    return { persist, persisted: async () => before };
  };

  test.each([
    [false, true, 'kept', 1],
    [false, false, 'may-be-cleared', 1],
    [false, new Error('no'), 'may-be-cleared', 1],
    [true, false, 'kept', 0],
  ] as const)('kept before: %s, answer %s: %s', async (before, answer, lasting, calls) => {
    const persistence = asked(before, answer);
    const shelf = await opened(persistence);
    shelf.change(rename('Loft'));
    await shelf.settled();
    // nothing was measured yet: nobody would miss it, and nobody is asked
    expect([persistence.persist.mock.calls.length, shelf.lasting()]).toEqual([0, 'unknown']);
    shelf.change(measured);
    await shelf.settled();
    shelf.change(rename('Boat house'));
    await shelf.settled();
    expect([persistence.persist.mock.calls.length, shelf.lasting()]).toEqual([calls, lasting]);
  });

  test('a browser that doesn’t say: nothing is said', async () => {
    const shelf = await opened(null);
    shelf.change(measured);
    await shelf.settled();
    expect(shelf.lasting()).toBe('unknown');
  });
});
