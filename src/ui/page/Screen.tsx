/** The page that is up, and what lies over it. */
import { type JSX, Match, Show, Switch } from 'solid-js';
import type { Page } from '../../state/meter/meterTypes';
import { PartOver } from '../parts/PartOver';
import { PartPage } from '../parts/PartPage';
import { useApp } from '../shared/appScope';
import { CautionList } from '../shared/Cautions';
import { type Command, KEY_OF } from '../shared/keys';
import { Start } from '../sources/Start';

const LIVE_PAGES: readonly Page[] = ['connect', 'identify', 'offset'];

export function Screen(): JSX.Element {
  const { meter, parts } = useApp();
  return (
    <Switch>
      <Match when={meter.page() === 'start'}>
        <Start />
      </Match>
      <Match when={LIVE_PAGES.includes(meter.page())}>
        <PartPage part={parts.live}>{(it) => <it.LivePages />}</PartPage>
      </Match>
      <Match when={meter.page() === 'recording'}>
        <PartPage part={parts.recording}>{(it) => <it.Recording />}</PartPage>
      </Match>
      <Match when={meter.page() === 'take'}>
        <PartPage part={parts.take}>{(it) => <it.TakePage />}</PartPage>
      </Match>
      <Match when={meter.page() === 'meter'}>
        <PartPage part={parts.meter}>{(it) => <it.MeterPage />}</PartPage>
      </Match>
      <Match when={meter.page() === 'kit'}>
        <PartPage part={parts.kit}>{(it) => <it.KitPage />}</PartPage>
      </Match>
      <Match when={meter.page() === 'hand-over'}>
        <PartPage part={parts.handOver}>{(it) => <it.HandOverPage />}</PartPage>
      </Match>
    </Switch>
  );
}

export function OverScreen(): JSX.Element {
  const { meter, parts, over, setOver, sum, showSum, help, setHelp, holding } = useApp();
  const close = (): void => setOver(null);
  return (
    <>
      <Show when={over() === 'call-out' && meter.page() === 'meter'}>
        <PartOver part={parts.callOut} onClose={close}>
          {(it) => <it.CallOut />}
        </PartOver>
      </Show>
      <Show when={over() === 'why' && meter.page() === 'meter'}>
        <PartOver part={parts.why} onClose={close}>
          {(it) => <it.Why onClose={close} />}
        </PartOver>
      </Show>
      <Show when={over() === 'try' && meter.page() === 'meter'}>
        <PartOver part={parts.tryOut} onClose={close}>
          {(it) => <it.TryOut onClose={close} />}
        </PartOver>
      </Show>
      <Show when={sum() !== null && over() === null && meter.page() === 'meter'}>
        <PartOver part={parts.sums} onClose={() => showSum(null)}>
          {(it) => <it.SumsPanel />}
        </PartOver>
      </Show>
      <Show when={over() !== null && holding() !== null}>
        <p class="hold-note" role="status">
          Hold {KEY_OF[holding() as Command]} to forget all hits
        </p>
      </Show>
      <Show when={help()}>
        <PartOver part={parts.help} onClose={() => setHelp(false)} instead={<CautionList />}>
          {(it) => <it.Help />}
        </PartOver>
      </Show>
    </>
  );
}
