/**
 * The kits that are kept, and the one that is open: changes with undo, saved as they are made. A save that fails or that
 * another tab came before is said, and what is on the screen stays.
 */
import { batch, createSignal } from 'solid-js';
import { MOST_LABEL, readSheet, writeSheet } from '../../sheet/document/file';
import type { KitSheet } from '../../sheet/document/model';
import { STARTS, sheetFrom } from '../../sheet/document/starts';
import { did, type History, historyOf, redone, undone } from '../../sheet/document/undo';
import { createLasting } from './lasting';
import { kitLeftOpen, rememberOpenKit } from './leftOpen';
import type { StoredHead } from './sheetStore';
import type { KitShelf, KitShelfOptions, Storing } from './shelfTypes';

export type { KitShelf, Store } from './shelfTypes';

/** a kit that is changed while it is stored is stored again, so often at most before another takes its place */
const SAVE_TRIES = 3;
const REMOVED = 'Another tab removed this kit. It’s being saved here again.';
/** how long to wait before it is asked again, ms */
const AGAIN_MS = [50, 200, 800, 2000];
const REMOVED_THERE =
  'Another tab removed this kit, so it isn’t saved any more. Change something to save it again, or export it as a file.';
const CLEARED =
  'What this browser had saved for this page was cleared. The open kit is being saved again; any other kit is in its exported file only.';
/** These stay until somebody has read them. */
const STAYS: readonly string[] = [REMOVED, REMOVED_THERE, CLEARED];
const UNSTORED = 'The open kit isn’t saved. Export it as a file first, or close it without saving.';

