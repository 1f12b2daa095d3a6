/** What each command does, by key or by press. */

import { LIGHTS } from '../../state/settings/settings';
import type { RoundCommand } from '../kit/kitPart';
import { DrumStep } from '../meter/drumStep';
import type { AppContext, Over } from '../shared/appScope';
import type { Command } from '../shared/keys';
import { stepOut } from '../shared/ownKeys';

export type PageCommands = Record<Command, () => void>;

export function pageCommands(app: AppContext): PageCommands {
  return { ...meterCommands(app), ...passToRound(app), ...overCommands(app), ...settingCommands(app) };
}

const pressed = (command: string): void =>
  document.querySelector<HTMLButtonElement>(`button[data-command="${command}"]`)?.click();
/** the press for all of a page's numbers, else that of its first one */
const firstSum = (): void =>
  document.querySelector<HTMLButtonElement>('button[data-command="sums"], button[data-command="sum"]')?.click();
const focusOn = (id: string): void => document.getElementById(id)?.focus();

type MeterCommand =
  | 'hold'
  | 'start-over'
  | 'swap'
  | 'invert-b'
  | 'kind'
  | 'temperature'
  | 'drum'
  | 'hear'
  | 'listen'
  | 'sources';

function meterCommands({ meter, over, startOver, swap }: AppContext): Record<MeterCommand, () => void> {
  const onMeter = (act: () => void) => (): void => {
    if (meter.page() === 'meter') act();
  };
  const drumStep = new DrumStep();
  return {
    hold: onMeter(() => meter.hold(!meter.held())),
    'start-over': onMeter(startOver),
    swap: onMeter(swap),
    // what is tried is inverted where one is looking at that
    'invert-b': onMeter(() => (over() === 'try' ? pressed('try-invert') : meter.setInvertB(!meter.invertB()))),
    kind: onMeter(() => focusOn('pair-kind')),
    temperature: onMeter(() => focusOn('temperature')),
    drum: onMeter(() => {
      const reading = meter.reading();
      if (reading && reading.drums.length > 1) meter.chooseDrum(drumStep.next(reading, performance.now()));
    }),
    listen: () => pressed('listen'),
    hear: onMeter(() => focusOn('hear')),
    sources: onMeter(() => void meter.leave()),
  };
}

function passToRound({ parts }: AppContext): Record<RoundCommand, () => void> {
  const act = (command: RoundCommand) => (): void => parts.kit.here()?.act[command]();
  return {
    accept: act('accept'),
    'accept-unsure': act('accept-unsure'),
    'a-inverted': act('a-inverted'),
    'b-inverted': act('b-inverted'),
    'leave-so': act('leave-so'),
    'put-off': act('put-off'),
  };
}

function overCommands({
  meter,
  over,
  setOver,
  setHelp,
  kitAndBack,
  sum,
  showSum,
}: AppContext): Record<'call-out' | 'why' | 'try' | 'sums' | 'help' | 'kit' | 'back', () => void> {
  const toggle = (which: Over) => (): void => {
    if (meter.page() === 'meter') setOver(over() === which ? null : which);
  };
  return {
    'call-out': toggle('call-out'),
    why: toggle('why'),
    sums() {
      if (sum() !== null) return showSum(null);
      if (meter.page() !== 'meter') return firstSum();
      const first = over() === 'try' ? 'try-shift' : over() === null ? 'delay' : null;
      if (first !== null) showSum(first);
    },
    try: toggle('try'),
    help: () => setHelp(true),
    kit() {
      setOver(null);
      kitAndBack();
    },
    back() {
      if (sum() !== null) showSum(null);
      else if (over() !== null) setOver(null);
      else if (document.activeElement?.matches('input, select, textarea'))
        stepOut(document.activeElement as HTMLElement);
    },
  };
}

type PlotCommand = 'band-0' | 'band-1' | 'band-2' | 'band-3' | 'band-4' | 'comb' | 'curve';

function settingCommands({ settings, plots }: AppContext): Record<PlotCommand | 'lights', () => void> {
  const band = (index: number) => (): void => settings.setTraceBand(index);
  return {
    'band-0': band(0),
    'band-1': band(1),
    'band-2': band(2),
    'band-3': band(3),
    'band-4': band(4),
    // whether the comb is shown unasked, the plot itself knows
    comb: () => pressed('comb'),
    curve: () => plots.setCurve(!plots.curve()),
    lights: () => settings.setLights(LIGHTS[(LIGHTS.indexOf(settings.lights()) + 1) % LIGHTS.length] ?? 'auto'),
  };
}
