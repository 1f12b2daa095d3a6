/** What every part of the screen can reach, made once. */
import { createEffect, createMemo, createSignal, on } from 'solid-js';
import { NOTHING_TRIED } from '../../advice/tryOut/tried';
import type { Meter } from '../../state/meter/meterTypes';
import type { Settings } from '../../state/settings/settings';
import { createPlotChoice } from '../../state/views/plotChoice';
import { createTryChoice } from '../../state/views/tryChoice';
import type { AppContext, Parts } from '../shared/appScope';
import type { Command } from '../shared/keys';
import { createLights } from './createLights';
import { createOver } from './createOver';
import { createPageTurns } from './createPageTurns';
import { createSecondScreen } from './createSecondScreen';
import { createShown } from './createShown';

export interface AppParts {
  meter: Meter;
  settings: Settings;
  parts: Parts;
}

/** To be called where effects have an owner. */
export function createApp({ meter, settings, parts }: AppParts): AppContext {
  const kit = parts.kit.here;
  const [help, setHelp] = createSignal(false);
  const [over, setOver] = createOver(meter, parts);
  const [sum, showSum] = createSignal<string | null>(null);
  // numbers are of a page, and of what lies over it
  createEffect(on([meter.page, over], () => void showSum(null)));
  const trying = createTryChoice();
  // another pair: nothing of the last one's is tried with it
  const drum = createMemo(() => meter.reading()?.drum ?? null);
  createEffect(on([meter.source, meter.swapped, drum], () => trying.take(NOTHING_TRIED)));
  const [holding, setHolding] = createSignal<Command | null>(null);
  // fetched beside the source, not after it
  createEffect(() => {
    if (meter.opening()) void parts.meter.fetch();
  });
  return {
    meter,
    settings,
    parts,
    kitAndBack: createPageTurns(meter),
    startOver() {
      kit()?.round.anew();
      meter.startOver();
    },
    swap() {
      if (!kit()?.round.refusesSwap()) meter.swap();
    },
    holding,
    setHolding,
    shown: createShown(meter, () => kit()?.round.covered() ?? false),
    over,
    setOver,
    secondScreen: createSecondScreen(() => void parts.callOutFeed.fetch()),
    sum,
    showSum: (id) => void showSum(id),
    help,
    setHelp,
    plots: createPlotChoice(),
    trying,
    inkVersion: createLights({ lights: settings.lights }),
  };
}
