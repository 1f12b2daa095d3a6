/** A sound server in place of the interface: what the system does to an input behind the page's back. */
import type { SoundServer } from '../../../support/page/soundServer';
import { hits } from '../../../support/sound/signals';
import type { Live, LiveFault } from './liveTrial';
import { furtherBy, pairChannels } from './pair';
import { NOTHING_ARRIVES } from './threadTime';

const RATE = 44_100;
const OWN = 'kit_interface';
const OTHER = 'other_mic';
const LOST = /has disconnected|input used before isn’t there/;
const CHANGED =
  /seems to deliver another input|default may be another input|has switched|another (input|device|microphone)|input (has )?changed|different input/i;

function interfaceAlone(server: SoundServer): void {
  server.addInput({ name: OWN, label: 'Kit interface', sampleRate: RATE });
  server.makeDefault(OWN);
  server.play(OWN, pairChannels());
}

/** Noise that falls by 6 dB an octave: a preamp of its own. */
function ownNoise(seed: number): Float32Array {
  let low = 0;
  return hits(10, 20, seed).map((white) => {
    low = 0.97 * low + white;
    return low;
  });
}

/** Another microphone, that hears the same drum elsewhere; no two devices have the same noise. */
function withAnother(server: SoundServer): void {
  server.addInput({ name: OTHER, label: 'Other mic', sampleRate: RATE });
  const [a, b] = pairChannels();
  const [noiseA, noiseB] = [ownNoise(11), ownNoise(12)];
  server.play(OTHER, [
    a.map((x, i) => 0.5 * x + (noiseA[i] as number)),
    b.map((_, i) => -0.4 * (b[i - 31] ?? 0) + (noiseB[i] as number)),
  ]);
  interfaceAlone(server);
}

const system = (
  name: string,
  how: string,
  told: LiveFault['told'],
  strike: (server: SoundServer, live: Live) => unknown,
  more: Partial<LiveFault> & { end?: (server: SoundServer) => unknown } = {},
): LiveFault => {
  const { end, ...rest } = more;
  return {
    sub: 'system',
    name,
    how,
    told,
    recovers: 'Try again',
    withinMs: 4000,
    prepare: interfaceAlone,
    strike: async (live) => strike(live.server as SoundServer, live),
    ...(end ? { mend: async (live: Live) => end(live.server as SoundServer) } : {}),
    heavy: true,
    ...rest,
  };
};

const channels = (name: string, channelMap: string, channel: number, told: LiveFault['told']): LiveFault => ({
  sub: 'more channels',
  name,
  how: `four channels, the pair on ${channel + 1} and ${channel + 2}, something else on the others`,
  told,
  recovers: 'not without two channels: nothing that isn’t the pair is certain',
  withinMs: 12_000,
  heavy: true,
  noReading: true,
  // what is on channels 1 and 2: the pair, or two of the far one without delay
  truth: channel === 0 ? [furtherBy(0)] : [{ polarity: 'inverted', delayMs: 0 }],
  prepare(server) {
    server.addInput({ name: OWN, label: 'Kit interface', sampleRate: RATE, channels: 4, channelMap });
    server.makeDefault(OWN);
    const [a, b] = pairChannels();
    const far = b.map((_, i) => 0.6 * (a[i - 60] ?? 0));
    server.play(OWN, channel === 0 ? [a, b, far, far.map((x) => -x)] : [far, far.map((x) => -x), a, b]);
  },
});

export const INPUT_SYSTEM: readonly LiveFault[] = [
  system(
    'muted',
    'pactl set-source-mute',
    /The system has muted this audio input/,
    (server) => server.mute(OWN, true),
    {
      end: (server) => server.mute(OWN, false),
      byItself: true,
      recovers: 'by itself',
    },
  ),
  system('suspended', 'pactl suspend-source', NOTHING_ARRIVES, (server) => server.suspend(OWN, true), {
    end: (server) => server.suspend(OWN, false),
    byItself: true,
    recovers: 'by itself',
  }),
  system('unplugged, the only one', 'the source is unloaded', LOST, (server) => server.unplug(OWN), {
    end: interfaceAlone,
    withinMs: 6000,
  }),
  system(
    'unplugged, and another one takes over',
    'the system moves the stream',
    /has disconnected|has switched/,
    (server) => server.unplug(OWN),
    {
      prepare: withAnother,
      lastsMs: 10_000,
      end: interfaceAlone,
      withinMs: 6000,
    },
  ),
  system(
    'moved to another one without a word',
    'pactl move-source-output',
    CHANGED,
    (server) => server.moveListeners(OTHER),
    {
      prepare: withAnother,
      lastsMs: 10_000,
      end: (server) => server.moveListeners(OWN),
      withinMs: 10_000,
    },
  ),
  system(
    'another one is the system’s own choice now',
    'pactl set-default-source, which moves the stream as well',
    CHANGED,
    (server) => server.makeDefault(OTHER),
    {
      prepare: withAnother,
      lastsMs: 10_000,
      end: (server) => server.makeDefault(OWN),
      withinMs: 10_000,
    },
  ),
  system(
    'goes and comes back at once',
    'unloaded and loaded',
    LOST,
    (server) => {
      server.unplug(OWN);
      interfaceAlone(server);
    },
    { withinMs: 6000 },
  ),
  system('the sound server hangs for 4 s', 'SIGSTOP, SIGCONT', NOTHING_ARRIVES, (server) => server.freeze(true), {
    end: (server) => server.freeze(false),
    byItself: true,
    recovers: 'by itself',
  }),
  system(
    'nothing is played into it',
    'the player is stopped: zeros',
    NOTHING_ARRIVES,
    (server) => server.stopPlaying(OWN),
    {
      end: (server) => server.play(OWN, pairChannels()),
      byItself: true,
      recovers: 'by itself',
      withinMs: 6000,
    },
  ),
  system(
    'its level turned down by 20 dB',
    'pactl set-source-volume',
    'may',
    (server) => server.pactl('set-source-volume', OWN, '-20dB'),
    {
      end: (server) => server.pactl('set-source-volume', OWN, '0dB'),
      recovers: 'it goes on',
      byItself: true,
    },
  ),
  system(
    'another pair of sounds in it',
    'B moved by 70 cm at the source',
    'may',
    (server) => {
      const [a, b] = pairChannels();
      server.play(OWN, [a, b.map((_, i) => b[i - 90] ?? 0)]);
    },
    {
      lastsMs: 9000,
      end: (server) => server.play(OWN, pairChannels()),
      recovers: 'by itself',
      byItself: true,
      truth: [furtherBy(0), furtherBy(90)],
      after: [furtherBy(0)],
      backMs: 40_000,
    },
  ),
  channels('four channels, named front and rear', 'front-left,front-right,rear-left,rear-right', 0, 'may'),
  channels('four channels without names', 'aux0,aux1,aux2,aux3', 0, 'may'),
  channels('four channels, the pair on 3 and 4', 'front-left,front-right,rear-left,rear-right', 2, 'may'),
  // last: this browser finds no input any more until it is started anew
  system('the sound server is killed, and comes back', 'SIGKILL, and a new one', LOST, (server) => server.kill(), {
    end: async (server) => {
      await server.comeBack();
      server.makeDefault(OWN);
      server.play(OWN, pairChannels());
    },
    withinMs: 6000,
    backMs: 40_000,
  }),
];
