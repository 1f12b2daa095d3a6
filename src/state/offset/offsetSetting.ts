/** The input offset: measured on a person's word, kept for this device, rate and channels, taken out of everything. */
import { type Accessor, batch, createSignal } from 'solid-js';
import { findOffset, OFFSET_REACH_MS } from '../../advice/plan/offsetFinding';
import { type OffsetSaid, sayOffset } from '../../advice/words/offsetWords';
import type { MeterLink, MeterSettings } from '../../audio/link';
import type { Reading } from '../../reading/reading';
import type { InputKey, OffsetMemory } from './offsetMemory';

export interface InputOffset {
  /** taken out now: delay of B's path against A's as they stand, samples; 0: none */
  offsetSamples: Accessor<number>;
  /** the same, ms */
  offsetMs: Accessor<number>;
  /** storage was refused: it holds until the page is closed */
  offsetForSession: Accessor<boolean>;
  /** what was found so far; null unless it is being measured */
  offsetFinding: Accessor<OffsetSaid | null>;
  beginOffset(): void;
  /** take what was found out from now on; nothing happens unless it is sure */
  keepOffset(): void;
  removeOffset(): void;
  /** back to the meter, everything as it was */
  endOffset(): void;
}

export interface InputOffsetActions {
  /** what a link is told beside (or instead of) the rest */
  forLink(): Partial<MeterSettings>;
  /** a reading as the link was told last; others were on their way when a person changed something */
  concerns(reading: Reading): boolean;
  /** a source was opened; null: one without converters. @returns whether its link must be told */
  arrive(link: MeterLink | null): boolean;
}

export interface InputOffsetOptions {
  memory: OffsetMemory;
  reading: Accessor<Reading | null>;
  temperatureC: Accessor<number>;
  swapped: Accessor<boolean>;
  show(page: 'offset' | 'meter'): void;
  /** forget every hit and tell the link; `why` in a few words for the person */
  again(why: string): void;
}

/** Browsers pass on the first two channels of a device. */
const CHANNELS = '1,2';

export function createInputOffset(options: InputOffsetOptions): InputOffsetActions & { shown: InputOffset } {
  const { memory, reading, temperatureC, swapped, show, again } = options;
  /** of input 2 against input 1 */
  const [inForce, setInForce] = createSignal(0);
  const [forSession, setForSession] = createSignal(false);
  const [setting, setSetting] = createSignal(false);
  let key: InputKey | null = null;

  // swapping A and B turns it round; 0 stays 0
  const asHeard = (samples: number): number => (swapped() && samples !== 0 ? -samples : samples);
  const finding = (): OffsetSaid | null => {
    const now = reading();
    return setting() ? sayOffset(findOffset(now, temperatureC())) : null;
  };
  const mode = (on: boolean, why: string): void =>
    batch(() => {
      setSetting(on);
      show(on ? 'offset' : 'meter');
      again(why);
    });
  const take = (samples: number, why: string): void =>
    batch(() => {
      if (key === null) return;
      const kept = memory.remember(key, samples);
      setForSession(samples !== 0 && !kept);
      setInForce(samples);
      mode(false, why);
    });

  const shown: InputOffset = {
    offsetSamples: () => asHeard(inForce()),
    offsetMs: () => (key === null ? 0 : (asHeard(inForce()) / key.sampleRate) * 1000),
    offsetForSession: forSession,
    offsetFinding: finding,
    beginOffset() {
      if (key !== null) mode(true, '');
    },
    keepOffset() {
      const found = finding()?.offsetSamples ?? null;
      if (found !== null) take(asHeard(found), 'input offset corrected');
    },
    removeOffset: () => take(0, 'input offset no longer corrected'),
    endOffset: () => mode(false, ''),
  };
  return {
    shown,
    forLink() {
      if (setting()) return { maxLagMs: OFFSET_REACH_MS, settingOffset: true };
      return inForce() === 0 ? {} : { offsetSamples: asHeard(inForce()) };
    },
    concerns: (r) => (r.gauge !== null) === setting() && (setting() || r.inputs.offsetSamples === asHeard(inForce())),
    arrive(link) {
      key = link && {
        deviceId: link.deviceId ?? '',
        label: link.label,
        sampleRate: link.sampleRate,
        channels: CHANNELS,
      };
      const samples = key ? memory.recall(key) : 0;
      const told = key !== null && (setting() || samples !== 0 || inForce() !== 0);
      batch(() => {
        setSetting(false);
        setInForce(samples);
        if (samples === 0) setForSession(false);
      });
      return told;
    },
  };
}
