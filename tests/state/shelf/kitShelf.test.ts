import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, test } from 'vitest';
import { changeMicrophone, changeSheet, recordPair } from '../../../src/sheet/document/edits';
import { readSheet } from '../../../src/sheet/document/file';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { type Keeper, memoryKeeper } from '../../../src/state/settings/keeper';
import { createKitShelf, type KitShelf, type Store } from '../../../src/state/shelf/kitShelf';
import { SheetStore } from '../../../src/state/shelf/sheetStore';
import { BROKEN } from '../../support/readings/brokenSheets';
import { TAKEN } from '../../support/readings/taken';

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

let made = 0;
function shelfOn(store: Store = new SheetStore(), keeper: Keeper = memoryKeeper()): KitShelf {
  return createKitShelf({ store, keeper, newId: () => `kit-${++made}`, now: () => new Date(Date.UTC(2026, 0, 2)) });
}

async function opened(keeper = memoryKeeper()): Promise<KitShelf> {
  const shelf = shelfOn(new SheetStore(), keeper);
  await shelf.begin();
  shelf.create('four', 'Quay');
  await shelf.settled();
  return shelf;
}

const rename = (name: string) => (sheet: KitSheet) => changeSheet(sheet, { name });
const open = (shelf: KitShelf): KitSheet => shelf.sheet() as KitSheet;

describe('kept as you go', () => {
  test('every change is stored, and open again after the page was loaded anew', async () => {
    const keeper = memoryKeeper();
    const shelf = await opened(keeper);
    expect([shelf.storing(), shelf.kits().length, shelf.trouble()]).toEqual(['stored', 1, '']);
    shelf.change(rename('Boat house'));
    shelf.change((sheet) => changeMicrophone(sheet, 'kickOut', { inverted: true }));
    expect(shelf.storing()).toBe('storing');
    await shelf.settled();
    const again = shelfOn(new SheetStore(), keeper);
    await again.begin();
    expect(again.sheet()).toEqual(shelf.sheet());
    expect(again.kits()[0]?.name).toBe('Boat house');
  });

  test('several kits side by side; the newest first; removing one leaves the others', async () => {
    const shelf = await opened();
    const [first] = shelf.kits();
    shelf.create('two', 'Loft');
    await shelf.settled();
    expect(shelf.kits()).toHaveLength(2);
    await shelf.remove(open(shelf).id);
    expect([shelf.sheet(), shelf.kits().map(({ id }) => id)]).toEqual([null, [first?.id]]);
    await shelf.open(first?.id as string);
    expect(open(shelf).name).toBe('Quay');
  });

  test('undo and redo are stored too; what the meter noted stays whatever is undone', async () => {
    const shelf = await opened();
    const [pair] = open(shelf).pairs as [Pair];
    shelf.change(rename('Loft'));
    shelf.note((sheet) => recordPair(sheet, pair.id, { ...pair, before: TAKEN }));
    shelf.undo();
    expect([open(shelf).name, open(shelf).pairs[0]?.before]).toEqual(['Quay', TAKEN]);
    expect([shelf.canUndo(), shelf.canRedo()]).toEqual([false, true]);
    shelf.redo();
    await shelf.settled();
    const again = shelfOn();
    await again.open(open(shelf).id);
    expect(again.sheet()).toEqual(shelf.sheet());
    expect(open(again).name).toBe('Loft');
  });
});

