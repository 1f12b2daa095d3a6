/** What a person sets and the page remembers: pair kind, temperature, names, device, lights, keys, the acknowledged cautions. */
import { type Accessor, createSignal } from 'solid-js';
import { PAIR_KIND_IDS, type PairKindId } from '../../advice/plan/pairKinds';
import { DRUM_NAME_LETTERS } from '../../text/names';
import { createOffsetMemory, type OffsetMemory } from '../offset/offsetMemory';
import type { Keeper } from './keeper';
import { createSoundSettings, type SoundSettings } from './soundSettings';

export type Lights = 'auto' | 'up' | 'down';
export const LIGHTS: readonly Lights[] = ['auto', 'up', 'down'];

export const TEMPERATURE_MIN_C = -20;
export const TEMPERATURE_MAX_C = 50;
/** until somebody says otherwise */
export const USUAL_TEMPERATURE_C = 20;

/** Bands of the trace: 0 broadband, 1–4 in the order of BANDS. */
export const TRACE_BANDS = 5;

/** letters */
export const LABEL_LENGTH = 64;

export interface Settings {
  kind: Accessor<PairKindId>;
  /** `remember` false: for now only */
  setKind(kind: PairKindId, remember?: boolean): void;
  /** in force: the open kit's, or what was set last */
  temperatureC: Accessor<number>;
  /** what a person sets; an open kit's sheet keeps it instead of this page */
  setTemperatureC(value: number): void;
  /** `keep` is given what a person sets; true: it has it, and `followTemperatureC` brings it back */
  lendTemperature(keep: (value: number) => boolean): void;
  /** what is kept elsewhere is in force here, as far as the range goes, and remembered */
  followTemperatureC(value: number): void;
  /** names of the microphones at input 1 and input 2 */
  labels: Accessor<readonly [string, string]>;
  setLabel(input: 0 | 1, text: string, remember?: boolean): void;
  /** input 2 turns out to be A: the names that were given to A and B go with them, and are remembered as A’s and B’s */
  turnLabels(): void;
  /** the drum that the pair is about, where somebody said it; empty: nobody did */
  drum: Accessor<string>;
  setDrum(text: string, remember?: boolean): void;
  deviceId: Accessor<string | null>;
  setDeviceId(id: string | null): void;
  traceBand: Accessor<number>;
  setTraceBand(band: number): void;
  lights: Accessor<Lights>;
  setLights(lights: Lights): void;
  keysOn: Accessor<boolean>;
  setKeysOn(on: boolean): void;
  offsets: OffsetMemory;
  sound: SoundSettings;
  cautionsSeen: Accessor<boolean>;
  setCautionsSeen(): void;
  /** the pair kind that the person chose last, whatever a source brought */
  ownKind(): PairKindId;
  /** kind and names that are set from here on are of this source only: a demo scene or a recording has its own */
  borrow(): void;
  /** back to what was remembered, after a source that brought its own */
  recall(): void;
}

export function isPairKind(text: string | null): text is PairKindId {
  return (PAIR_KIND_IDS as readonly (string | null)[]).includes(text);
}

/** A temperature as a number within range, or null when the text is none. */
export function parseTemperatureC(text: string | null): number | null {
  if (text === null || text.trim() === '') return null;
  const value = Number(text.trim().replace(',', '.').replace('−', '-'));
  if (!Number.isFinite(value) || value < TEMPERATURE_MIN_C || value > TEMPERATURE_MAX_C) return null;
  return value;
}

