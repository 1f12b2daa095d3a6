/** The voice and the tone at work: they follow what is on the screen, and fall silent with it. */
import { type Accessor, createEffect, createSignal, onCleanup, untrack } from 'solid-js';
import type { Advice } from '../../advice/advice';
import { GuideTone, type ToneSound } from '../../audio/guideTone';
import { browserSpeech, type Speech } from '../../audio/speech';
import type { Reading, Said } from '../../reading/reading';
import { aloudText } from '../../text/aloud';
import { isHalted, type Meter } from '../meter/meterTypes';
import type { Settings } from '../settings/settings';
import { type Call, SayOnce } from './sayOnce';
import { AT_ITS_PLACE, type Tone, toneHz, toneOf } from './tone';

export interface SoundParts {
  meter: Meter;
  settings: Settings;
  /** what is on the screen; nothing while the next pair is patched */
  shown: { reading: Accessor<Reading | null>; answer: Accessor<Said | null>; advice: Accessor<Advice | null> };
  /** the pair in hand; empty: none is */
  pair: Accessor<string>;
}

export const CAUTION = 'Into headphones only, never from a loudspeaker beside open mics.';
const SAMPLE = 'Snare bottom: 2.5 cm closer';

/** What is shown is of the sound that comes now, and not of a moment that a person froze. */
function isLive({ meter }: SoundParts): boolean {
  return meter.page() === 'meter' && !isHalted(meter.run()) && !meter.held() && meter.fresh();
}

/** What holds now, as it is said; null: nothing does. Counts the beginnings, so that the same answer to other hits is said. */
function createCall(parts: SoundParts): () => Call | null {
  let hits = 0;
  let beginnings = 0;
  return () => {
    const [reading, answer, advice] = [parts.shown.reading(), parts.shown.answer(), parts.shown.advice()];
    if (reading === null) return null;
    if (reading.hits < hits) beginnings++;
    hits = reading.hits;
    if (!isLive(parts) || answer === null || advice === null) return null;
    // on the way, or too few hits: it would be another one with the next
    if (advice.action === 'hit-more') return null;
    const of = [parts.pair(), parts.meter.sourceLabel(), reading.drum, beginnings].join(' ');
    return { of, text: aloudText(advice.callOut) };
  };
}

/** To be called where effects have an owner, while the voice is on. */
export function runVoice(parts: SoundParts, speech: Speech | null = browserSpeech()): void {
  if (!speech) return;
  const { sound } = parts.settings;
  const say = (text: string): void => speech.say(text, untrack(sound.voiceLevel), untrack(sound.voice));
  const once = new SayOnce();
  const call = createCall(parts);
  say(`Voice on. ${CAUTION}`);
  createEffect(() => {
    const now = call();
    const text = once.feed(now, performance.now());
    if (text !== null) say(text);
  });
  // what is being said isn't so any more
  createEffect(() => {
    if (isHalted(parts.meter.run())) speech.hush();
  });
  onCleanup(() => speech.hush());
}

const soundOf = (tone: Tone | null): ToneSound | null =>
  tone && { hz: tone.hz, over: tone.shape === 'steady' ? tone.overHz : null };

/** The same, while the tone is on. @returns null where the browser has no audio */
export function runTone(parts: SoundParts): void {
  const tone = openTone();
  if (!tone) return;
  createEffect(() => {
    const { shown, meter } = parts;
    const now = toneOf({
      reading: shown.reading(),
      answer: shown.answer(),
      context: meter.context(),
      live: isLive(parts) && meter.run() === 'running',
    });
    tone.set(soundOf(now), parts.settings.sound.toneLevel());
  });
  onCleanup(() => tone.close());
}

function openTone(): GuideTone | null {
  try {
    return new GuideTone();
  } catch {
    return null;
  }
}

/** The names of the voices that can be had; browsers find them late. To be called where effects have an owner. */
export function openVoices(speech: Speech | null = browserSpeech()): Accessor<string[]> {
  const [voices, setVoices] = createSignal(speech?.voices() ?? []);
  if (speech) onCleanup(speech.onVoices(() => setVoices(speech.voices())));
  return voices;
}

/** What the voice sounds like, at the level that is set. */
export function voiceSample({ sound }: Settings, speech: Speech | null = browserSpeech()): void {
  speech?.say(aloudText(SAMPLE), sound.voiceLevel(), sound.voice());
}

/** From far off to its place, cm; then the steady tone. */
const SAMPLE_WAY_CM = [20, 12, 6, 2];
const STEP_MS = 700;

/** @returns ends it. Null: the browser has no audio */
export function toneSample({ sound }: Settings): (() => void) | null {
  const tone = openTone();
  if (!tone) return null;
  const steps: (Tone | null)[] = [
    ...SAMPLE_WAY_CM.map((cm): Tone => ({ shape: 'pulses', hz: toneHz(cm) })),
    AT_ITS_PLACE,
    null,
  ];
  const timers = steps.map((step, i) => setTimeout(() => tone.set(soundOf(step), sound.toneLevel()), i * STEP_MS));
  const end = (): void => {
    for (const timer of timers) clearTimeout(timer);
    tone.close();
  };
  timers.push(setTimeout(end, steps.length * STEP_MS));
  return end;
}
