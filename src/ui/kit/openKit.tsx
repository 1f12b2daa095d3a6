/** The kit's part of the page, fetched when a kit is first wanted: it works from here on, whatever page is up. */
import { createEffect, createMemo, createRoot, createSignal, on } from 'solid-js';
import { createKit } from '../../state/kit';
import type { Meter } from '../../state/meter/meterTypes';
import type { Keeper } from '../../state/settings/keeper';
import type { Settings } from '../../state/settings/settings';
import type { Persistence } from '../../state/shelf/lasting';
import { SheetStore } from '../../state/shelf/sheetStore';
import { download, fileName } from '../print/download';
import { RoundStrip } from '../round/RoundStrip';
import { useRoundCall } from '../round/roundCall';
import { roundCommands } from '../round/roundCommands';
import { roundSums } from '../round/roundSums';
import { KitPage } from './KitPage';
import type { KitPart } from './kitPart';
import { StoreTrouble } from './StoreTrouble';
import { takeFile } from './takeFile';
import '../round/round.css';
import './kit.css';
import './kitSizes.css';
import '../round/roundSizes.css';

export interface OpenKitOptions {
  meter: Meter;
  settings: Settings;
  keeper: Keeper;
  /** the text of the filled example; rejects where it isn't there */
  exampleText(): Promise<string>;
}

const NO_EXAMPLE =
  'The example sheet could not be loaded from this page’s server; check that the server is running, then try again.';

/** Older browsers, and pages that aren't secure, have none. */
function persistenceHere(): Persistence | null {
  const { storage } = navigator as { storage?: Partial<StorageManager> };
  return storage?.persist && storage.persisted ? (storage as StorageManager) : null;
}

export function openKit({ meter, settings, keeper, exampleText }: OpenKitOptions): KitPart {
  const now = (): Date => new Date();
  const store = new SheetStore(now);
  const kit = createKit({
    meter,
    settings,
    keeper,
    store,
    persistence: persistenceHere(),
    newId: () => crypto.randomUUID(),
    now,
  });
  const { shelf, round } = kit;
  const [problem, setProblem] = createSignal('');
  const [leaving, setLeaving] = createSignal(false);
  createRoot(() => {
    // a note belongs to the pair that it was begun for
    const pairInHand = createMemo(() => round.pair()?.id);
    createEffect(on([pairInHand, meter.page], () => setLeaving(false)));
  });
  return {
    ...kit,
    leaving,
    setLeaving,
    problem,
    async take(file) {
      setProblem(await takeFile(file, shelf));
    },
    async loadExample() {
      const text = await exampleText().catch(() => null);
      setProblem(text === null ? NO_EXAMPLE : await shelf.take(text));
    },
    exportFile() {
      const text = shelf.file();
      if (text !== null) download(`${fileName(shelf.sheet()?.name ?? '')}.kit.json`, text, 'application/json');
    },
    act: roundCommands({ meter, round, leaving, setLeaving }),
    KitPage,
    RoundStrip,
    useRoundCall,
    roundSums: () => roundSums(round),
    StoreTrouble,
  };
}