describe('two tabs on one kit', () => {
  async function two(): Promise<[KitShelf, KitShelf]> {
    const one = await opened();
    const other = shelfOn();
    await other.open(open(one).id);
    other.change(rename('theirs'));
    await other.settled();
    return [one, other];
  }

  test('the slower one overwrites nothing and says so; it can show what the other stored', async () => {
    const [one] = await two();
    one.change(rename('mine'));
    await one.settled();
    expect([one.conflict(), one.storing(), open(one).name]).toEqual([true, 'not-stored', 'mine']);
    one.change(rename('mine still'));
    await one.settled();
    expect(open(one).name).toBe('mine still');
    await one.takeTheirs();
    expect([one.conflict(), open(one).name]).toEqual([false, 'theirs']);
    one.change(rename('both'));
    await one.settled();
    expect([one.conflict(), one.storing()]).toEqual([false, 'stored']);
  });

  test('or keep its own as a copy: both are there', async () => {
    const [one] = await two();
    one.change(rename('mine'));
    await one.settled();
    one.keepAsCopy();
    await one.settled();
    expect(
      one
        .kits()
        .map(({ name }) => name)
        .sort(),
    ).toEqual(['mine, copy', 'theirs']);
    expect(one.conflict()).toBe(false);
  });

  test('a tab that has nothing of its own shows the other’s when it is looked at again', async () => {
    const [one] = await two();
    await one.lookAgain();
    expect(open(one).name).toBe('theirs');
  });
});

describe('storage that is refused', () => {
  const problem = { problem: 'The browser refuses. Export the sheet.' };
  const refusing: Store = {
    list: async () => problem,
    load: async () => problem,
    has: async () => problem,
    save: async () => problem,
    remove: async () => problem,
  };

  test('is said at once; the kit goes on and can be exported', async () => {
    const shelf = shelfOn(refusing);
    await shelf.begin();
    expect(shelf.trouble()).toBe(problem.problem);
    shelf.create('four', 'Quay');
    await shelf.settled();
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble(), open(shelf).name]).toEqual(['not-stored', problem.problem, 'Loft']);
    const read = readSheet(shelf.file() as string);
    expect(read).toEqual({ sheet: shelf.sheet() });
  });

  test('a kit that isn’t stored isn’t left by the way', async () => {
    const shelf = shelfOn(refusing);
    shelf.create('four', 'Quay');
    await shelf.settled();
    shelf.create('two', 'Loft');
    await shelf.settled();
    expect([open(shelf).name, shelf.trouble()]).toEqual(['Quay', expect.stringContaining('Export it')]);
    expect(await shelf.take(shelf.file() as string)).toContain('isn’t saved');
    await shelf.close();
    expect(open(shelf).name).toBe('Quay');
    await shelf.drop();
    expect(shelf.sheet()).toBeNull();
  });

  test('and that comes back stores what had waited', async () => {
    const store = new SheetStore();
    let down = true;
    const flaky: Store = {
      list: () => store.list(),
      load: (id) => store.load(id),
      has: (id) => store.has(id),
      save: async (sheet, basedOn) => (down ? problem : store.save(sheet, basedOn)),
      remove: (id) => store.remove(id),
    };
    const shelf = shelfOn(flaky);
    shelf.create('four', 'Quay');
    await shelf.settled();
    expect(shelf.storing()).toBe('not-stored');
    down = false;
    shelf.change(rename('Loft'));
    await shelf.settled();
    expect([shelf.storing(), shelf.trouble(), shelf.kits()[0]?.name]).toEqual(['stored', '', 'Loft']);
  });
});

