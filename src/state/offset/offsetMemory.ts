/** Input offsets that a person measured, remembered per device, rate and channels. */
import { MAX_OFFSET_SECONDS } from '../../reading/limits';
import type { Keeper } from '../settings/keeper';

/** What an offset belongs to. The label beside the id: a browser may give another device the same id as "default". */
export interface InputKey {
  deviceId: string;
  label: string;
  sampleRate: number;
  /** which of the device's channels the two inputs are */
  channels: string;
}

export interface OffsetMemory {
  /** delay of input 2's path against input 1's, samples; 0: none known */
  recall(key: InputKey): number;
  /** 0 forgets. @returns whether it will be there the next time, too */
  remember(key: InputKey, samples: number): boolean;
}

const KEY = 'inputOffsets';
const MOST = 32;

type Entry = [deviceId: string, label: string, sampleRate: number, channels: string, samples: number];

function isEntry(x: unknown): x is Entry {
  if (!Array.isArray(x) || x.length !== 5) return false;
  const [deviceId, label, sampleRate, channels, samples] = x as unknown[];
  if (typeof deviceId !== 'string' || typeof label !== 'string' || typeof channels !== 'string') return false;
  if (typeof sampleRate !== 'number' || typeof samples !== 'number') return false;
  return Math.abs(samples) <= MAX_OFFSET_SECONDS * sampleRate;
}

/** What is stored and makes sense; null where nothing is. */
function stored(keeper: Keeper): Entry[] | null {
  const text = keeper.get(KEY);
  if (text === null) return null;
  try {
    const list: unknown = JSON.parse(text);
    return Array.isArray(list) ? list.filter(isEntry) : [];
  } catch {
    return [];
  }
}

export function createOffsetMemory(keeper: Keeper): OffsetMemory {
  // where storage is refused, this is all there is
  let session: Entry[] = [];
  const list = (): Entry[] => stored(keeper) ?? session;
  const isOf = ([deviceId, label, rate, channels]: Entry, key: InputKey): boolean =>
    deviceId === key.deviceId && label === key.label && rate === key.sampleRate && channels === key.channels;
  return {
    recall: (key) => list().find((entry) => isOf(entry, key))?.[4] ?? 0,
    remember(key, samples) {
      session = list().filter((entry) => !isOf(entry, key));
      if (samples !== 0) session.push([key.deviceId, key.label, key.sampleRate, key.channels, samples]);
      session = session.slice(-MOST);
      const text = JSON.stringify(session);
      keeper.set(KEY, text);
      return keeper.get(KEY) === text;
    },
  };
}
