/** Inputs that can't be opened, and inputs that are taken away. */
import { audioServices } from '../../../support/page/audioService';
import { emptyList, type LabGlobal, type PageFault } from './lab';
import type { LiveFault } from './liveTrial';
import { NOTHING_ARRIVES } from './threadTime';

const refuses = (name: string, told: RegExp, how = 'getUserMedia rejects with it, once'): LiveFault => ({
  sub: 'opening',
  name,
  how,
  told,
  recovers: 'connecting again',
  before: { refuses: { name, times: 1 } },
});
const opening = (
  name: string,
  how: string,
  before: PageFault,
  told: LiveFault['told'],
  more: Partial<LiveFault> = {},
): LiveFault => ({ sub: 'opening', name, how, before, told, recovers: 'connecting again', withinMs: 7000, ...more });

const LOST = /The audio interface has disconnected/;
const cutOff: Pick<LiveFault, 'sub' | 'heavy'> = { sub: 'taken away', heavy: true };
const services = (signal: NodeJS.Signals): void => {
  for (const pid of audioServices()) process.kill(pid, signal);
};

export const INPUT_OPENING: readonly LiveFault[] = [
  {
    sub: 'opening',
    name: 'no device',
    how: 'a browser without a sound system',
    told: /No audio input found/,
    recovers: 'not without a device: nothing is certain',
    noDevice: true,
    noReading: true,
    truth: [],
    after: [],
    withinMs: 8000,
  },
  {
    sub: 'opening',
    name: 'permission refused',
    how: 'the browser’s permission isn’t granted, then it is',
    told: /The browser blocked the audio input/,
    recovers: 'connecting again',
    may: false,
    mend: ({ context }) => context.grantPermissions(['microphone']),
  },
  refuses('NotAllowedError', /The browser blocked the audio input/),
  refuses('SecurityError', /The browser blocked the audio input/),
  refuses('NotReadableError', /your DAW may have it/),
  refuses('AbortError', /your DAW may have it/),
  refuses('NotFoundError', /No audio input found/),
  refuses('OverconstrainedError', /The input you chose has disconnected/),
  refuses('DataCloneError', /The audio input couldn’t be opened/, 'an error that no standard tells of, once'),
  opening('no AudioWorklet', 'a browser without it', { noAudioWorklet: true }, /This browser can’t run the meter/, {
    noReading: true,
  }),
  opening(
    'no media devices',
    'as on an insecure page',
    { noMediaDevices: true },
    /Browsers open audio inputs only on secure pages/,
    { noReading: true },
  ),
  opening(
    'no audio context',
    'its constructor throws, once',
    { noContext: { times: 1 } },
    /can’t run at|couldn’t start audio/,
  ),
  opening(
    'the context never starts',
    'resume() doesn’t answer, once',
    { neverStarts: { times: 1 } },
    /didn’t let the audio start/,
  ),
  opening('the device list is empty', 'enumerateDevices() gives none', { noList: true }, 'may', {
    recovers: 'it goes on',
  }),
  opening('the devices have no names', 'their labels are empty', { unnamedList: true }, 'nothing', {
    recovers: 'it goes on',
  }),
  {
    sub: 'taken away',
    name: 'permission withdrawn',
    how: 'the browser takes it back, then grants it',
    told: LOST,
    recovers: 'Try again',
    strike: ({ context }) => context.clearPermissions(),
    mend: ({ context }) => context.grantPermissions(['microphone']),
  },
  {
    sub: 'taken away',
    name: 'the list goes empty while it runs',
    how: 'enumerateDevices() gives none from then on',
    told: LOST,
    recovers: 'Try again',
    strike: ({ page }) => emptyList(page, true),
    mend: ({ page }) => emptyList(page, false),
  },
  {
    sub: 'taken away',
    name: 'the track ends',
    how: 'track.stop(), and the event that the browser gives',
    told: LOST,
    recovers: 'Try again',
    strike: ({ page }) =>
      page.evaluate(() => {
        for (const track of (globalThis as LabGlobal).lab.streams.at(-1)?.getTracks() ?? []) {
          track.stop();
          track.dispatchEvent(new Event('ended'));
        }
      }),
  },
  {
    sub: 'taken away',
    name: 'the track is disabled',
    how: 'track.enabled = false: zeros',
    told: NOTHING_ARRIVES,
    recovers: 'by itself',
    byItself: true,
    strike: ({ page }) => enable(page, false),
    mend: ({ page }) => enable(page, true),
  },
  {
    sub: 'taken away',
    name: 'the source has no connection',
    how: 'source.disconnect()',
    told: NOTHING_ARRIVES,
    recovers: 'Try again',
    strike: ({ page }) => page.evaluate(() => (globalThis as LabGlobal).lab.sources.at(-1)?.disconnect()),
  },
  {
    ...cutOff,
    name: 'the browser’s audio process is frozen',
    how: 'SIGSTOP, SIGCONT',
    told: NOTHING_ARRIVES,
    recovers: 'by itself',
    byItself: true,
    strike: async () => services('SIGSTOP'),
    mend: async () => services('SIGCONT'),
  },
  {
    ...cutOff,
    name: 'the browser’s audio process is killed',
    how: 'SIGKILL',
    told: /has disconnected|Nothing arrives/,
    recovers: 'Try again',
    strike: async () => services('SIGKILL'),
  },
];

const enable = (page: Parameters<NonNullable<LiveFault['mend']>>[0]['page'], on: boolean): Promise<void> =>
  page.evaluate((value) => {
    for (const track of (globalThis as LabGlobal).lab.streams.at(-1)?.getTracks() ?? []) track.enabled = value;
  }, on);
