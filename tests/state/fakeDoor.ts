/** A door under the test's hand: each opening waits until the test lets it in or refuses it. */
import {
  type AudioDoor,
  type DemoScene,
  type MeterEvents,
  type MeterLink,
  type MeterSettings,
  type Problem,
  ProblemError,
} from '../../src/audio/link';
import type { PictureWish } from '../../src/reading/hitPictures';

export interface Opening {
  kind: 'interface' | 'recording' | 'demo' | 'take';
  settings: MeterSettings;
  events: MeterEvents;
  /** what was asked of the link, in order */
  log: string[];
  /** the pictures that were asked for */
  wishes: PictureWish[];
  letIn(): Promise<void>;
  refuse(problem: Problem): Promise<void>;
  /** no new node can be had any more */
  refuseRestarts(thrown: ProblemError): void;
}

export const SCENE: DemoScene = {
  id: 'one',
  title: 'A drum, two microphones',
  a: 'above',
  b: 'below',
  kind: 'top-bottom',
  file: 'one.wav',
  sampleRate: 48000,
  pathCm: 3,
  delaySamples: 4.2,
  polarity: 'inverted',
  temperatureC: 20,
  note: '',
};

/** Let everything that was promised happen. */
export const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

export function fakeDoor(): { door: AudioDoor; openings: Opening[] } {
  const openings: Opening[] = [];
  const open = (kind: Opening['kind'], settings: MeterSettings, events: MeterEvents): Promise<MeterLink> =>
    new Promise((resolve, reject) => {
      const log: string[] = [];
      const wishes: PictureWish[] = [];
      let noRestart: ProblemError | null = null;
      const link: MeterLink = {
        label: `a ${kind}`,
        sampleRate: 48000,
        hold: (on) => void log.push(`hold ${on}`),
        invertB: (on) => void log.push(`invert ${on}`),
        chooseDrum: (id) => void log.push(`drum ${id}`),
        pictures: (wish) => {
          log.push('pictures');
          wishes.push(wish);
        },
        restart: (s) => {
          if (noRestart) throw noRestart;
          const offset = s.settingOffset ? ' setting the offset' : s.offsetSamples ? ` offset ${s.offsetSamples}` : '';
          const known = s.known ? ` known ${s.known.sign * s.known.delayMs}` : '';
          log.push(`restart swapped ${s.swapped} invert ${s.invertB} reach ${s.maxLagMs}${offset}${known}`);
        },
        sound: async () => null,
        setMonitorGain: (gain) => void log.push(`gain ${gain}`),
        close: async () => void log.push('close'),
      };
      openings.push({
        kind,
        settings,
        events,
        log,
        wishes,
        async letIn() {
          resolve(link);
          await settle();
        },
        async refuse(problem) {
          reject(new ProblemError(problem));
          await settle();
        },
        refuseRestarts(thrown) {
          noRestart = thrown;
        },
      });
    });
  const door: AudioDoor = {
    listInputs: async () => [],
    listScenes: async () => [SCENE],
    openInterface: (_id, settings, events) => open('interface', settings, events),
    openRecording: (_files, _mode, settings, events) => open('recording', settings, events),
    openScene: (_scene, settings, events) => open('demo', settings, events),
    openLoops: () => Promise.reject(new Error('nothing is heard here')),
    sceneSound: () => Promise.reject(new Error('nothing is heard here')),
    openTakePair: (_sound, settings, events) => open('take', settings, events),
  };
  return { door, openings };
}
