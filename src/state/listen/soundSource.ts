/** Where what is listened to comes from: the meter's own source, or a demo scene. */
import { type Accessor, createMemo } from 'solid-js';
import type { AudioDoor, DemoScene } from '../../audio/link';
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { PairSound } from '../../listen/version';
import { answerOf, type Reading } from '../../reading/reading';

export interface SoundSource {
  /** another value: another sound is meant, and what plays stops */
  key: Accessor<unknown>;
  /** null: there is none (yet). @throws ProblemError */
  sound(): Promise<PairSound | null>;
  /** to be called in a press. @throws ProblemError */
  openLoops(sampleRate: number, events: PathEvents): Promise<ListeningPath>;
  /** B's switch of the demo kit is pressed: what is heard is turned over, beside what the versions say */
  turnedB: Accessor<boolean>;
  /** mics are open: more hits may come, and what comes in can be heard. Null: nothing is live */
  live: Accessor<LiveSound | null>;
  /** whatever else makes this source audible falls silent */
  hush(): void;
  /** it sounds elsewhere on the page: what is heard here stops */
  soundsElsewhere: Accessor<boolean>;
}

export interface LiveSound {
  /** input offset that the reading takes out: B's path is late by so much, samples */
  offsetSamples(): number;
  /** to be called in a press. @throws ProblemError */
  open(events: PathEvents): Promise<ListeningPath>;
}

/** The hits that the answer stands on, s of the stream. */
export function hitsBehind(reading: Reading | null): number[] {
  if (reading === null || answerOf(reading).hits === 0) return [];
  const own = reading.perHit.filter(({ drum, fate }) => drum === reading.drum && fate === 'used');
  return own.map(({ timeSeconds }) => timeSeconds).sort((x, y) => x - y);
}

/** A demo scene by itself, whatever the meter reads; `meter` sounds by itself at most while this doesn't. */
export function sceneSource(
  door: AudioDoor,
  scene: Accessor<DemoScene | null>,
  meter: Pick<SoundSource, 'hush' | 'soundsElsewhere'>,
): SoundSource {
  return {
    key: createMemo(() => scene()?.id ?? ''),
    async sound() {
      const one = scene();
      return one === null ? null : door.sceneSound(one);
    },
    openLoops: (sampleRate, events) => door.openLoops(sampleRate, events),
    turnedB: () => false,
    live: () => null,
    hush: meter.hush,
    soundsElsewhere: meter.soundsElsewhere,
  };
}