export function createSettings(keeper: Keeper): Settings {
  const remembered = {
    kind(): PairKindId {
      const text = keeper.get('kind');
      return isPairKind(text) ? text : 'other';
    },
    label: (input: 0 | 1): string => (keeper.get(`label${input + 1}`) ?? '').slice(0, LABEL_LENGTH),
    drum: (): string => (keeper.get('drum') ?? '').slice(0, DRUM_NAME_LETTERS),
  };
  const band = Number(keeper.get('traceBand') ?? 0);
  const lightsText = keeper.get('lights');

  const [kind, setKind] = createSignal<PairKindId>(remembered.kind());
  const [labels, setLabels] = createSignal<readonly [string, string]>([remembered.label(0), remembered.label(1)]);
  const [drum, setDrum] = createSignal(remembered.drum());
  let borrowed = false;
  let turned = false;
  const keepOwn = (remember: boolean, key: string, value: string): void => {
    if (remember && !borrowed) keeper.set(key, value);
  };
  const [deviceId, setDevice] = createSignal<string | null>(keeper.get('deviceId') || null);
  const [traceBand, setBand] = createSignal(Number.isInteger(band) && band >= 0 && band < TRACE_BANDS ? band : 0);
  const [lights, setLights] = createSignal<Lights>(LIGHTS.find((l) => l === lightsText) ?? 'auto');
  const [keysOn, setKeysOn] = createSignal(keeper.get('keys') !== 'off');
  const [cautionsSeen, setSeen] = createSignal(keeper.get('cautions') === 'seen');

  return {
    kind,
    setKind(value, remember = true) {
      setKind(value);
      keepOwn(remember, 'kind', value);
    },
    ...temperature(keeper),
    labels,
    setLabel(input, text, remember = true) {
      const cut = text.slice(0, LABEL_LENGTH);
      setLabels(([one, two]) => (input === 0 ? [cut, two] : [one, cut]));
      keepOwn(remember, `label${turned ? 2 - input : input + 1}`, cut);
    },
    turnLabels() {
      turned = !turned;
      setLabels(([one, two]) => [two, one]);
    },
    drum,
    setDrum(text, remember = true) {
      const cut = text.slice(0, DRUM_NAME_LETTERS);
      setDrum(cut);
      keepOwn(remember, 'drum', cut);
    },
    deviceId,
    setDeviceId(id) {
      setDevice(id);
      keeper.set('deviceId', id ?? '');
    },
    traceBand,
    setTraceBand(value) {
      if (!Number.isInteger(value) || value < 0 || value >= TRACE_BANDS) return;
      setBand(value);
      keeper.set('traceBand', String(value));
    },
    lights,
    setLights(value) {
      setLights(value);
      keeper.set('lights', value);
    },
    keysOn,
    setKeysOn(on) {
      setKeysOn(on);
      keeper.set('keys', on ? 'on' : 'off');
    },
    offsets: createOffsetMemory(keeper),
    sound: createSoundSettings(keeper),
    cautionsSeen,
    setCautionsSeen() {
      setSeen(true);
      keeper.set('cautions', 'seen');
    },
    ownKind: remembered.kind,
    borrow() {
      borrowed = true;
    },
    recall() {
      borrowed = false;
      turned = false;
      setKind(remembered.kind());
      setLabels([remembered.label(0), remembered.label(1)]);
      setDrum(remembered.drum());
    },
  };
}

type Temperature = Pick<Settings, 'temperatureC' | 'setTemperatureC' | 'lendTemperature' | 'followTemperatureC'>;

/** It has one keeper at a time: an open kit's sheet, or this page. */
function temperature(keeper: Keeper): Temperature {
  const [temperatureC, setTemperature] = createSignal(
    parseTemperatureC(keeper.get('temperatureC')) ?? USUAL_TEMPERATURE_C,
  );
  let keptElsewhere: (value: number) => boolean = () => false;
  const inRange = (value: number): number => Math.min(TEMPERATURE_MAX_C, Math.max(TEMPERATURE_MIN_C, value));
  const follow = (value: number): void => {
    const held = inRange(value);
    setTemperature(held);
    keeper.set('temperatureC', String(held));
  };
  return {
    temperatureC,
    setTemperatureC(value) {
      if (!keptElsewhere(inRange(value))) follow(value);
    },
    lendTemperature(keep) {
      keptElsewhere = keep;
    },
    followTemperatureC: follow,
  };
}