describe('what is changed while the store is at work', () => {
  /** A store whose next answer waits for the test's word. */
  function gated(): Store & { gate(): void; open(): void } {
    const store = new SheetStore();
    let wait: Promise<void> = Promise.resolve();
    let release = (): void => undefined;
    const held = async <T>(work: () => Promise<T>): Promise<T> => {
      const found = await work();
      await wait;
      return found;
    };
    return {
      list: () => store.list(),
      load: (id) => held(() => store.load(id)),
      has: (id) => store.has(id),
      save: (sheet, basedOn) => held(() => store.save(sheet, basedOn)),
      remove: (id) => store.remove(id),
      gate() {
        wait = new Promise((resolve) => {
          release = resolve;
        });
      },
      open: () => release(),
    };
  }
  const tick = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

  test('opening another kit: the change is stored first, and nothing of it is lost', async () => {
    const store = gated();
    const shelf = shelfOn(store);
    shelf.create('four', 'Quay');
    await shelf.settled();
    const quay = open(shelf).id;
    shelf.create('two', 'Loft');
    await shelf.settled();
    store.gate();
    const opening = shelf.open(quay);
    await tick();
    shelf.change(rename('Loft, changed'));
    store.open();
    await opening;
    await shelf.settled();
    expect(open(shelf).name).toBe('Quay');
    expect(
      shelf
        .kits()
        .map(({ name }) => name)
        .sort(),
    ).toEqual(['Loft, changed', 'Quay']);
  });

  test('looking again while something is changed: a conflict is said, and what was changed stands', async () => {
    const store = gated();
    const shelf = shelfOn(store);
    shelf.create('four', 'Quay');
    await shelf.settled();
    const other = shelfOn();
    await other.open(open(shelf).id);
    other.change(rename('theirs'));
    await other.settled();
    store.gate();
    const looking = shelf.lookAgain();
    await tick();
    shelf.change(rename('mine'));
    store.open();
    await looking;
    await shelf.settled();
    expect([open(shelf).name, shelf.conflict()]).toEqual(['mine', true]);
  });

  test('a new kit while the one before is being stored: each has its own revision', async () => {
    const store = gated();
    const shelf = shelfOn(store);
    shelf.create('four', 'Quay');
    await shelf.settled();
    store.gate();
    shelf.change(rename('Quay, changed'));
    shelf.create('two', 'Loft');
    await tick();
    store.open();
    await shelf.settled();
    shelf.change(rename('Loft, changed'));
    await shelf.settled();
    expect([shelf.conflict(), shelf.storing(), open(shelf).name]).toEqual([false, 'stored', 'Loft, changed']);
    expect(shelf.kits()).toHaveLength(2);
  });

  test('a kit that another tab removed is stored again, and that is said', async () => {
    const shelf = await opened();
    await shelfOn().remove(open(shelf).id);
    shelf.change(rename('Quay still'));
    await shelf.settled();
    expect([shelf.storing(), shelf.conflict(), shelf.trouble()]).toEqual([
      'stored',
      false,
      expect.stringContaining('removed this kit'),
    ]);
    expect(shelf.kits().map(({ name }) => name)).toEqual(['Quay still']);
  });
});

describe('a file', () => {
  test('comes back equal once its kit is gone; beside it, as a copy', async () => {
    const shelf = await opened();
    const text = shelf.file() as string;
    const before = open(shelf);
    expect(await shelf.take(text)).toBe('');
    await shelf.settled();
    expect(open(shelf)).toEqual({ ...before, id: expect.any(String), name: 'Quay, copy' });
    expect(open(shelf).id).not.toBe(before.id);
    for (const { id } of shelf.kits()) await shelf.remove(id);
    expect(await shelf.take(text)).toBe('');
    await shelf.settled();
    expect(open(shelf)).toEqual(before);
    expect(shelf.kits()).toHaveLength(1);
  });

  test('that is broken, foreign or hostile, every one of fifty: the open kit and the stored ones stay as they were', async () => {
    const shelf = await opened();
    shelf.create('two', 'Loft');
    await shelf.settled();
    const [before, kits] = [open(shelf), shelf.kits()];
    for (const [name, text] of BROKEN) expect(await shelf.take(text), name).not.toBe('');
    await shelf.settled();
    expect([shelf.sheet(), shelf.kits(), shelf.storing()]).toEqual([before, kits, 'stored']);
    const again = shelfOn();
    await again.begin();
    expect(again.kits()).toEqual(kits);
  });

  test('that is broken: one sentence, the open kit and the stored ones as they were', async () => {
    const shelf = await opened();
    const [before, kits] = [open(shelf), shelf.kits()];
    const text = shelf.file() as string;
    expect(await shelf.take(text.slice(0, 400))).toContain('damaged');
    expect(await shelf.take('{"format":"other"}')).toContain('isn’t a kit sheet');
    await shelf.settled();
    expect([shelf.sheet(), shelf.kits()]).toEqual([before, kits]);
  });
});
