/**
 * The voice and the tone that tell the answer. Levels and voice are remembered. Whether they are on isn't: nothing begins to
 * sound by itself the next day, with loudspeakers on beside open microphones.
 */
import { type Accessor, createSignal } from 'solid-js';
import type { Keeper } from './keeper';

const USUAL_VOICE_LEVEL = 0.5;
/** quiet: it is turned up, not down */
const USUAL_TONE_LEVEL = 0.25;

export interface SoundSettings {
  voiceOn: Accessor<boolean>;
  setVoiceOn(on: boolean): void;
  /** 0…1 */
  voiceLevel: Accessor<number>;
  setVoiceLevel(level: number): void;
  /** by its name; null: the first of the list */
  voice: Accessor<string | null>;
  setVoice(name: string | null): void;
  toneOn: Accessor<boolean>;
  setToneOn(on: boolean): void;
  /** 0…1 */
  toneLevel: Accessor<number>;
  setToneLevel(level: number): void;
}

export function createSoundSettings(keeper: Keeper): SoundSettings {
  const [voiceOn, setVoiceOn] = createSignal(false);
  const [toneOn, setToneOn] = createSignal(false);
  const [voiceLevel, setVoiceLevel] = keptLevel(keeper, 'voiceLevel', USUAL_VOICE_LEVEL);
  const [toneLevel, setToneLevel] = keptLevel(keeper, 'toneLevel', USUAL_TONE_LEVEL);
  const [voice, setVoice] = createSignal<string | null>(keeper.get('voice') || null);
  return {
    voiceOn,
    setVoiceOn,
    voiceLevel,
    setVoiceLevel,
    voice,
    setVoice(name) {
      setVoice(name);
      keeper.set('voice', name ?? '');
    },
    toneOn,
    setToneOn,
    toneLevel,
    setToneLevel,
  };
}

function keptLevel(keeper: Keeper, key: string, usual: number): [Accessor<number>, (level: number) => void] {
  const text = keeper.get(key);
  const kept = text === null || text === '' ? Number.NaN : Number(text);
  const [level, setLevel] = createSignal(kept >= 0 && kept <= 1 ? kept : usual);
  return [
    level,
    (value) => {
      if (!(value >= 0 && value <= 1)) return;
      setLevel(value);
      keeper.set(key, String(value));
    },
  ];
}
