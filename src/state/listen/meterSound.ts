/** The meter's own source, to be listened to. */
import { createMemo } from 'solid-js';
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { MeterWorks } from '../meter/meterWorks';
import { hitsBehind, type LiveSound, type SoundSource } from './soundSource';

export function meterSound({ door, signals, sources, shown }: MeterWorks): SoundSource {
  const { source, swapped, run } = signals;
  const live: LiveSound = {
    offsetSamples: shown.offset.offsetSamples,
    open(events: PathEvents): Promise<ListeningPath> {
      const open = sources.link?.openLive;
      return open ? open(events) : Promise.reject(new Error('no input is open'));
    },
  };
  const isLive = createMemo(() => source()?.type === 'interface' && (run() === 'running' || run() === 'waiting'));
  return {
    // swapped or with another offset it is another sound; every source that is opened is another object
    key: createMemo(() => [source(), swapped(), shown.offset.offsetSamples()]),
    sound: async () => (await sources.link?.sound(hitsBehind(shown.readout.reading()))) ?? null,
    openLoops: (sampleRate, events) => door.openLoops(sampleRate, events),
    turnedB: signals.switchedB,
    live: () => (isLive() ? live : null),
    hush() {
      signals.setMonitorGain(0);
      sources.link?.setMonitorGain(0);
    },
    soundsElsewhere: () => signals.monitorGain() > 0,
  };
}
