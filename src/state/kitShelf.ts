/**
 * The kits that are kept, and the one that is open: changes with undo, saved as they are made. A save that fails or that
 * another tab came before is said, and what is on the screen stays.
 */
import { type Accessor, batch, createSignal } from 'solid-js';
import { readSheet, writeSheet } from '../sheet/file';
import { did, type History, historyOf, redone, undone } from '../sheet/history';
import type { KitSheet } from '../sheet/model';
import { STARTS, sheetFrom } from '../sheet/starts';
import type { Loaded, Saved, StoredHead, StoreProblem } from './sheetStore';
import type { Keeper } from './storage';

/** What the shelf needs of the store (src/state/sheetStore.ts). */
export interface Store {
  list(): Promise<StoredHead[] | StoreProblem>;
  load(id: string): Promise<Loaded>;
  save(sheet: KitSheet, basedOn: number): Promise<Saved>;
  remove(id: string): Promise<null | StoreProblem>;
}

export interface KitShelf {
  /** the open kit; null: none */
  sheet: Accessor<KitSheet | null>;
  /** all that are kept, the newest first */
  kits: Accessor<StoredHead[]>;
  storing: Accessor<'stored' | 'storing' | 'not-stored'>;
  /** one sentence: what is wrong and what to do next; empty: nothing */
  trouble: Accessor<string>;
  /** another tab changed the open kit since it was loaded: nothing is stored until one of the two is chosen */
  conflict: Accessor<boolean>;
  canUndo: Accessor<boolean>;
  canRedo: Accessor<boolean>;
  /** reads the list, and opens the kit that was open last */
  begin(): Promise<void>;
  /** another tab may have changed things: reads again what can be read without losing anything */
  lookAgain(): Promise<void>;
  open(id: string): Promise<void>;
  /** a new kit from a starting point; an unknown one gives an empty kit */
  create(startId: string, name: string): void;
  /** a sheet from a file or from the example; one whose id is kept already becomes a copy. Empty: it is open now; else what is wrong */
  take(text: string): Promise<string>;
  change(edit: (sheet: KitSheet) => KitSheet): void;
  /** the same without a step to undo: what the meter notes by itself */
  note(edit: (sheet: KitSheet) => KitSheet): void;
  undo(): void;
  redo(): void;
  remove(id: string): Promise<void>;
  close(): void;
  /** after a conflict: what the other tab stored */
  takeTheirs(): Promise<void>;
  /** after a conflict: this tab's, as a kit of its own */
  keepAsCopy(): void;
  dismissTrouble(): void;
  /** the file as it would be stored now; null: no kit is open */
  file(): string | null;
  /** when everything that was begun is done: for tests, and before the page goes */
  settled(): Promise<void>;
}

export interface KitShelfOptions {
  store: Store;
  keeper: Keeper;
  newId(): string;
  now(): Date;
}

const OPEN_KIT = 'kit';
const UNSTORED = 'The open kit isn’t stored. Export it as a file first, or close it without storing.';
/** letters, as the file has it */
const NAME_LENGTH = 80;

export function createKitShelf({ store, keeper, newId, now }: KitShelfOptions): KitShelf {
  const [history, setHistory] = createSignal<History<KitSheet> | null>(null);
  const [kits, setKits] = createSignal<StoredHead[]>([]);
  const [storing, setStoring] = createSignal<'stored' | 'storing' | 'not-stored'>('stored');
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

  async function readList(): Promise<void> {
    const found = await store.list();
    if ('problem' in found) setTrouble(found.problem);
    else setKits(found);
  }

  function show(next: KitSheet | null, at: number): void {
    batch(() => {
      revision = at;
      dirty = false;
      setHistory(next ? historyOf(next) : null);
      setConflict(false);
      setStoring('stored');
    });
    keeper.set(OPEN_KIT, next?.id ?? '');
  }

  async function load(id: string): Promise<void> {
    const found = await store.load(id);
    if ('problem' in found) setTrouble(found.problem);
    else show(found.sheet, found.revision);
  }

  async function saveNow(): Promise<void> {
    const present = sheet();
    if (!dirty || present === null || conflict()) return;
    dirty = false;
    const saved = await store.save(present, revision);
    if ('revision' in saved) {
      revision = saved.revision;
      batch(() => {
        setStoring(dirty ? 'storing' : 'stored');
        setTrouble('');
      });
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

  /** A kit that couldn't be stored isn't left by the way: said, and true. */
  function wouldLose(): boolean {
    if (sheet() === null || storing() !== 'not-stored') return false;
    setTrouble(UNSTORED);
    return true;
  }

  function add(next: KitSheet): void {
    show(next, 0);
    dirty = true;
    setStoring('storing');
    void queue(saveNow);
  }

  const shelf: KitShelf = {
    sheet,
    kits,
    storing,
    trouble,
    conflict,
    canUndo: () => (history()?.past.length ?? 0) > 0,
    canRedo: () => (history()?.future.length ?? 0) > 0,
    begin: () =>
      queue(async () => {
        await readList();
        const last = keeper.get(OPEN_KIT);
        if (last && sheet() === null && kits().some(({ id }) => id === last)) await load(last);
      }),
    lookAgain: () =>
      queue(async () => {
        await readList();
        const present = sheet();
        const stored = kits().find(({ id }) => id === present?.id);
        if (present && stored && stored.revision !== revision && !dirty) await load(present.id);
      }),
    open: (id) => queue(async () => (wouldLose() ? undefined : load(id))),
    create(startId, name) {
      if (wouldLose()) return;
      const start = STARTS.find(({ id }) => id === startId);
      const id = newId();
      const title = name.slice(0, NAME_LENGTH);
      if (start) add(sheetFrom(start, id, title));
      else add({ ...sheetFrom({ id: '', title: '', microphones: [] }, id, title), pairs: [], references: [] });
    },
    take: (text) =>
      queue(async () => {
        const read = readSheet(text);
        if ('problem' in read) return read.problem;
        if (wouldLose()) return UNSTORED;
        await readList();
        const there = kits().some(({ id }) => id === read.sheet.id);
        add(there ? { ...read.sheet, id: newId(), name: copyName(read.sheet.name) } : read.sheet);
        return '';
      }),
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
    close: () => void queue(async () => show(null, 0)),
    takeTheirs: () =>
      queue(async () => {
        const present = sheet();
        if (present) await load(present.id);
      }),
    keepAsCopy() {
      const present = sheet();
      if (present) add({ ...present, id: newId(), name: copyName(present.name) });
    },
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

/** "Boat house, copy" */
const copyName = (name: string): string => `${name.slice(0, NAME_LENGTH - 6)}, copy`;
