/**
 * Kit sheets in the browser's database, each as the text of its file: what is read back passes the same checks as a file
 * from outside. Every save names the revision it builds on; one that isn't the stored one any more (another tab saved in
 * between) overwrites nothing.
 */
import { type DBSchema, deleteDB, type IDBPDatabase, openDB } from 'idb';
import { readSheet, writeSheet } from '../../sheet/document/file';
import type { KitSheet } from '../../sheet/document/model';

const NAME = 'crosshead-kits';
const VERSION = 1;

interface Stored {
  id: string;
  name: string;
  /** counts the saves, from 1 */
  revision: number;
  /** ISO 8601, UTC */
  savedAt: string;
  text: string;
}

interface Kits extends DBSchema {
  kits: { key: string; value: Stored };
}

export type StoredHead = Pick<Stored, 'id' | 'name' | 'revision' | 'savedAt'>;
/** One sentence: what is wrong, and what to do next. Nothing was changed. */
export interface StoreProblem {
  problem: string;
}
export type Loaded = { sheet: KitSheet; revision: number } | StoreProblem;
/** changedElsewhere: another tab saved since; what it saved stands, at this revision */
export type Saved = { revision: number } | { changedElsewhere: number } | StoreProblem;

const EXPORT_NOW = 'Export the sheet as a file now, so that nothing is lost.';
const REFUSED = `The browser won’t save anything for this page (a private window, or a setting). ${EXPORT_NOW}`;
const FULL = `The browser’s storage is full: the last change isn’t saved. ${EXPORT_NOW}`;
const NEWER = `A newer version of this page is open in another tab, so this one can’t save anything. ${EXPORT_NOW} Then reload this page.`;

/** Less room than this is none, bytes: a sheet without a reading. */
const LEAST_ROOM = 16_384;

/** Some browsers say neither at opening nor at committing that it is the room that is missing. */
async function isFull(): Promise<boolean> {
  const { quota, usage } = (await globalThis.navigator?.storage?.estimate?.().catch(() => null)) ?? {};
  return quota !== undefined && usage !== undefined && quota - usage < LEAST_ROOM;
}

const nameOf = (error: unknown): string => (error instanceof Error || error instanceof DOMException ? error.name : '');

export class SheetStore {
  /** called when the database was closed or removed from outside: what was saved may be gone */
  onLost: () => void = () => undefined;
  private opened: Promise<IDBPDatabase<Kits>> | null = null;

  /** @param now for the time of saving */
  constructor(private readonly now: () => Date = () => new Date()) {}

  /** The newest first. */
  async list(): Promise<StoredHead[] | StoreProblem> {
    return this.guarded(async (db) => {
      const all = await db.getAll('kits');
      return all
        .map(({ id, name, revision, savedAt }) => ({ id, name, revision, savedAt }))
        .sort((p, q) => (p.savedAt < q.savedAt ? 1 : p.savedAt > q.savedAt ? -1 : 0));
    });
  }

  async load(id: string): Promise<Loaded> {
    return this.guarded(async (db) => {
      const stored = await db.get('kits', id);
      if (!stored) return { problem: 'This kit isn’t saved here any more; another tab may have removed it.' };
      const read = readSheet(stored.text, true);
      return 'problem' in read ? read : { sheet: read.sheet, revision: stored.revision };
    });
  }

  /** A kit of this id is kept. */
  async has(id: string): Promise<boolean | StoreProblem> {
    return this.guarded(async (db) => (await db.count('kits', id)) > 0);
  }

  /** @param basedOn the revision that the sheet was loaded or last saved at; 0: a new one */
  async save(sheet: KitSheet, basedOn: number): Promise<Saved> {
    const savedAt = this.now().toISOString();
    const text = writeSheet(sheet, savedAt);
    return this.guarded(async (db) => {
      // read and write in one transaction: no other tab comes between
      const transaction = db.transaction('kits', 'readwrite', { durability: 'strict' });
      const stands = (await transaction.store.get(sheet.id))?.revision ?? 0;
      if (stands !== basedOn) {
        await transaction.done;
        return { changedElsewhere: stands };
      }
      const revision = stands + 1;
      const [put, done] = await Promise.allSettled([
        transaction.store.put({ id: sheet.id, name: sheet.name, revision, savedAt, text }),
        transaction.done,
      ]);
      // saved is what was committed, whatever the put said; where both failed the first one knows why
      if (done.status === 'rejected') throw put.status === 'rejected' ? put.reason : done.reason;
      return { revision };
    });
  }

  async remove(id: string): Promise<null | StoreProblem> {
    return this.guarded(async (db) => {
      await db.delete('kits', id);
      return null;
    });
  }

  /** Lets go of the database, as for a newer version in another tab. */
  async close(): Promise<void> {
    const opened = this.opened;
    this.opened = null;
    (await opened?.catch(() => null))?.close();
  }

  private async guarded<T>(work: (db: IDBPDatabase<Kits>) => Promise<T>): Promise<T | StoreProblem> {
    try {
      const db = await this.open();
      return await work(db.objectStoreNames.contains('kits') ? db : await this.anew());
    } catch (error) {
      const name = nameOf(error);
      // a failed opening may succeed the next time
      this.opened = null;
      if (name === 'VersionError') return { problem: NEWER };
      return { problem: name === 'QuotaExceededError' || (await isFull()) ? FULL : REFUSED };
    }
  }

  private open(): Promise<IDBPDatabase<Kits>> {
    this.opened ??= openDB<Kits>(NAME, VERSION, {
      upgrade: (db) => void db.createObjectStore('kits', { keyPath: 'id' }),
      blocking: () => void this.close().then(() => this.onLost()),
      terminated: () => {
        this.opened = null;
        this.onLost();
      },
    });
    return this.opened;
  }

  /** A database that holds nothing of ours any more is made again. */
  private async anew(): Promise<IDBPDatabase<Kits>> {
    const { onLost } = this;
    this.onLost = () => undefined;
    await this.close();
    await deleteDB(NAME);
    this.onLost = onLost;
    return this.open();
  }
}
