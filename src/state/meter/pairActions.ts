/** What a person can do about how A and B are heard and read. */
import { batch } from 'solid-js';
import { pairKind } from '../../advice/plan/pairKinds';
import { isHalted, type Meter } from './meterTypes';
import type { MeterWorks } from './meterWorks';
import { type Restart, setHold } from './restart';

type PairActions = Pick<
  Meter,
  | 'hold'
  | 'setInvertB'
  | 'setKnownSwitch'
  | 'expect'
  | 'setSwitchedB'
  | 'chooseDrum'
  | 'chooseAction'
  | 'nameDrum'
  | 'swap'
  | 'startOver'
  | 'forgetHits'
  | 'setKind'
  | 'setTemperatureC'
  | 'followTemperatureC'
  | 'setMonitorGain'
>;

export function pairActions(works: MeterWorks, restart: Restart): PairActions {
  const { settings, signals, readout, sources, drumNames, refuses } = works;

  /**
   * B is heard turned over, or not any more; the screen says so with the first reading that is of it. A held reading takes it
   * in: the audio thread writes it anew.
   */
  function turnB(ask: (on: boolean) => void, on: boolean): void {
    ask(on);
    readout.turn('invert');
    sources.link?.invertB(signals.turnedB());
  }

  return {
    hold(on) {
      if (!refuses()) setHold(works, on);
    },
    setInvertB(on) {
      if (refuses()) return;
      // what is over can't be turned over any more, and what is on the screen is of it
      if (!sources.link && works.shown.readout.reading()) return;
      turnB(signals.askInvertB, on);
    },
    setSwitchedB(on) {
      if (on !== signals.askedSwitchedB()) turnB(signals.askSwitchedB, on);
    },
    setKnownSwitch(pressed) {
      if (pressed === signals.knownSwitch()) return;
      signals.setKnownSwitch(pressed);
      readout.rethink();
    },
    expect: (known) => signals.setKnown(known),
    chooseDrum(id) {
      if (refuses()) return;
      readout.turn('drum');
      sources.link?.chooseDrum(id);
    },
    chooseAction: (action) => readout.choose(action),
    nameDrum: (id, text) => drumNames.give(id, text),
    swap() {
      if (refuses()) return;
      batch(() => {
        signals.setSwapped((s) => !s);
        restart.begin('swap', '', restart.rerunOrOpen);
      });
    },
    startOver() {
      if (!isHalted(signals.run())) return restart.begin('restart', '', restart.rerunOrOpen);
      // whatever is held is of what is over
      signals.setHeld(false);
      restart.rerunOrOpen();
    },
    forgetHits: () => restart.begin('restart', '', restart.rerunOrOpen),
    setKind(kind, remember = true) {
      const before = pairKind(settings.kind()).maxLagMs;
      const reach = pairKind(kind).maxLagMs;
      settings.setKind(kind, remember);
      if (signals.source() && reach !== before && !isHalted(signals.run())) {
        restart.begin(
          'restart',
          reach > before ? 'now searching longer delays' : 'now searching shorter delays',
          restart.rerunOrOpen,
        );
      } else {
        if (reach !== before) works.beginLater(true);
        readout.rethink();
      }
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