export function createKitShelf({ store, keeper, persistence = null, newId, now }: KitShelfOptions): KitShelf {
  const { lasting, ask } = createLasting(persistence);
  const [history, setHistory] = createSignal<History<KitSheet> | null>(null);
  const [kits, setKits] = createSignal<StoredHead[]>([]);
  const [storing, setStoring] = createSignal<Storing>('stored');
  const [trouble, setTrouble] = createSignal('');
  const [conflict, setConflict] = createSignal(false);
  let revision = 0;
  let dirty = false;
  let work: Promise<void> = Promise.resolve();
  const sheet = (): KitSheet | null => history()?.present ?? null;

  /** One thing after the other: a save never overtakes a load. */
  function queue<T>(job: () => Promise<T>): Promise<T> {
    const result = work.then(job);
    work = result.then(
      () => undefined,
      () => undefined,
    );
    return result;
  }

  /** @returns false: it couldn't be read */
  async function readList(): Promise<boolean> {
    const found = await store.list();
    if ('problem' in found) setTrouble(found.problem);
    else setKits(found);
    return !('problem' in found);
  }

  /** The database was closed or removed from outside: what was saved may be gone, and is saved again. */
  async function whetherLost(): Promise<void> {
    // a browser that is clearing things lets nobody in until it is done
    for (const ms of AGAIN_MS) {
      if (!('problem' in (await store.list()))) break;
      await new Promise((resolve) => setTimeout(resolve, ms));
    }
    const isRead = await readList();
    const present = sheet();
    if (present === null || conflict()) return;
    if (!isRead) return void setStoring('not-stored');
    if (kits().some(({ id }) => id === present.id)) return;
    revision = 0;
    dirty = true;
    setTrouble(CLEARED);
    setStoring('storing');
    rememberOpenKit(keeper, present.id);
    await saveNow();
  }
  store.onLost = () => void queue(whetherLost);

  function show(next: KitSheet | null, at: number): void {
    batch(() => {
      revision = at;
      dirty = false;
      setHistory(next ? historyOf(next) : null);
      setConflict(false);
      setStoring('stored');
    });
    rememberOpenKit(keeper, next?.id ?? null);
  }

  async function load(id: string): Promise<{ next: KitSheet; at: number } | null> {
    const found = await store.load(id);
    if ('sheet' in found) return { next: found.sheet, at: found.revision };
    setTrouble(found.problem);
    return null;
  }

  async function saveNow(): Promise<void> {
    const present = sheet();
    if (!dirty || present === null || conflict()) return;
    dirty = false;
    const saved = await store.save(present, revision);
    // everything that shows another kit waits its turn behind this: the open kit is still the one that was saved
    if ('changedElsewhere' in saved && saved.changedElsewhere === 0 && revision > 0) {
      // another tab removed it: what is open here is a kit of its own from now on
      revision = 0;
      dirty = true;
      setTrouble(REMOVED);
      return saveNow();
    }
    if ('revision' in saved) {
      revision = saved.revision;
      batch(() => {
        setStoring(dirty ? 'storing' : 'stored');
        if (!STAYS.includes(trouble())) setTrouble('');
      });
      if (present.pairs.some(({ before }) => before !== null)) ask();
      await readList();
    } else {
      dirty = true;
      batch(() => {
        setStoring('not-stored');
        if ('problem' in saved) setTrouble(saved.problem);
        else setConflict(true);
      });
    }
  }

  function put(next: History<KitSheet>): void {
    if (next.present === sheet()) return void setHistory(next);
    setHistory(next);
    dirty = true;
    if (conflict()) return;
    setStoring('storing');
    void queue(saveNow);
  }

  /**
   * Another kit takes the open one's place, in its turn: `prepare` reads, then what is open is stored, then it is shown,
   * with nothing in between. A kit that can't be stored isn't left by the way: said, and true.
   * @returns false: refused, or nothing was prepared
   */
  function replace(prepare: () => Promise<{ next: KitSheet | null; at: number } | null>): Promise<boolean> {
    return queue(async () => {
      const prepared = await prepare();
      if (prepared === null) return false;
      // it may be changed while it is being stored
      for (let tries = 0; tries < SAVE_TRIES && dirty && !conflict(); tries++) await saveNow();
      if (sheet() !== null && dirty) {
        setTrouble(UNSTORED);
        return false;
      }
      showOrAdd(prepared.next, prepared.at);
      await saveNow();
      return true;
    });
  }

  function showOrAdd(next: KitSheet | null, at: number): void {
    show(next, at);
    if (next === null || at > 0) return;
    dirty = true;
    setStoring('storing');
  }

  function removedThere(): void {
    setTrouble(REMOVED_THERE);
    setStoring('not-stored');
  }

  /** Reads again what another tab may have changed. */
  async function look(): Promise<void> {
    const isRead = await readList();
    const present = sheet();
    if (!present || !isRead || conflict()) return;
    // there may be room again, or leave to save
    if (dirty) return saveNow();
    const stored = kits().find(({ id }) => id === present.id);
    if (!stored) return removedThere();
    if (stored.revision === revision) return;
    const found = await store.load(present.id);
    // what was changed meanwhile is met by its own save, as a conflict
    if ('sheet' in found && sheet() === present) show(found.sheet, found.revision);
  }

  const shelf: KitShelf = {
    sheet,
    kits,
    storing,
    lasting,
    trouble,
    conflict,
    canUndo: () => (history()?.past.length ?? 0) > 0,
    canRedo: () => (history()?.future.length ?? 0) > 0,
    async begin() {
      const last = kitLeftOpen(keeper);
      await queue(readList);
      const there = (): boolean => sheet() === null && kits().some(({ id }) => id === last);
      if (last) await replace(async () => (there() ? load(last) : null));
    },
    lookAgain: () => queue(look),
    lookWhetherSaved: () =>
      queue(async () => {
        const present = sheet();
        if (present === null || storing() !== 'stored' || conflict()) return;
        if ((await store.has(present.id)) !== true) await look();
      }),
    async open(id) {
      await replace(() => load(id));
    },
    create(startId, name) {
      const start = STARTS.find(({ id }) => id === startId);
      const title = name.slice(0, MOST_LABEL);
      const empty = { ...sheetFrom({ id: '', title: '', microphones: [] }, newId(), title), pairs: [], references: [] };
      void replace(async () => ({ next: start ? sheetFrom(start, newId(), title) : empty, at: 0 }));
    },
    async take(text) {
      const read = readSheet(text);
      if ('problem' in read) return read.problem;
      const taken = await replace(async () => {
        await readList();
        const there = kits().some(({ id }) => id === read.sheet.id);
        return { next: there ? { ...read.sheet, id: newId(), name: copyName(read.sheet.name) } : read.sheet, at: 0 };
      });
      return taken ? '' : UNSTORED;
    },
    change(edit) {
      const old = history();
      if (old) put(did(old, edit(old.present)));
    },
    note(edit) {
      const old = history();
      // what was read stays read whatever is undone
      if (old) put({ past: old.past.map(edit), present: edit(old.present), future: old.future.map(edit) });
    },
    undo() {
      const old = history();
      if (old) put(undone(old));
    },
    redo() {
      const old = history();
      if (old) put(redone(old));
    },
    remove: (id) =>
      queue(async () => {
        const result = await store.remove(id);
        if (result !== null) return void setTrouble(result.problem);
        if (sheet()?.id === id) show(null, 0);
        await readList();
      }),
    async close() {
      await replace(async () => ({ next: null, at: 0 }));
    },
    drop: () => queue(async () => show(null, 0)),
    takeTheirs: () =>
      queue(async () => {
        const present = sheet();
        const theirs = present && (await load(present.id));
        if (theirs) show(theirs.next, theirs.at);
      }),
    keepAsCopy: () =>
      queue(async () => {
        const present = sheet();
        if (!present) return;
        showOrAdd({ ...present, id: newId(), name: copyName(present.name) }, 0);
        await saveNow();
      }),
    dismissTrouble: () => void setTrouble(''),
    file() {
      const present = sheet();
      return present && writeSheet(present, now().toISOString());
    },
    async settled() {
      let before: Promise<void>;
      do {
        before = work;
        await before;
      } while (before !== work);
    },
  };
  return shelf;
}

const COPY = ', copy';

/** "Boat house, copy" */
const copyName = (name: string): string => `${name.slice(0, MOST_LABEL - COPY.length)}${COPY}`;
