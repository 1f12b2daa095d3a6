/** A round over a kit of eight on a meter whose engine says what the test says. */
import { createRoot } from 'solid-js';
import type { DemoScene } from '../../../src/audio/link';
import type { Reading } from '../../../src/reading/reading';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { createMeter } from '../../../src/state/meter/meter';
import type { Meter } from '../../../src/state/meter/meterTypes';
import { createRound } from '../../../src/state/round/round';
import type { Round } from '../../../src/state/round/roundTypes';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings, type Settings } from '../../../src/state/settings/settings';
import { createKitShelf, type KitShelf, type Store } from '../../../src/state/shelf/kitShelf';
import { measured, NO_SUM } from '../../advice/readings';
import { fakeDoor, type Opening, SCENE, settle } from '../fakeDoor';

/** Keeps everything, refuses nothing. */
function memoryStore(): Store {
  const kept = new Map<string, { sheet: KitSheet; revision: number }>();
  return {
    list: async () =>
      [...kept.values()].map(({ sheet, revision }) => ({ id: sheet.id, name: sheet.name, revision, savedAt: 'x' })),
    has: async (id) => kept.has(id),
    load: async (id) => kept.get(id) ?? { problem: 'gone' },
    async save(sheet, basedOn) {
      const revision = basedOn + 1;
      kept.set(sheet.id, { sheet, revision });
      return { revision };
    },
    async remove(id) {
      kept.delete(id);
      return null;
    },
  };
}

export interface Bench {
  meter: Meter;
  settings: Settings;
  shelf: KitShelf;
  round: Round;
  openings: Opening[];
  clock: { ms: number };
  /** the engine says this, and it is painted */
  say(next: Reading): void;
}

/** Ends the round that `bench` made last. */
export let dispose: (() => void) | undefined;

export const SNARE: DemoScene = { ...SCENE, id: 'snare-top-bottom', kind: 'top-bottom' };
export const KICK: DemoScene = { ...SCENE, id: 'kick-inside-outside', kind: 'inside-outside', polarity: 'same' };

/** @param framesCome false: none ever comes, as in a hidden tab */
export async function bench(scenes: DemoScene[] = [], framesCome = true): Promise<Bench> {
  const { door, openings } = fakeDoor();
  const keeper = memoryKeeper();
  const clock = { ms: Date.UTC(2026, 0, 2, 14, 10) };
  const frames: (() => void)[] = [];
  const settings = createSettings(keeper);
  const meter = createMeter({
    door: { ...door, listScenes: async () => scenes },
    settings,
    schedule: (paint) => void frames.push(paint),
    nowMs: () => clock.ms,
  });
  let ids = 0;
  const now = (): Date => new Date(clock.ms);
  const shelf = createKitShelf({ store: memoryStore(), keeper, newId: () => `kit-${++ids}`, now });
  const round = createRoot((end) => {
    dispose = end;
    return createRound({ meter, shelf, settings, keeper, now });
  });
  shelf.create('eight', 'Quay');
  await shelf.settled();
  await meter.loadScenes();
  let streamSeconds = 0;
  const say = (next: Reading): void => {
    streamSeconds += 5;
    openings.at(-1)?.events.onReading({ ...next, streamSeconds });
    if (framesCome) for (const paint of frames.splice(0)) paint();
  };
  return { meter, settings, shelf, round, openings, clock, say };
}

/** With an interface open and identified. */
export async function live(framesCome = true): Promise<Bench> {
  const made = await bench([], framesCome);
  const opened = made.meter.open({ type: 'interface', deviceId: null });
  await settle();
  await made.openings[0]?.letIn();
  await opened;
  made.meter.finishIdentify(false);
  return made;
}

export const pairOf = (shelf: KitShelf, id: string): Pair => shelf.sheet()?.pairs.find((one) => one.id === id) as Pair;
export const switchOf = (shelf: KitShelf, id: string): boolean | undefined =>
  shelf.sheet()?.microphones.find((one) => one.id === id)?.inverted;
export const BOTTOM = 'snareTop-snareBottom';
export const sure = (polarity: 'same' | 'inverted', cm = 3, hits = 8): Reading =>
  // without a sum no plan asks for anything: it is accepted at once
  measured(polarity, cm, { ...NO_SUM, hits, hitsUsed: hits, agreement: 1, uncertaintySamples: 1 });
