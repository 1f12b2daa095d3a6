/** What a person can do about how A and B are heard and read. */
import { batch } from 'solid-js';
import { pairKind } from '../../advice/plan/pairKinds';
import type { Meter } from './meterTypes';
import type { MeterWorks } from './meterWorks';
import { type Restart, setHold } from './restart';

type PairActions = Pick<
  Meter,
  | 'hold'
  | 'setInvertB'
  | 'setKnownSwitch'
  | 'setSwitchedB'
  | 'chooseDrum'
  | 'chooseAction'
  | 'swap'
  | 'startOver'
  | 'setKind'
  | 'setTemperatureC'
  | 'followTemperatureC'
  | 'setMonitorGain'
>;

export function pairActions(works: MeterWorks, restart: Restart): PairActions {
  const { settings, signals, readout, sources } = works;

  /** B is heard turned over, or not any more. A held reading takes it in: the audio thread writes it anew. */
  function turnB(set: (on: boolean) => void, on: boolean): void {
    // at once: with one and not the other, the reading on the screen would be of what it isn't
    batch(() => {
      readout.turn('invert');
      set(on);
    });
    sources.link?.invertB(signals.turnedB());
  }

  return {
    hold: (on) => setHold(works, on),
    setInvertB: (on) => turnB(signals.setInvertB, on),
    setSwitchedB(on) {
      if (on !== signals.switchedB()) turnB(signals.setSwitchedB, on);
    },
    setKnownSwitch(pressed) {
      if (pressed === signals.knownSwitch()) return;
      signals.setKnownSwitch(pressed);
      readout.rethink();
    },
    chooseDrum(id) {
      readout.turn('drum');
      sources.link?.chooseDrum(id);
    },
    chooseAction: (action) => readout.choose(action),
    swap() {
      batch(() => {
        signals.setSwapped((s) => !s);
        restart.begin('swap', '', restart.rerun);
      });
    },
    startOver: () => restart.begin('restart', '', restart.rerunOrOpen),
    setKind(kind, remember = true) {
      const before = pairKind(settings.kind()).maxLagMs;
      const reach = pairKind(kind).maxLagMs;
      settings.setKind(kind, remember && signals.source()?.type !== 'demo');
      if (signals.source() && reach !== before) {
        restart.begin('restart', reach > before ? 'wider reach' : 'shorter reach', restart.rerunOrOpen);
      } else readout.rethink();
    },
    setTemperatureC(value) {
      settings.setTemperatureC(value);
      readout.rethink();
    },
    followTemperatureC(value) {
      settings.followTemperatureC(value);
      readout.rethink();
    },
    setMonitorGain(gain) {
      signals.setMonitorGain(gain);
      sources.link?.setMonitorGain(gain);
    },
  };
}
